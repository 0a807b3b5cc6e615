"""The week: seven days by meals, energy beside its target, what comes again and what is cooked ahead."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import streamlit as st

from mealopt.core.clock import DAYS, late, on_the_clock
from mealopt.core.nutrients import ENERGY
from mealopt.core.words import DAY_NAMES, SLOTS, duration, number
from mealopt.ui import desk, waiting
from mealopt.ui.look import cautioned, listed, picture, plain
from mealopt.ui.pictures.week_lines import energy_picture
from mealopt.ui.said import numbers_or_reason, page_of
from mealopt.ui.state import State
from mealopt.ui.weeks import WHERE, plan_days, some_days

if TYPE_CHECKING:
    from mealopt.api import Meal, PlanDay, WeekCheck


def draw() -> None:
    """The page."""
    state = desk.state()
    st.title("Week")
    if not state.without_numbers:
        cautioned()
    _planning(state)
    waiting.show(WHERE)
    week = numbers_or_reason()
    planned = {day: entry for day in DAYS if (entry := state.planned(day)) is not None}
    if week is not None and not state.without_numbers:
        st.header("Energy by day")
        chart, says = energy_picture(week, planned)
        picture(chart, 300, says, "week energy")
    if not planned:
        return
    st.header("Seven days")
    with st.container(horizontal=True, gap="small"):
        for day in DAYS:
            _day(state, day, planned)
    plan = state.week
    if plan is None:
        return
    _cooking(state)
    _rules(plan.week.checks, state.without_numbers)
    said = [*plan.week.cautions, *(words for entry in plan.days for words in entry.cautions)]
    listed("Cautions", said)
    listed("What was assumed", [*plan.week.notes, *_notes(plan.days)], open_at_first=False)


def _planning(state: State) -> None:
    """The button that plans the week, where the week is not planned or the case has changed since."""
    if state.week is None:
        apart = any(state.planned(day) for day in DAYS)
        st.info(
            "The week is not planned yet. Planned together, its dishes differ and leftovers are used."
            + (" Days that were planned alone stand below until then." if apart else "")
        )
    elif not state.current(state.week.days[0].day):
        st.warning("The case has changed since the week was planned: what stands below is for the case as it was.")
    if state.week is None or not state.current(state.week.days[0].day):
        st.button("Plan the week", type="primary", on_click=plan_week)
    some_days(state)


def plan_week() -> None:
    """Begin to plan the week for the case as it is now, unless that is done: a click may come late."""
    state = desk.state()
    if state.week is None or len(state.week.days) < len(DAYS) or not state.current(DAYS[0]):
        plan_days(DAYS, {})


def _day(state: State, day: str, planned: dict[str, PlanDay]) -> None:
    with st.container(border=True, width=306, key=f"day card {day}"):
        if st.button(DAY_NAMES[day], key=f"open {day}", help=f"Open {DAY_NAMES[day]}", width="stretch"):
            desk.change(lambda now: replace(now, day=day))
            st.switch_page(page_of("day"))
        entry = planned.get(day)
        if entry is None:
            st.caption("Not planned yet.")
            return
        for one in entry.sessions:
            st.caption(f"{on_the_clock(one.start)} {plain(one.kind)}, {plain(one.effort)}, {duration(one.minutes)}")
        lines = [f"- {on_the_clock(meal.time)}{late(meal.time)} {_meal(meal, day, planned)}" for meal in entry.meals]
        st.markdown("\n".join(lines))
        minutes = duration(sum(meal.minutes for meal in entry.meals))
        if state.without_numbers:
            st.caption(f"In the kitchen: {minutes}")
            return
        aim = entry.targets[ENERGY].aim
        wanted = "" if aim is None else f" of {number(aim)}"
        st.caption(f"{number(entry.totals.get(ENERGY, 0.0))}{wanted} kcal; in the kitchen {minutes}")


def _meal(meal: Meal, day: str, planned: dict[str, PlanDay]) -> str:
    """A dish as the week shows it: with where it was before, and where it is cooked."""
    marks = []
    if meal.cooked_on:
        marks.append(f"cooked on {meal.cooked_on}")
    elif meal.dish_id is not None:
        earlier = [
            other for other in DAYS[: DAYS.index(day)]
            if other in planned and any(one.dish_id == meal.dish_id for one in planned[other].meals)
        ]  # fmt: skip
        if earlier:
            marks.append(f"as on {', '.join(earlier)}")
    slot = f"{SLOTS[meal.slot]}: " if meal.slot in SLOTS else ""
    return f"{slot}{plain(meal.dish)}" + (f" *({'; '.join(marks)})*" if marks else "")


def _cooking(state: State) -> None:
    plan = state.week
    if plan is None or not plan.week.cooking:
        return
    st.header("Cooked ahead")
    for entry in plan.week.cooking:
        for dish in entry.cook:
            grams = ", ".join(f"{food} {number(amount)} g" for food, amount in dish.grams.items())
            with st.container(border=True):
                st.markdown(f"**{DAY_NAMES[entry.day]}: {plain(dish.dish)}**, {duration(dish.minutes)}")
                st.markdown(f"For {plain(', '.join(dish.meals))}. In all {plain(grams)}. "
                            f"Keeps {dish.keeps_days} days in the fridge.")  # fmt: skip


def _rules(checks: tuple[WeekCheck, ...], without_numbers: bool) -> None:
    unmet = [check for check in checks if not check.met]
    st.header("The week's rules")
    for check in unmet:
        st.markdown(f"**Not met:** {_rule(check, without_numbers)}")
    with st.expander(f"Met: {len(checks) - len(unmet)} of {len(checks)}"):
        st.markdown("\n".join(f"- {_rule(check, without_numbers)}" for check in checks if check.met))


def _rule(check: WeekCheck, without_numbers: bool) -> str:
    unit = f" {check.unit}" if check.unit and check.unit != "times" else ""
    value = "" if without_numbers else f": {number(check.value)}{unit}"
    known = f", known for {100 * check.known:.0f} % of the food" if check.known < 0.995 else ""
    why = f". {check.says}" if check.says and not check.met else ""
    return plain(check.rule + value + known + why)


def _notes(days: tuple[PlanDay, ...]) -> list[str]:
    """What was assumed: what holds of every day once, the rest with its day."""
    notes: dict[str, list[str]] = {}
    for entry in days:
        for note in dict.fromkeys(entry.notes):
            notes.setdefault(note, []).append(entry.day)
    return [note if len(named) == len(days) else f"{', '.join(named)}: {note}" for note, named in notes.items()]
