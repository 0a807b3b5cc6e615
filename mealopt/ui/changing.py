"""Changing a planned day: another food, another dish, a meal held or skipped, something else eaten."""

from __future__ import annotations

from typing import TYPE_CHECKING

import streamlit as st

from mealopt.ui.look import plain

if TYPE_CHECKING:
    from mealopt.api import Meal, PlanDay
    from mealopt.ui.state import State


def food_row(state: State, entry: PlanDay, meal: Meal, place: int, words: str) -> None:
    """One food."""
    st.markdown(f"- {plain(words)}")


def meal_actions(state: State, entry: PlanDay, meal: Meal) -> None:
    """What can be done with the whole meal."""
