"""What a slot asks of its meal, asked of each plate: implied by the slot's own rows, so it may never ask for more."""

from __future__ import annotations

import pytest

from mealopt.core.nutrients import FAT, FIBRE, PROTEIN
from mealopt.milp.highs import Highs
from mealopt.milp.model import Row
from mealopt.rules.meal_energy import OTHER_MOST_G
from mealopt.rules.problem import Problem
from mealopt.rules.registry import pose
from tests.rules import tiny
from tests.rules.small_day import small_day

COVERS = "limits of a plate"
OF_THE_SLOT = ("size of a meal", "window before a session", "protein of a meal", "carbohydrate of a meal")


def posed(**limits: object) -> Problem:
    """Rice and oil, or beans alone, in a slot that asks this."""
    mixed = tiny.plate(
        "mixed",
        tiny.part("base", tiny.food("rice", steps=(2, 80))),
        tiny.part("fat", tiny.food("oil", **{FAT: 1.0}), pick=(0, 1)),
    )
    beans = tiny.simple("beans", steps=(2, 80), **{PROTEIN: 0.2, FIBRE: 0.05})
    return tiny.day((tiny.slot(0, **limits), tiny.slot(1)), (mixed, beans), (tiny.simple("other"),))


@pytest.mark.parametrize(
    ("limits", "dish", "within", "beyond"),
    [
        ({"energy_least": 200.0}, "mixed", {"rice": 200}, {"rice": 190}),
        ({"energy_most": 300.0}, "mixed", {"rice": 200, "oil": 100}, {"rice": 210, "oil": 100}),
        ({"limits": {FIBRE: 5.0}}, "beans", {"beans": 100}, {"beans": 110}),
        ({"limits": {FIBRE: 5.0, FAT: 12.0}}, "mixed", {"rice": 100, "oil": 10}, {"rice": 110, "oil": 10}),
        ({"protein_least": 20.0}, "beans", {"beans": 100}, {"beans": 90}),
        ({"protein_least": 20.0}, "mixed", {"rice": 200}, {"rice": 190}),
        ({"carbohydrate_least": 10.0}, "mixed", {"rice": 90, "oil": 10}, {"rice": 80, "oil": 10}),
        ({"carbohydrate_most": 20.0}, "mixed", {"rice": 200}, {"rice": 210}),
        ({}, "mixed", {"rice": OTHER_MOST_G}, {"rice": OTHER_MOST_G + 10}),
    ],
)
def test_it_asks_what_the_slot_asks(
    limits: dict[str, object], dish: str, within: dict[str, float], beyond: dict[str, float]
) -> None:
    problem = posed(**limits)
    for grams, ok in ((within, True), (beyond, False)):
        eaten = {0: (dish, grams), 1: ("other", {"other": 10.0})}
        assert tiny.holds(problem, COVERS, eaten) == ok
        assert all(tiny.holds(problem, name, eaten) for name in OF_THE_SLOT) == ok


def test_halves_of_two_plates_do_not_meet_a_limit_together() -> None:
    """Half of a plate of 10 g fibre and half of one of none hold 5 g; the slot's row alone would take that."""
    rich = tiny.plate("rich", tiny.part("all", tiny.food("bran", steps=(10, 10), **{FIBRE: 0.1})))
    poor = tiny.plate("poor", tiny.part("all", tiny.food("rice", steps=(10, 10), **{FIBRE: 0.0})))
    problem = tiny.day((tiny.slot(0, limits={FIBRE: 5.0}),), (rich, poor))
    halves = [0.0] * problem.model.columns
    for serving in problem.servings[0]:
        halves[serving.served] = 0.5
    broken: list[Row] = [row for row in tiny.rows(problem, COVERS).values() if row.activity(halves) > (row.most or 0.0)]
    assert [row.name for row in broken] == [f"plate_rich_0_{FIBRE}_most"]


def test_a_days_penalty_is_the_same_without_it() -> None:
    ends = []
    for leave_out in (frozenset[str](), frozenset({COVERS})):
        problem = small_day()
        pose(problem, leave_out)
        ends.append(Highs(problem.model).solve(gap=0.0).objective)
    assert ends[0] == pytest.approx(ends[1], abs=1e-4)
    assert ends[0] > 0
