"""What each meal holds, added up."""

from __future__ import annotations

from dataclasses import replace

import pytest

from mealopt.core.bands import Band
from mealopt.core.nutrients import ENERGY, FIBRE, FRUIT_VEGETABLE, SODIUM
from mealopt.menu.plates import Plate
from mealopt.menu.salting import cooking_salt
from mealopt.milp.highs import Highs
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


SALT_HOLDS = {SODIUM: 400.0}


@pytest.mark.parametrize("grams", [30.0, 40.0, 50.0, 130.0, 140.0, 250.0, 590.0, 600.0, 610.0, 900.0])
def test_a_meal_holds_the_salt_that_it_is_written_with(grams: float) -> None:
    """By turns none is tasted, half a tenth is rounded up, and the most of a plate is reached."""
    soup = tiny.plate("soup", tiny.part("all", tiny.food("leek", steps=(1, 90))), salt_percent=0.5)
    plates = ((replace(soup, salt=SALT_HOLDS), tiny.simple("cake")), (tiny.simple("tea"),))
    least, most = (
        sodium_of(plates, {0: ("soup", {"leek": grams}), 1: ("tea", {"tea": 10.0})}, sign) for sign in (1.0, -1.0)
    )
    written = 400.0 * cooking_salt(0.5, grams)
    assert least == pytest.approx(written, abs=0.01)
    assert most == pytest.approx(written, abs=0.01)
    unsalted = {0: ("cake", {"cake": 100.0}), 1: ("tea", {"tea": 10.0})}
    assert sodium_of(plates, unsalted, -1.0) == pytest.approx(0.0, abs=0.01)


def sodium_of(plates: tuple[tuple[Plate, ...], ...], eaten: tiny.Eaten, sign: float) -> float:
    """The day's sodium, the least (sign 1) or most (-1) that the rows allow, in whole tenths of salt."""
    problem = tiny.day((tiny.slot(0), tiny.slot(1)), *plates, bands={SODIUM: Band(most=2300.0)})
    problem.model.rows.extend(tiny.entry(COVERS).rows(problem))
    for column, value in tiny.fixed(problem, eaten).items():
        problem.model.least[column] = problem.model.most[column] = value
    for column, _ in problem.day_sum(SODIUM):
        problem.model.cost[column] = sign
    found = Highs(problem.model).solve()
    assert found.status.solved
    return sum(found.values[column] for column, _ in problem.day_sum(SODIUM))


def test_salt_takes_no_column_where_no_band_asks_for_what_is_in_it() -> None:
    soup = replace(tiny.plate("soup", tiny.part("all", tiny.food("leek")), salt_percent=0.5), salt=SALT_HOLDS)
    problem = tiny.day((tiny.slot(0),), (soup,))
    assert not [name for name in tiny.rows(problem, COVERS) if name.startswith("salt")]
