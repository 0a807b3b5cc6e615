"""Dishes that other days have more right to."""

from __future__ import annotations

import pytest

from mealopt.rules import weights
from tests.rules import tiny

COVERS = "dishes of other days"


@pytest.mark.parametrize(("first", "second", "places"), [("a", "d", 0), ("c", "d", 2), ("b", "e", 2)])
def test_a_dish_costs_its_place_in_the_order(first: str, second: str, places: int) -> None:
    plates = (tuple(tiny.simple(name) for name in "abc"), tuple(tiny.simple(name) for name in "de"))
    problem = tiny.day((tiny.slot(0), tiny.slot(1)), *plates)
    eaten = {0: (first, {first: 10.0}), 1: (second, {second: 10.0})}
    assert tiny.penalty(problem, COVERS, eaten) == pytest.approx(places * weights.PLACE)
