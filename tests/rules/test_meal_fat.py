"""No meal that is mostly fat."""

from __future__ import annotations

import pytest

from mealopt.core.nutrients import FAT
from mealopt.rules import weights
from tests.rules import tiny

COVERS = "fat of a meal"


@pytest.mark.parametrize(("fat", "grams"), [(0.03, 200.0), (0.08, 200.0), (0.1, 100.0)])
def test_fat_beyond_a_share_of_the_meals_energy_is_charged(fat: float, grams: float) -> None:
    """The tiny foods hold 1 kcal a gram, so the free grams of fat are the share of the grams / 9."""
    plate = tiny.plate("lunch", tiny.part("all", tiny.food("stew", **{FAT: fat}, steps=(1, 40))))
    problem = tiny.day((tiny.slot(0, "lunch", main=True),), (plate,))
    over = max(0.0, fat * grams - weights.MEAL_FAT_FREE * grams / 9.0)
    charged = tiny.penalty(problem, COVERS, {0: ("lunch", {"stew": grams})})
    assert charged == pytest.approx(weights.MEAL_FAT * over, abs=1e-6)


def test_a_snack_may_be_nuts() -> None:
    plate = tiny.plate("nuts", tiny.part("all", tiny.food("nuts", **{FAT: 0.1})))
    assert tiny.rows(tiny.day((tiny.slot(0, "snack", main=False),), (plate,)), COVERS) == {}
