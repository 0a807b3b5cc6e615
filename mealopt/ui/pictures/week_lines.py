"""The training week in one picture, and its energy by day."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import altair as alt
import pandas as pd

from mealopt.core.clock import DAYS
from mealopt.core.nutrients import ENERGY
from mealopt.core.words import duration, number
from mealopt.ui.look import BLUE, GREY, VERMILLION, clock_axis, value_colour

if TYPE_CHECKING:
    from mealopt.api import Case, PlanDay, WeekTargets

KINDS = ["endurance", "lifting"]


def training_picture(case: Case) -> tuple[Any, str]:
    """A row a day, a bar a session, and the same in words."""
    rows = [
        {"day": one.day, "from": one.start_minute, "to": one.end_minute, "name": one.kind,
         "what": "endurance" if one.endurance else "lifting",
         "says": f"{one.day} {one.start} {one.kind}, {one.effort}, {duration(one.minutes)}"}
        for one in case.session
    ]  # fmt: skip
    frame = pd.DataFrame(rows, columns=["day", "from", "to", "name", "what", "says"])
    hours = [(case.kitchen_on(day).wake, case.kitchen_on(day).sleep) for day in DAYS]
    first, last = min(wake for wake, _ in hours), max(sleep for _, sleep in hours)
    awake = pd.DataFrame(
        [{"day": day, "from": wake, "to": sleep} for day, (wake, sleep) in zip(DAYS, hours, strict=True)]
    )
    across = alt.X("from:Q", scale=alt.Scale(domain=[first - 15, last + 15], nice=False),
                   axis=clock_axis(first, last, 180))  # fmt: skip
    down = alt.Y("day:N", sort=list(DAYS), scale=alt.Scale(domain=list(DAYS)), title=None,
                 axis=alt.Axis(ticks=False, domain=False, labelPadding=6))  # fmt: skip
    day = alt.Chart(awake).mark_bar(height=4, color=GREY, opacity=0.35, yOffset=10).encode(x=across, x2="to:Q", y=down)
    colour = alt.Color("what:N", scale=alt.Scale(domain=KINDS, range=[BLUE, VERMILLION]),
                       legend=alt.Legend(title=None, orient="bottom"))  # fmt: skip
    bars = alt.Chart(frame).mark_bar(height=16, cornerRadius=3, yOffset=10)
    bars = bars.encode(x=across, x2="to:Q", y=down, color=colour, tooltip=alt.Tooltip("says:N", title="session"))
    names = alt.Chart(frame).mark_text(align="left", dy=-8).encode(x=across, y=down, text="name:N")
    words = ". ".join(frame["says"]) or "No session this week"
    return alt.layer(day, bars, names), words


def energy_picture(week: WeekTargets, planned: dict[str, PlanDay]) -> tuple[Any, str]:
    """Energy asked for by day, baseline and training one upon the other, with what the plan holds as a mark."""
    parts = []
    for day, entry in week.days.items():
        aim = entry.bands[ENERGY].aim or 0.0
        base = min(aim, entry.baseline_kcal)
        parts.append({"day": day, "part": "without training", "kcal": base, "order": 0})
        parts.append({"day": day, "part": "for training", "kcal": aim - base, "order": 1})
    have = pd.DataFrame([{"day": day, "kcal": entry.totals.get(ENERGY), "part": "on the plate"}
                         for day, entry in planned.items()], columns=["day", "kcal", "part"])  # fmt: skip
    frame = pd.DataFrame(parts)
    across = alt.X("day:N", sort=list(DAYS), scale=alt.Scale(domain=list(DAYS)), title=None,
                   axis=alt.Axis(labelAngle=0, ticks=False))  # fmt: skip
    names = ["without training", "for training", *(["on the plate"] if planned else [])]
    colours = ["#9AA5A0", VERMILLION, value_colour()][: len(names)]
    colour = alt.Color("part:N", scale=alt.Scale(domain=names, range=colours),
                       legend=alt.Legend(title=None, orient="bottom", columns=2))  # fmt: skip
    down = alt.Y("kcal:Q", title="kcal", axis=alt.Axis(tickCount=5, format=",d"))
    bars = alt.Chart(frame).mark_bar(width=alt.RelativeBandSize(0.62)).encode(
        x=across, y=down, color=colour, order="order:Q",
        tooltip=["day:N", "part:N", alt.Tooltip("kcal:Q", format=",.0f")])  # fmt: skip
    marks = alt.Chart(have).mark_tick(thickness=4, width=alt.RelativeBandSize(0.8)).encode(
        x=across, y=alt.Y("kcal:Q"), color=colour, tooltip=["day:N", alt.Tooltip("kcal:Q", format=",.0f")])  # fmt: skip
    said = []
    for day, entry in week.days.items():
        here = planned.get(day)
        eaten = f", {number(here.totals.get(ENERGY, 0.0))} on the plate" if here else ""
        said.append(f"{day} {number(entry.bands[ENERGY].aim or 0.0)} kcal{eaten}")
    return alt.layer(bars, marks) if len(have) else bars, "; ".join(said)
