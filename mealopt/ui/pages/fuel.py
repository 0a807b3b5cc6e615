"""Food and drink in sessions: what goes into which bottle and pocket, and when it is eaten."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import streamlit as st

from mealopt import api
from mealopt.core.words import duration, measured, number
from mealopt.ui import desk, waiting
from mealopt.ui.look import cautioned, listed, picture, plain
from mealopt.ui.pictures.session_clock import session_clock
from mealopt.ui.said import day_title, name_of, pick_day
from mealopt.ui.state import State

if TYPE_CHECKING:
    from mealopt.api import FuelPlan

WHERE, SHEET = "fuel", "race sheet"
#: Seconds for one session.
SECONDS = 6.0


def draw() -> None:
    """The page."""
    st.title("Session fuel")
    cautioned()
    day = pick_day("fuel day")
    st.header(day_title(day))
    state = desk.state()
    waiting.show(WHERE)
    plans = known(state, day)
    if not state.without_numbers and any(one.effort == "race" for one in state.case.session):
        _sheet(state)
    if plans is None:
        st.info(f"What to carry on {name_of(day)} is not worked out yet for the case as it is.")
        st.button(f"Work it out for {name_of(day)}", type="primary", on_click=begin, args=(day,))
        return
    if not plans:
        st.markdown("No session of this day is endurance of more than an hour: nothing is packed.")
    for plan in plans:
        _session(plan, state.without_numbers)
    listed("Cautions", [caution for plan in plans for caution in plan.cautions])
    listed("What was assumed", [note for plan in plans for note in plan.notes], open_at_first=False)


def known(state: State, day: str) -> tuple[FuelPlan, ...] | None:
    """What is known of the day's sessions: of its plan, or worked out apart; None where neither is of this case."""
    apart = state.fuel.get(day)
    if apart is not None and apart[0] == state.case:
        return apart[1]
    entry = state.planned(day)
    if entry is None or not state.current(day):
        return None
    return tuple(one.fuel for one in entry.sessions if one.fuel is not None)


def begin(day: str) -> None:
    """Begin to work out the sessions of this day."""
    case = desk.state().case

    def take(state: State, found: Any) -> State:
        return replace(state, fuel={**state.fuel, day: (case, found)})

    desk.begin(f"Working out what to carry on {name_of(day)}.", f"fuel {day} {api.case_text(case)}", WHERE,
               lambda progress, stop: api.fuel(case, day=day, seconds=SECONDS), take, can_stop=False)  # fmt: skip


def _sheet(state: State) -> None:
    """The page of text for the day of a race: made when it is asked for, to be read here and taken along."""
    with st.expander("The sheet for the day of the race", expanded=state.sheet is not None):
        if state.sheet is None or state.sheet[0] != state.case:
            st.markdown("The days before, the morning, what to pack, the race by the clock, the hours after.")
            st.button("Write the sheet", on_click=_write_sheet)
        else:
            st.download_button("Sheet as plain text", state.sheet[1], "race.txt", "text/plain", on_click="ignore")
            st.code(state.sheet[1], language=None, wrap_lines=True)
        waiting.show(SHEET)


def _write_sheet() -> None:
    state = desk.state()
    case, week = state.case, state.week
    plan = week if week is not None and state.current(week.days[0].day) else None
    desk.begin("Writing the sheet for the day of the race.", f"sheet {api.case_text(case)}", SHEET,
               lambda progress, stop: api.event_sheet(case, plan=plan, seconds=SECONDS),
               lambda now, found: replace(now, sheet=(case, found)), can_stop=False)  # fmt: skip


def _session(plan: FuelPlan, without_numbers: bool) -> None:
    kind = f"Session {plan.session}: {plain(plan.kind)}, {plain(plan.effort)}, {duration(plan.minutes)}"
    st.subheader(f"{kind}, {plan.start} to {plan.ends}")
    if plan.optional:
        st.caption("Easy work: it can be done without.")
    if without_numbers:
        _packed(plan)
    else:
        left, right = st.columns(2, gap="large")
        with left:
            _packed(plan)
        with right:
            _numbers(plan)
    if plan.steps:
        chart, height, says = session_clock(plan)
        picture(chart, height, says, f"clock {plan.day} {plan.session}")
        with st.expander("By the clock"):
            for step in plan.steps:
                where = "" if step.km is None else f", {step.km:.1f} km"
                st.markdown(f"**{step.time}**{where}: {plain(step.says)}")
    for title, lines in (("Before", plan.before), ("After", plan.after)):
        listed(title, lines, open_at_first=False)


def _packed(plan: FuelPlan) -> None:
    if plan.bottles:
        st.markdown("**In the bottles**")
    for bottle in plan.bottles:
        st.markdown(f"{bottle.count} x {bottle.ml} ml {plain(bottle.name)}")
        if bottle.holds:
            st.caption(f"Each: {plain(bottle.says)}")
    if plan.carried:
        st.markdown("**To eat**")
    for thing in plan.carried:
        held = ", ".join(f"{measured(food.measure, food.food)} ({number(food.grams)} g)" for food in thing.holds)
        st.markdown(plain(thing.name))
        st.caption(f"Each {plain(held)}. {plain(thing.says)}")


def _numbers(plan: FuelPlan) -> None:
    band = plan.carbohydrate_g_per_h
    asked = "nothing asked" if not band.most else f"{number(band.least or 0)}-{number(band.most)} g an hour asked"
    if plan.gives_g_per_h:
        st.markdown(f"**Carbohydrate:** {number(plan.gives_g_per_h)} g an hour ({asked}; glucose "
                    f"{number(plan.glucose_g_per_h)}, fructose {number(plan.fructose_g_per_h)})")  # fmt: skip
    else:
        st.markdown(f"**Carbohydrate:** none ({asked})")
    if plan.fluid is not None:
        fluid = plan.fluid
        planned = f"{fluid.planned_l_per_h:.2f} L an hour to thirst, {fluid.litres:.2f} L in all"
        st.markdown(f"**Fluid:** {planned}; never over {fluid.ceiling_l_per_h:.2f} L an hour ({plain(fluid.how)})")
        if fluid.short_kg is not None:
            st.markdown(f"**Expected loss:** {fluid.short_kg:.1f} kg, {fluid.short_percent:.1f} % of body mass")
        else:
            st.markdown("**Expected loss:** not known without a sweat test")
    if plan.sodium is not None:
        st.markdown(f"**Sodium:** {_sodium(plan)}")
    if plan.weight_g:
        st.markdown(f"**Weighs:** {plan.start_weight_g / 1000:.1f} kg at the start")


def _sodium(plan: FuelPlan) -> str:
    assert plan.sodium is not None
    sodium = plan.sodium
    if not sodium.asked:
        return f"none asked for ({number(sodium.planned_mg)} mg are in it)"
    return (
        f"{number(sodium.planned_mg_per_l)} mg for each litre, {number(sodium.planned_mg)} mg in all (aim "
        f"{number(sodium.aim_mg_per_l)}, never over {number(sodium.ceiling_mg_per_l)} mg/L; {plain(sodium.how)})"
    )
