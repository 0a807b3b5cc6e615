"""Main dishes that differ."""

from __future__ import annotations

import pytest

from mealopt.rules import weights
from tests.rules.weekly.eaten import meal, missed, points

COVERS = "main dishes that differ"


def test_a_dish_twice_is_met_and_three_times_is_one_too_often() -> None:
    day = [meal("lunch", "curry"), meal("dinner", "pie")]
    assert missed(COVERS, [day, day]) == {}
    assert missed(COVERS, [day, day, [meal("dinner", "curry")]]) == {"main dish": 1.0}
    assert points(COVERS, [day, day, [meal("dinner", "curry")]]) == pytest.approx(weights.WEEK_TIME)


def test_each_dish_counts_by_itself_and_snacks_do_not() -> None:
    day = [meal("lunch", "curry"), meal("dinner", "pie"), meal("snack", "nuts"), meal("breakfast", "porridge")]
    assert missed(COVERS, [day] * 4) == {"main dish": 4.0}


def test_a_case_may_allow_more() -> None:
    assert missed(COVERS, [[meal("lunch", "curry")]] * 5, main_dish_most=5) == {}
