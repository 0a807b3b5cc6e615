"""Meals of a size that suits their hour."""

from __future__ import annotations

import pytest

from mealopt.rules import weights
from tests.rules import tiny

COVERS = "size of meals"


def charged(grams: float, kind: str = "lunch", aim: float = 500.0) -> float:
    problem = tiny.day((tiny.slot(0, kind, energy_aim=aim),), (tiny.simple("a", steps=(1, 500)),))
    return tiny.penalty(problem, COVERS, {0: ("a", {"a": grams})})


def test_energy_beyond_the_free_share_is_charged_by_tenths() -> None:
    free = 500 * weights.MEAL_SIZE_FREE
    assert free == 100.0
    assert [charged(grams) for grams in (410, 500, 590)] == pytest.approx([0, 0, 0], abs=1e-6)
    assert charged(500 - 110) == pytest.approx(weights.MEAL_SIZE * 0.2)
    assert charged(1000) == pytest.approx(weights.MEAL_SIZE * 8.0)
    assert charged(100) == pytest.approx(weights.MEAL_SIZE * 6.0)


def test_no_aim_or_in_a_session_nothing() -> None:
    assert charged(3000, aim=0.0) == 0.0
    assert charged(3000, kind="during") == 0.0
