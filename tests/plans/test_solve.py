"""A day's answer and its bound, beside the whole model solved exactly on small menus, and on both engines."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from mealopt.core.nutrients import ENERGY
from mealopt.errors import OutOfTime
from mealopt.menu.dishes import Menu, shipped_menu
from mealopt.menu.plates import Larder
from mealopt.milp.answer import Answer, Status
from mealopt.milp.highs import Highs
from mealopt.milp.search import tolerance
from mealopt.plans.day import solve
from mealopt.plans.day.found import NothingFits, SolvedDay
from mealopt.plans.day.pose import PosedDay
from mealopt.plans.day.solve import beyond, solve_posed
from mealopt.rules import weights
from mealopt.table.pantry import shipped_pantry
from tests.plans.cases import RUN, posed

KINDS = ("breakfast", "lunch", "dinner", "snack", "before", "after")
SEEDS = (0, 1)


def small_day(seed: int, dishes: int = 5, **keys: object) -> PosedDay:
    """A day of three main meals and what else it needs, with so many dishes for each kind of slot to choose from."""
    day = posed(meals_per_day=3, **keys)
    draw = random.Random(seed)
    menu = shipped_menu()
    kept = {
        dish.id
        for kind in KINDS
        for dish in draw.sample([dish for dish in menu.dishes.values() if kind in dish.slots], dishes)
    }
    few = Menu({name: dish for name, dish in menu.dishes.items() if name in kept}, menu.pantry)
    return replace(day, larder=Larder(few, day.larder.filter, None, day.seed))


def exact(day: PosedDay) -> Answer:
    """The whole card's model, solved in one piece and nearly to its end, without what the stages leave out."""
    card = day.card()
    card.deal(10_000)
    return Highs(day.problem(card).model).solve(gap=1e-9, seconds=60.0, gap_absolute=0.05)


@pytest.mark.parametrize(("seed", "wishes"), [(0, 0), (1, 0), (1, 40)])
def test_the_bound_of_a_card_covers_all_dishes(seed: int, wishes: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Cards that begin far too short: the bound lies under the best of all dishes, the answer within the gap of it.

    wishes: so many preferred foods, of which a short card holds some only.
    """
    day, gap = (
        small_day(seed, dishes=4, prefer=random.Random(seed).sample(sorted(shipped_pantry().foods), wishes)),
        0.004,
    )
    whole = exact(day)
    for places in (1, 3):
        monkeypatch.setattr(solve, "first_places", lambda slots, places=places: places)
        found = solve_posed(day, gap)
        assert isinstance(found, NothingFits) == (whole.status is Status.INFEASIBLE)
        if isinstance(found, SolvedDay):
            answer = found.answer
            assert answer.bound <= whole.objective + 1e-4
            assert answer.objective >= whole.bound - 1e-4
            assert answer.status in (Status.OPTIMAL, Status.GAP)
            assert answer.objective - answer.bound <= tolerance(answer.objective, gap, weights.FLOOR) + 1e-5


def test_some_of_these_small_days_can_be_planned() -> None:
    assert any(isinstance(solve_posed(small_day(seed), gap=0.5), SolvedDay) for seed in SEEDS)


def test_what_a_plate_beyond_the_card_costs_at_the_least() -> None:
    """Fix one plate beyond a short card as served: the whole model then costs no less than `beyond` said."""
    day = small_day(1)
    short, full, places = day.card(), day.card(), 2
    short.deal(places)
    full.deal(10_000)
    least = beyond(day.problem(short), places)
    assert least > 0
    model = day.problem(full).model
    servings = day.problem(full).servings
    far = [
        options[place].served for options in servings for place in (places, len(options) - 1) if place < len(options)
    ]
    engine = Highs(model)
    for column in far:
        engine.set_least(column, 1.0)
        relaxed = engine.relax()
        assert not relaxed.status.solved or relaxed.objective >= least - 1e-6
        engine.set_least(column, 0.0)


@pytest.mark.parametrize("seed", [0, 1])
def test_both_engines_find_days_of_the_same_worth(seed: int) -> None:
    day, gap = small_day(seed, dishes=5), 0.02
    one, other = solve_posed(day, gap), solve_posed(day, gap, solver="cbc", seconds=40.0)
    assert isinstance(one, NothingFits) == isinstance(other, NothingFits)
    if isinstance(one, SolvedDay) and isinstance(other, SolvedDay):
        apart = abs(one.answer.objective - other.answer.objective)
        assert apart <= 2 * tolerance(max(one.answer.objective, other.answer.objective), gap, weights.FLOOR)
        assert one.answer.bound <= other.answer.objective + 1e-4
        assert other.answer.bound <= one.answer.objective + 1e-4


def test_the_answer_keeps_every_row() -> None:
    day = posed(RUN)
    found = solve_posed(day, gap=0.1)
    assert isinstance(found, SolvedDay)
    values, model = found.answer.values, found.problem.model
    for row in model.rows:
        slack = 1e-5 * max(1.0, abs(row.least or 0.0), abs(row.most or 0.0))
        activity = row.activity(values)
        assert row.least is None or activity >= row.least - slack, row.name
        assert row.most is None or activity <= row.most + slack, row.name
    assert found.answer.objective == pytest.approx(model.value(values), abs=1e-4)
    assert sum(found.problem.shares(values).values()) == pytest.approx(found.answer.objective, abs=1e-4)
    assert day.bands[ENERGY].holds(sum(values[column] * one for column, one in found.problem.day_sum(ENERGY)), 0.1)


def test_no_time_at_all_is_said() -> None:
    with pytest.raises(OutOfTime, match="--seconds"):
        solve_posed(posed(), seconds=0.0)


def test_the_same_day_is_planned_the_same_way_twice() -> None:
    one, other = (solve_posed(posed(), gap=0.1) for _ in range(2))
    assert isinstance(one, SolvedDay)
    assert isinstance(other, SolvedDay)
    assert one.answer.values == other.answer.values


def test_progress_is_told_as_the_value_falls() -> None:
    told: list[str] = []
    solve_posed(posed(RUN), gap=0.02, progress=told.append)
    assert told
    assert all(words.startswith("penalty ") for words in told)
