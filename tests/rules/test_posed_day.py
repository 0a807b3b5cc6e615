"""A small day of real dishes: both engines find the same least penalty, and the answer keeps every row."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from mealopt.core.bands import Band
from mealopt.core.filters import FoodFilter
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FAT, FIBRE, FRUIT_VEGETABLE, PROTEIN
from mealopt.core.slots import Slot
from mealopt.menu.dishes import shipped_menu
from mealopt.menu.plates import Larder, plate
from mealopt.milp import cbc
from mealopt.milp.answer import Status
from mealopt.milp.elastic import clashing_rows, least_relaxation
from mealopt.milp.highs import Highs
from mealopt.milp.stages import solve_in_stages
from mealopt.rules import weights
from mealopt.rules.problem import Problem, Wishes
from mealopt.rules.registry import families, pose
from tests.rules import tiny

MENU = shipped_menu()

SLOTS: tuple[Slot, ...] = (
    tiny.slot(0, "breakfast", energy_least=250, energy_aim=550, energy_most=900, protein_least=15.0),
    tiny.slot(1, "lunch", energy_least=350, energy_aim=650, energy_most=1000, protein_least=20.0),
    tiny.slot(2, "before", energy_least=80, energy_aim=200, energy_most=500, settles=True, limits={FIBRE: 6, FAT: 15}),
    tiny.slot(3, "dinner", energy_least=350, energy_aim=700, energy_most=1000, protein_least=20.0),
)

BANDS = {
    ENERGY: Band(2058.0, 2100.0, 2142.0),
    PROTEIN: Band(95.0, 105.0, 150.0),
    CARBOHYDRATE: Band(200.0, 260.0, 330.0),
    FAT: Band(40.0, 70.0, 90.0),
    FIBRE: Band(20.0, 29.0, 60.0),
    FRUIT_VEGETABLE: Band(least=250.0),
}


#: Rows that the rest implies, left out where a clash is looked for.
IMPLIED = frozenset({"limits of a plate"})


def posed(number: int, bands: dict[str, Band] | None = None, leave_out: frozenset[str] = frozenset()) -> Problem:
    """Four meals with four random dishes to choose from in each."""
    chance, larder = random.Random(number), Larder(MENU, FoodFilter())
    plates = []
    for slot in SLOTS:
        fitting = [made for dish in MENU.dishes.values() if (made := plate(dish, slot, larder)) is not None]
        plates.append(tuple(chance.sample(fitting, 4)))
    problem = Problem(SLOTS, tuple(plates), bands or BANDS, Wishes(produce_kinds=2, whole_food_share=0.5))
    pose(problem, leave_out)
    return problem


def check(problem: Problem, values: list[float]) -> None:
    """Every row holds, whole columns are whole, and each term's share is nought or more."""
    for row in problem.model.rows:
        activity = row.activity(values)
        assert row.least is None or activity >= row.least - 1e-4, row.name
        assert row.most is None or activity <= row.most + 1e-4, row.name
    for column, whole in enumerate(problem.model.whole):
        assert not whole or abs(values[column] - round(values[column])) < 1e-5
    shares = problem.shares(values)
    assert min(shares.values()) >= -1e-6
    assert sum(shares.values()) == pytest.approx(problem.model.value(values), abs=1e-5)
    for options in problem.servings:
        assert sum(round(values[serving.served]) for serving in options) == 1


@pytest.mark.parametrize("number", [1, 2])
def test_both_engines_and_the_stages_find_the_same_penalty(number: int) -> None:
    problem = posed(number)
    gap = 0.002
    first = Highs(problem.model).solve(gap, 60.0)
    second = cbc.solve(problem.model, gap, 60.0)
    groups = [[serving.served for serving in options] for options in problem.servings]
    third = solve_in_stages(problem.model, groups, gap, 1.0, 60.0)
    answers = (first, second, third)
    assert all(answer.status in (Status.OPTIMAL, Status.GAP) for answer in answers)
    for answer in answers:
        check(problem, answer.values)
        assert answer.objective == pytest.approx(first.objective, rel=2 * gap)
        assert max(other.bound for other in answers) <= answer.objective + 1e-4 * abs(answer.objective)
    assert first.objective >= 0


def test_each_term_charges_something_on_some_day() -> None:
    silent = {"refuelling between sessions", "preferred and avoided", "powder for food"}
    terms = {entry.name for entry in families() if entry.is_term}
    charged: set[str] = set().union(*(posed(number).costs for number in range(1, 9)))
    assert terms - charged <= silent
    assert weights.FLOOR > 0


def test_what_clashes_and_the_least_that_gives_in_a_day() -> None:
    """Protein that no plate can hold within the energy: the clash names it, and easing it by so much is enough."""
    problem = posed(1, BANDS | {PROTEIN: Band(400.0, 410.0, 420.0)}, IMPLIED)
    model = problem.model
    assert Highs(model).solve().status is Status.INFEASIBLE
    clash = clashing_rows(model, seconds=30.0)
    assert "protein_g_least" in clash
    assert set(clash) <= {row.name for row in model.rows if row.relaxable}
    numbers = [number for number, row in enumerate(model.rows) if row.name == "protein_g_least"]
    relief = least_relaxation(model, numbers, seconds=30.0, gap=0.05)
    assert relief is not None
    (give,) = relief.gives
    assert (give.name, give.side) == ("protein_g_least", "least")
    model.rows[give.row] = replace(model.rows[give.row], least=400.0 - give.by)
    check(problem, relief.values)
    not_enough = posed(1, BANDS | {PROTEIN: Band(400.0 - 0.9 * give.by, 410.0, 420.0)})
    assert Highs(not_enough.model).solve(seconds=30.0).status is Status.INFEASIBLE
