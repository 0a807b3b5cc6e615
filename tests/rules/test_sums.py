"""What each meal holds, added up."""

from __future__ import annotations

import pytest

from mealopt.core.bands import Band
from mealopt.core.nutrients import ENERGY, FIBRE, FRUIT_VEGETABLE, SODIUM
from mealopt.rules.day_bands import day_bands
from mealopt.rules.problem import Problem
from mealopt.rules.sums import JUICE_MOST_G
from tests.rules import tiny

COVERS = "sums"


def breakfast_and_dinner() -> Problem:
    bowl = tiny.plate(
        "bowl", tiny.part("base", tiny.food("oats", **{FIBRE: 0.1})), tiny.part("fruit", tiny.food("apple", "fruit"))
    )
    return tiny.day((tiny.slot(0), tiny.slot(1)), (bowl, tiny.simple("cake")), (tiny.simple("soup", "vegetable"),))


def summed(problem: Problem, eaten: tiny.Eaten, index: int, key: str) -> float:
    """What the sum column must be, by pressing it from both sides."""
    ends = []
    for sign in (1.0, -1.0):
        fresh = tiny.with_wishes(problem)
        fresh.charge("pressed", fresh.sums[index, key], 1.0)
        fresh.model.cost[fresh.sums[index, key]] = sign
        cost = tiny.least_cost(fresh, COVERS, eaten)
        assert cost is not None
        ends.append(sign * cost)
    assert ends[0] == pytest.approx(ends[1])
    return ends[0]


def test_a_meals_sum_is_that_of_its_foods() -> None:
    eaten = {0: ("bowl", {"oats": 40.0, "apple": 100.0}), 1: ("soup", {"soup": 150.0})}
    problem = breakfast_and_dinner()
    assert summed(problem, eaten, 0, ENERGY) == pytest.approx(140.0)
    assert summed(problem, eaten, 0, FIBRE) == pytest.approx(4.0 + 1.0)
    assert summed(problem, eaten, 0, FRUIT_VEGETABLE) == pytest.approx(100.0)
    assert summed(problem, eaten, 1, ENERGY) == pytest.approx(150.0)
    assert summed(problem, eaten, 1, FRUIT_VEGETABLE) == pytest.approx(150.0)


def test_a_nutrient_that_a_band_names_is_summed_too() -> None:
    problem = tiny.day((tiny.slot(0),), (tiny.simple("a"),), bands={SODIUM: Band(most=2300.0)})
    assert f"sum_{SODIUM}_0" in tiny.rows(problem, COVERS)
    assert {row.name for row in day_bands(problem)} == {f"{SODIUM}_most"}


@pytest.mark.parametrize(
    ("glasses", "least", "ok"), [((100, 0), 100, True), ((200, 0), 150, True), ((200, 0), 160, False),
                                 ((150, 150), 150, True), ((150, 150), 160, False), ((0, 0), 10, False)]
)  # fmt: skip
def test_juice_counts_once(glasses: tuple[float, float], least: float, ok: bool) -> None:
    """WHO, Healthy diet: fruit and vegetables; that juice counts as one portion at most is common practice."""
    assert JUICE_MOST_G == 150.0
    drink = tiny.plate(
        "drink", tiny.part("water", tiny.food("water")), tiny.part("juice", tiny.food("juice", "juice"), pick=(0, 1))
    )
    problem = tiny.day((tiny.slot(0), tiny.slot(1)), (drink,), (drink,), bands={FRUIT_VEGETABLE: Band(least=least)})
    eaten = {index: ("drink", {"water": 10.0, "juice": float(grams)}) for index, grams in enumerate(glasses)}
    assert tiny.holds(problem, "day's bands", eaten) == ok
