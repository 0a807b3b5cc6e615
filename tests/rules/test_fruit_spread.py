"""Fruit and vegetables spread over the day's meals."""

from __future__ import annotations

import pytest

from mealopt.core.bands import Band
from mealopt.core.nutrients import FRUIT_VEGETABLE
from mealopt.rules import weights
from tests.rules import tiny

COVERS = "fruit and vegetables spread"
SLOTS = (tiny.slot(0), tiny.slot(1))
PLATES = ((tiny.simple("salad", "vegetable", steps=(1, 60)),), (tiny.simple("apple", "fruit", steps=(1, 60)),))


@pytest.mark.parametrize("band", [Band(aim=400.0), Band(least=400.0), Band(least=300.0, aim=400.0)])
def test_more_than_half_of_the_days_in_one_meal(band: Band) -> None:
    problem = tiny.day(SLOTS, *PLATES, bands={FRUIT_VEGETABLE: band})

    def charged(first: float, second: float) -> float:
        return tiny.penalty(problem, COVERS, {0: ("salad", {"salad": first}), 1: ("apple", {"apple": second})})

    assert charged(200, 200) == pytest.approx(0.0, abs=1e-6)
    assert charged(240, 10) == pytest.approx(weights.PRODUCE_SPREAD)
    assert charged(400, 280) == pytest.approx(weights.PRODUCE_SPREAD * (5 + 2))


def test_nothing_where_the_day_asks_for_none() -> None:
    assert tiny.rows(tiny.day(SLOTS, *PLATES), COVERS) == {}
    assert tiny.rows(tiny.day(SLOTS, *PLATES, bands={FRUIT_VEGETABLE: Band(most=900.0)}), COVERS) == {}
