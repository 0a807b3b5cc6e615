"""Protein powder where food would do."""

from __future__ import annotations

import pytest

from mealopt.rules import weights
from tests.rules import tiny

COVERS = "powder for food"


@pytest.mark.parametrize(("eaten", "prefer", "points"), [("whey", (), 1), ("egg", (), 0), ("whey", ("whey",), 0)])
def test_powder_costs_where_nobody_asked_for_it(eaten: str, prefer: tuple[str, ...], points: int) -> None:
    bowl = tiny.plate("bowl", tiny.part("base", tiny.food("whey", "protein_powder"), tiny.food("egg")))
    problem = tiny.day((tiny.slot(0),), (bowl,), prefer=frozenset(prefer))
    assert tiny.penalty(problem, COVERS, {0: ("bowl", {eaten: 10.0})}) == pytest.approx(points * weights.POWDER)
