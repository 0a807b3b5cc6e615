"""Soya in a few meals of a day is free, in more it is charged; what merely seasons is not counted."""

from __future__ import annotations

import pytest

from mealopt.rules import weights
from tests.rules import tiny

COVERS = "soya in many meals"

SLOTS = tuple(tiny.slot(index) for index in range(5))
PLATES = tuple(
    (tiny.simple("tofu", "soy"), tiny.simple("miso", "soy", kin="miso"), tiny.simple("beans")) for _ in SLOTS
)


@pytest.mark.parametrize("dish", ["tofu", "miso", "beans"])
@pytest.mark.parametrize("meals", range(6))
def test_each_meal_beyond_a_few_is_charged(dish: str, meals: int) -> None:
    eaten = {index: (dish if index < meals else "beans", {dish if index < meals else "beans": 100.0})
             for index in range(5)}  # fmt: skip
    over = max(0, meals - weights.SOYA_FREE) if dish == "tofu" else 0
    assert tiny.penalty(tiny.day(SLOTS, *PLATES), COVERS, eaten) == pytest.approx(over * weights.SOYA)
