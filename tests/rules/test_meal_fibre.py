"""No heap of fibre in a meal, and little of it in the hours before long or hard work."""

from __future__ import annotations

import pytest

from mealopt.core.nutrients import FIBRE
from mealopt.rules import weights
from tests.rules import tiny

COVERS = "fibre of a meal"


@pytest.mark.parametrize(
    ("kind", "main", "work", "free"),
    [
        ("lunch", True, None, weights.FIBRE_MAIN),
        ("snack", False, None, weights.FIBRE_OTHER),
        ("lunch", True, weights.FIBRE_BEFORE_MINUTES, weights.FIBRE_BEFORE),
        ("lunch", True, weights.FIBRE_BEFORE_MINUTES + 1, weights.FIBRE_MAIN),
    ],
)
@pytest.mark.parametrize("grams", [100.0, 400.0])
def test_fibre_beyond_what_is_free_is_charged(
    kind: str, main: bool, work: int | None, free: float, grams: float
) -> None:
    plate = tiny.plate(kind, tiny.part("all", tiny.food("stew", **{FIBRE: 0.06}, steps=(1, 40))))
    slot = tiny.slot(0, kind, main=main, work_minutes=work)
    charged = tiny.penalty(tiny.day((slot,), (plate,)), COVERS, {0: (kind, {"stew": grams})})
    points = weights.MEAL_FIBRE_BEFORE if free == weights.FIBRE_BEFORE and main else weights.MEAL_FIBRE
    assert charged == pytest.approx(points * max(0.0, 0.06 * grams - free), abs=1e-6)
