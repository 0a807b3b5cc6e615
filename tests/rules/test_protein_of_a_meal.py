"""Protein spread over the meals."""

from __future__ import annotations

import pytest

from tests.rules import tiny

COVERS = "protein of a meal"


@pytest.mark.parametrize(("grams", "ok"), [(190, False), (200, True), (300, True)])
def test_least_of_a_meal(grams: float, ok: bool) -> None:
    slots = (tiny.slot(0, "dinner", protein_least=20.0), tiny.slot(1))
    problem = tiny.day(slots, (tiny.simple("a", steps=(1, 50)),), (tiny.simple("b"),))
    assert tiny.holds(problem, COVERS, {0: ("a", {"a": grams}), 1: ("b", {"b": 200})}) == ok
    (row,) = tiny.rows(problem, COVERS).values()
    assert (row.slot, row.relaxable, row.says) == (0, True, "dinner: at least 20 g protein")
