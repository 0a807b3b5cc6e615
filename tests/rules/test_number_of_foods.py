"""Few foods on a plate."""

from __future__ import annotations

import pytest

from mealopt.rules import weights
from tests.rules import tiny

COVERS = "number of foods"


@pytest.mark.parametrize("kind", ["lunch", "during"])
@pytest.mark.parametrize("more", [-1, 0, 1, 3])
def test_each_food_beyond_the_free_number(kind: str, more: int) -> None:
    names = [f"food {number}" for number in range(weights.FOODS_FREE + 3)]
    bowl = tiny.plate("bowl", tiny.part("all", *(tiny.food(name) for name in names), pick=(1, len(names))))
    problem = tiny.day((tiny.slot(0, kind), tiny.slot(1)), (bowl,), (bowl,))
    eaten = {0: ("bowl", dict.fromkeys(names[: weights.FOODS_FREE + more], 10.0)), 1: ("bowl", {names[0]: 10.0})}
    expected = 0.0 if kind == "during" else weights.FOODS_MORE * max(0, more)
    assert tiny.penalty(problem, COVERS, eaten) == pytest.approx(expected, abs=1e-6)
