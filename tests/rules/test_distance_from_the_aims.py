"""Distance of the day's totals from their aims."""

from __future__ import annotations

import pytest

from mealopt.core.bands import Band
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FAT, FIBRE, PROTEIN
from mealopt.rules import weights
from tests.rules import tiny

COVERS = "distance from the aims"


def charged(key: str, aim: float, grams: float, per_gram: float = 1.0) -> float:
    """Points for a day of one nutrient with this aim, over two meals."""
    held = dict.fromkeys(tiny.PER_GRAM, 0.0) | {key: per_gram}
    plates = ((tiny.simple("a", step=1.0, steps=(1, 5000), **held),), (tiny.simple("b", step=1.0, **held),))
    problem = tiny.day((tiny.slot(0), tiny.slot(1)), *plates, bands={key: Band(aim=aim)})
    return tiny.penalty(problem, COVERS, {0: ("a", {"a": grams - 10}), 1: ("b", {"b": 10.0})})


@pytest.mark.parametrize("key", [ENERGY, PROTEIN, CARBOHYDRATE, FAT, FIBRE])
def test_each_total_is_charged_beyond_its_free_share(key: str) -> None:
    free_below, free_above, below, above = weights.AIM[key]
    aim = 1000.0
    assert charged(key, aim, aim) == pytest.approx(0.0, abs=1e-6)
    assert charged(key, aim, aim * (1 - free_below)) == pytest.approx(0.0, abs=1e-6)
    assert charged(key, aim, aim * (1 + free_above)) == pytest.approx(0.0, abs=1e-6)
    assert charged(key, aim, 500.0) == pytest.approx(below * (50 - 100 * free_below))
    assert charged(key, aim, 1500.0) == pytest.approx(above * (50 - 100 * free_above))


def test_every_aim_of_a_day_has_a_weight() -> None:
    assert set(weights.AIM) == {ENERGY, PROTEIN, CARBOHYDRATE, FAT, FIBRE}
    assert all(number >= 0 for row in weights.AIM.values() for number in row)


def test_no_aim_no_charge() -> None:
    problem = tiny.day((tiny.slot(0),), (tiny.simple("a"),), bands={PROTEIN: Band(least=10.0)})
    assert tiny.penalty(problem, COVERS, {0: ("a", {"a": 200.0})}) == 0.0


@pytest.mark.parametrize(("energy", "limit"), [(1000.0, 45.0), (3000.0, 54.0)])
def test_very_much_fibre_costs_by_the_gram(energy: float, limit: float) -> None:
    """Beyond the larger of 45 g and 18 g per 1000 kcal, whatever the aim of fibre is (here none)."""
    most, per_1000, points = weights.FIBRE_HIGH
    assert limit == max(most, per_1000 * energy / 1000)
    plate = tiny.simple("a", step=1.0, steps=(1, 5000), **{FIBRE: 1.0, ENERGY: 0.0})
    problem = tiny.day((tiny.slot(0),), (plate,), bands={FIBRE: Band(most=90.0), ENERGY: Band(aim=energy)})
    base, at_limit, over = (
        tiny.penalty(problem, COVERS, {0: ("a", {"a": grams})}) for grams in (10.0, limit, limit + 10)
    )
    assert at_limit == pytest.approx(base)
    assert over - at_limit == pytest.approx(10 * points)
