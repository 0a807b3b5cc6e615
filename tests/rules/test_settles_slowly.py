"""Foods that settle slowly in a meal before a session."""

from __future__ import annotations

import pytest

from mealopt.rules import weights
from tests.rules import tiny

COVERS = "settles slowly"


@pytest.mark.parametrize(("foods", "slow"), [(("white",), 0), (("brown",), 1), (("brown", "grain"), 2)])
def test_each_slow_food_before_a_session(foods: tuple[str, ...], slow: int) -> None:
    choices = (tiny.food("white"), tiny.food("brown", settles="slowly"), tiny.food("grain", settles="slowly"))
    bowl = tiny.plate("bowl", tiny.part("base", *choices, pick=(1, 3)))
    problem = tiny.day((tiny.slot(0, "before", settles=True), tiny.slot(1)), (bowl,), (bowl,))
    eaten = {0: ("bowl", dict.fromkeys(foods, 10.0)), 1: ("bowl", {"brown": 10.0})}
    assert tiny.penalty(problem, COVERS, eaten) == pytest.approx(slow * weights.SETTLES_SLOWLY)
