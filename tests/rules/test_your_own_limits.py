"""Bands that the case sets itself for one meal."""

from __future__ import annotations

import pytest

from mealopt.core.bands import Band
from mealopt.core.nutrients import ENERGY, SODIUM
from mealopt.rules.problem import OwnLimit
from tests.rules import tiny

COVERS = "your own limits of a meal"


@pytest.mark.parametrize(("grams", "ok"), [(90, False), (100, True), (150, True), (160, False)])
def test_both_sides_hold_in_that_meal_only(grams: float, ok: bool) -> None:
    limits = (OwnLimit(1, ENERGY, Band(100.0, None, 150.0)), OwnLimit(1, SODIUM, Band(None, None, 500.0)))
    slots = (tiny.slot(0), tiny.slot(1, "lunch"))
    problem = tiny.day(slots, (tiny.simple("a"),), (tiny.simple("b"),), own_limits=limits)
    assert tiny.holds(problem, COVERS, {0: ("a", {"a": 200}), 1: ("b", {"b": grams})}) == ok
    rows = tiny.rows(problem, COVERS)
    assert set(rows) == {"own_0_least", "own_0_most", "own_1_most"}
    assert rows["own_0_least"].says == "lunch: at least 100 kcal energy (your own)"
    assert all(row.relaxable and row.slot == 1 for row in rows.values())
