"""A meal and a session of the day as cards."""

from __future__ import annotations

from typing import TYPE_CHECKING

import streamlit as st

from mealopt.core.bands import Band
from mealopt.core.clock import on_the_clock
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FAT, FIBRE, PROTEIN
from mealopt.core.words import SLOTS, amount, duration, held, held_beside, label, limits, measured, portion
from mealopt.ui.changing import meal_actions
from mealopt.ui.look import plain
from mealopt.ui.offering import food_row, what_comes

if TYPE_CHECKING:
    from mealopt.api import Item, Meal, PlanDay, SessionEntry
    from mealopt.ui.state import State

GIVEN = (ENERGY, PROTEIN, CARBOHYDRATE, FAT, FIBRE)


def session_card(session: SessionEntry, without_numbers: bool) -> None:
    """One session: when, what, and what is eaten for it and in it."""
    with st.container(border=True):
        st.markdown(
            f"**{session.start} Session {session.number}: {plain(session.kind)}, {plain(session.effort)}**, "
            f"{duration(session.minutes)}, until {session.ends}"
        )
        if without_numbers:
            return
        if session.net_kcal:
            eaten = (
                f"{amount(session.replaced_kcal, ENERGY)} eaten for it"
                if session.replaced_kcal
                else "counted in the day without training"
            )
            st.caption(f"{amount(session.net_kcal, ENERGY)} above rest, {eaten}")
        if session.during_g is not None:
            during = Band(session.during_g.least, session.during_g.aim, session.during_g.most)
            st.caption(f"To eat in it: {limits(during, 'g')} carbohydrate in all")
        for note in session.notes:
            st.caption(plain(note))


def food_line(item: Item, without_numbers: bool) -> str:
    """A food in kitchen measure, and in grams where numbers are wanted."""
    return measured(item.measure, item.food) if without_numbers else portion(item)


def meal_card(state: State, entry: PlanDay, meal: Meal) -> None:
    """One meal: its foods, each with a way to swap it, how it is made, and what it gives."""
    slot = SLOTS.get(meal.slot, meal.slot).capitalize()
    with st.container(border=True, key=f"meal {meal.number}"):
        st.markdown(f"{_told(meal.time)} · {slot}" + (f" · {meal.minutes} min" if meal.minutes else ""))
        st.subheader(f"{meal.number}. {plain(meal.dish)}")
        if meal.eaten:
            st.caption("Eaten.")
        for place, item in enumerate(meal.items):
            food_row(entry, meal, place, item, food_line(item, state.without_numbers))
        what_comes(state, entry, meal)
        if meal.also:
            st.caption(f"Also: {plain(', '.join(meal.also))}")
        for note in meal.notes:
            st.caption(plain(note))
        if not state.without_numbers:
            st.markdown("Gives " + ", ".join(_gives(meal, key) for key in GIVEN if key in meal.totals))
            if meal.limits:
                st.caption(_window(meal))
        if meal.method:
            with st.expander("How to make it"):
                st.markdown(plain(" ".join(meal.method)))
        meal_actions(state, entry, meal)


def _told(time: str) -> str:
    return time if on_the_clock(time) == time else f"{on_the_clock(time)} (after midnight)"


def _gives(meal: Meal, key: str) -> str:
    value = held(meal.totals[key], key)
    return f"**{value}**" if key == ENERGY else f"{label(key)} {value}"


def _window(meal: Meal) -> str:
    """The limits of the meal's window beside what it holds, and which session they are for."""
    held = ", ".join(
        f"{label(key)} at most {amount(most, key)} (holds "
        f"{'unknown' if key not in meal.totals else held_beside(meal.totals[key], most, key)})"
        for key, most in meal.limits.items()
    )
    if meal.lead_minutes is None:
        return f"Limits: {held}"
    ahead = f"session {meal.before_session}" if meal.before_session is not None else "the next day's session"
    return f"{duration(meal.lead_minutes)} before {ahead}: {held}"
