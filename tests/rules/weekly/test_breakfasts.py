"""Breakfasts that differ."""

from __future__ import annotations

from tests.rules.weekly.eaten import meal, missed

COVERS = "breakfasts that differ"


def test_a_breakfast_four_times_is_met_and_five_times_is_not() -> None:
    day = [meal("breakfast", "porridge"), meal("lunch", "porridge")]
    assert missed(COVERS, [day] * 4) == {}
    assert missed(COVERS, [day] * 6) == {"breakfast": 2.0}


def test_who_wants_the_same_every_day_gets_it() -> None:
    assert missed(COVERS, [[meal("breakfast", "porridge")]] * 7, same_breakfast=True) == {}
