"""The price of the day's food."""

from __future__ import annotations

import pytest

from tests.rules import tiny

COVERS = "budget"
SLOTS = (tiny.slot(0), tiny.slot(1))
PLATES = ((tiny.simple("rice", price_per_gram=0.01),), (tiny.simple("gift"),))


@pytest.mark.parametrize(("grams", "ok"), [(120, True), (130, False)])
def test_price_of_what_is_eaten(grams: float, ok: bool) -> None:
    """1.20 for 120 g; food without a price costs nothing here, and the plan says so elsewhere."""
    problem = tiny.day(SLOTS, *PLATES, budget=1.2)
    assert tiny.holds(problem, COVERS, {0: ("rice", {"rice": grams}), 1: ("gift", {"gift": 200})}) == ok


def test_no_budget_asks_nothing() -> None:
    assert tiny.rows(tiny.day(SLOTS, *PLATES), COVERS) == {}
