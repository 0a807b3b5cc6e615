"""The day: what is eaten when, in one picture and as cards, beside the day's targets."""

from __future__ import annotations

from typing import TYPE_CHECKING

import streamlit as st

from mealopt import api
from mealopt.core.clock import minutes_of
from mealopt.core.words import ENDED, duration
from mealopt.core.words import number as said
from mealopt.errors import MealoptError
from mealopt.ui import desk, waiting
from mealopt.ui.another import another
from mealopt.ui.cards import meal_card, session_card
from mealopt.ui.changing import otherwise, skipped_words, told
from mealopt.ui.look import cautioned, listed, picture
from mealopt.ui.pictures.bands import bands_picture
from mealopt.ui.pictures.day_line import day_line, light_words
from mealopt.ui.reasons import reasons
from mealopt.ui.said import day_title, name_of, numbers_or_reason, pick_day
from mealopt.ui.state import State, with_plan

if TYPE_CHECKING:
    from mealopt.api import Plan, PlanDay

WHERE = "day"
#: Seconds that a day may be sought for.
SECONDS = 40.0


def draw() -> None:
    """The page."""
    state = desk.state()
    day = pick_day("day day")
    st.title(day_title(day))
    if not state.without_numbers:
        cautioned()
    _planning(state, day)
    waiting.show(WHERE)
    entry, plan = state.planned(day), state.plans.get(day)
    if entry is None or plan is None:
        numbers_or_reason()
        return
    told(state)
    for words in skipped_words(entry):
        st.markdown(words)
    _line(state, entry)
    otherwise(entry, state.without_numbers)
    another(state, entry)
    if state.without_numbers:
        _meals(state, entry)
    else:
        left, right = st.columns([2, 3], gap="large")
        with left, st.container(key="targets"):
            _targets(entry)
        with right:
            _meals(state, entry)
    if not state.without_numbers:
        reasons(state, entry)
    listed("Cautions", entry.cautions)
    listed("What was assumed", entry.notes, open_at_first=False)
    _found(plan, entry)


def _planning(state: State, day: str) -> None:
    """The button that plans this day, and what is to be known before it is pressed."""
    name = name_of(day)
    if state.planned(day) is None:
        st.info(f"{name} is not planned yet.")
    elif not state.current(day):
        st.warning(f"The case has changed since {name} was planned: what stands below is for the case as it was.")
    else:
        return
    st.button(f"Plan {name}", type="primary", on_click=plan_day, args=(day,))


def plan_day(day: str) -> None:
    """Begin to plan this day for the case as it is now, unless that is done: a click may come late."""
    if desk.state().current(day):
        return
    case = desk.state().case
    key = f"day {day} {api.case_text(case)}"
    desk.begin(
        f"Planning {name_of(day)}.", key, WHERE,
        lambda progress, stop: api.plan_day(case, day, seconds=SECONDS, progress=progress, stop=stop), with_plan,
    )  # fmt: skip


def _line(state: State, entry: PlanDay) -> None:
    try:
        case = api.case_from_data(state.plans[entry.day].case).beside(state.case.folder)
        spans, kitchen = desk.light_spans(case, entry.day), case.kitchen_on(entry.day)
    except MealoptError as error:
        st.error(str(error))
        return
    chart, says = day_line(entry, spans, (kitchen.wake, kitchen.sleep))
    picture(chart, 220, says, "day line")
    lines = light_words(spans)
    if lines and not state.without_numbers:
        st.caption("Light food: " + "; ".join(lines) + ".")


def _targets(entry: PlanDay) -> None:
    st.header("The day beside its targets")
    chart, height, says = bands_picture(entry)
    picture(chart, height, says, "targets")
    st.caption(
        "The bar runs from least to most, the line is the aim, the diamond is this day; a triangle has left its bar."
    )
    for words in entry.missed:
        st.warning(f"Not met: {words}")
    st.markdown(f"In the kitchen: {duration(sum(meal.minutes for meal in entry.meals))}.")


def _meals(state: State, entry: PlanDay) -> None:
    st.header("Meals")

    happenings = [(minutes_of(one.start), 0, one.number) for one in entry.sessions]
    happenings += [(minutes_of(meal.time), 1, meal.number) for meal in entry.meals]
    for _, kind, number in sorted(happenings):
        if kind == 0:
            session_card(next(one for one in entry.sessions if one.number == number), state.without_numbers)
        else:
            meal_card(state, entry, next(one for one in entry.meals if one.number == number))


def _found(plan: Plan, entry: PlanDay) -> None:
    found = entry.solve or plan.solve
    with st.expander("How this plan was found"):
        gap = "" if found.gap is None else f" At most {100 * found.gap:.2g} % from the best possible."
        st.markdown(f"{ENDED[found.status].capitalize()}.{gap} Checked again by separate arithmetic.")
        total = sum(entry.penalty.values())
        if total > 0:
            shares = sorted(entry.penalty.items(), key=lambda share: -share[1])
            told = [f"{term} {said(100 * part / total)} %" for term, part in shares if part / total > 0.005]
            st.markdown(f"What keeps it from an ideal day: {', '.join(told)}.")
        st.caption(f"Food table: {plan.table.name}.")
