"""The numbers and how they came about."""

from __future__ import annotations

import pandas as pd
import streamlit as st

from mealopt.core.bands import Band
from mealopt.core.nutrients import UNITS
from mealopt.core.words import MARKS, label, limits
from mealopt.core.words import number as said
from mealopt.ui import desk
from mealopt.ui.look import cautioned, picture, plain
from mealopt.ui.pictures.steps import steps_picture
from mealopt.ui.pictures.week_lines import energy_picture
from mealopt.ui.said import case_notes, cautions_and_assumptions, day_title, hidden_numbers, numbers_or_reason, pick_day


def draw() -> None:
    """The page."""
    st.title("Numbers")
    if desk.state().without_numbers:
        hidden_numbers()
        return
    cautioned()
    week = numbers_or_reason()
    if week is None:
        return
    st.header("The week")
    chart, says = energy_picture(week, {})
    picture(chart, 280, says, "week's energy")
    st.markdown(
        f"{said(week.sum_kcal)} kcal in the week; {said(week.baseline_kcal)} kcal on a day without endurance training. "
        "What is above it is for training."
    )
    day = pick_day("numbers day")
    entry = week.days[day]
    st.header(day_title(day))
    steps = desk.energy_steps(desk.state().case, day)
    left, right = st.columns([3, 2], gap="large")
    with left:
        st.subheader("From resting energy to the day's energy")
        chart, height, says = steps_picture(steps)
        picture(chart, height, says, "steps")
    with right:
        st.subheader("What the day is planned to")
        _bands(entry.bands, desk.state().case.athlete.mass_kg)
    cautions_and_assumptions((*week.cautions, *entry.cautions), [*case_notes(), *week.notes, *entry.notes])
    st.subheader("Each step, with its source")
    for step in steps:
        with st.container(border=True):
            sign = "" if step.reached else "+" if step.kcal >= 0 else "-"
            st.markdown(f"**{plain(step.name)}: {sign}{said(abs(step.kcal))} kcal**")
            if step.how:
                st.markdown(plain(step.how))
            if step.source:
                st.caption(f"Source: {plain(step.source)}")
    with st.expander("Protein, fat, carbohydrate and the rest: how each came about"):
        for one in (*entry.steps, *week.steps):
            st.markdown(f"**{plain(one.name)}: {said(one.value)} {one.unit}.** {plain(one.how)}  \n"
                        f"Source: {plain(one.source)}")  # fmt: skip
    st.caption(plain(MARKS))


def _bands(bands: dict[str, Band], mass: float) -> None:
    rows = []
    for key, band in bands.items():
        aim = band.aim if band.aim is not None else band.least
        each = f"{aim / mass:.1f} g" if aim and key in ("protein_g", "carbohydrate_g", "fat_g") else ""
        rows.append({"": label(key), "target": limits(band, UNITS[key]), "for each kg": each})
    st.table(pd.DataFrame(rows).set_index(""))
