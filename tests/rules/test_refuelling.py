"""Carbohydrate between two sessions that are close together."""

from __future__ import annotations

import pytest

from mealopt.core.slots import RefuelWindow
from mealopt.rules import weights
from tests.rules import tiny

COVERS = "refuelling between sessions"


@pytest.mark.parametrize(("grams", "lacks"), [(200, 0), (190, 1), (100, 10), (250, 0)])
def test_each_gram_that_a_window_lacks(grams: float, lacks: float) -> None:
    """0.1 g a gram: the meal outside the window does not help."""
    window = RefuelWindow((0, 2), least=20.0, aim=30.0, says="between the two sessions")
    slots = tuple(tiny.slot(index) for index in range(3))
    plates = tuple((tiny.simple(name, steps=(1, 50)),) for name in "abc")
    problem = tiny.day(slots, *plates, refuel=(window,))
    eaten = {0: ("a", {"a": 100.0}), 1: ("b", {"b": 500.0}), 2: ("c", {"c": grams})}
    assert tiny.penalty(problem, COVERS, eaten) == pytest.approx(weights.REFUEL * lacks)
