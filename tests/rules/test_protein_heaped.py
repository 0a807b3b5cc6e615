"""Protein beyond a multiple of a main meal's least is charged."""

from __future__ import annotations

import pytest

from mealopt.core.nutrients import PROTEIN
from mealopt.rules import weights
from tests.rules import tiny

COVERS = "protein heaped"


@pytest.mark.parametrize(("least", "grams"), [(20.0, 400.0), (20.0, 500.0), (10.0, 500.0), (0.0, 500.0)])
def test_a_heap_is_charged(least: float, grams: float) -> None:
    plate = tiny.plate("lunch", tiny.part("all", tiny.food("stew", **{PROTEIN: 0.1}, steps=(1, 60))))
    problem = tiny.day((tiny.slot(0, "lunch", protein_least=least),), (plate,))
    over = max(0.0, 0.1 * grams - weights.PROTEIN_FREE * least) if least else 0.0
    charged = tiny.penalty(problem, COVERS, {0: ("lunch", {"stew": grams})})
    assert charged == pytest.approx(weights.PROTEIN_HEAPED * over, abs=1e-6)
