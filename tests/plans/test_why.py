"""Why a day is as it is: each figure is what easing that limit really changes, found again by solving."""

from __future__ import annotations

from dataclasses import replace

import pytest

from mealopt import api
from mealopt.documents.plan import Plan
from mealopt.errors import BadInput
from mealopt.milp.highs import Highs
from mealopt.plans.held.standing import standing_day
from mealopt.plans.why.binding import held_problem, limits_of
from tests.plans import cases


@pytest.fixture(scope="module")
def tight() -> Plan:
    """A day whose own bands bind: little saturated fat, and hardly more protein than its least."""
    bands = [
        {"nutrient": "saturated_fat_g", "most": 10, "day": "tue"},
        {"nutrient": "protein_g", "most": 126, "day": "tue"},
    ]
    return cases.planned(cases.RUN, goal={"band": bands}, gap=0.3)


def test_each_figure_is_what_easing_really_changes(tight: Plan, evening_run: Plan) -> None:
    looked_at = 0
    for plan in (tight, evening_run):
        problem = held_problem(standing_day(plan))
        limits = {
            problem.model.rows[number].name: limit for number, limit in limits_of(standing_day(plan), problem).items()
        }
        base = Highs(problem.model).relax().objective
        for found in api.why(plan):
            place = next(at for at, row in enumerate(problem.model.rows) if row.name == found.name)
            row = problem.model.rows[place]
            by = limits[found.name].in_row
            row = replace(row, least=row.least - by) if found.side == "least" else replace(row, most=row.most + by)
            rows = [*problem.model.rows[:place], row, *problem.model.rows[place + 1 :]]
            really = base - Highs(replace(problem.model, rows=rows)).relax().objective
            assert found.buys == pytest.approx(really, rel=0.01)
            assert found.buys > 0
            assert found.penalty == pytest.approx(base)
            looked_at += 1
    assert looked_at >= 2, "some limits bind"


def test_what_does_not_buy_in_proportion_says_up_to(tight: Plan) -> None:
    problem = held_problem(standing_day(tight))
    base = Highs(problem.model).relax()
    numbers = {row.name: number for number, row in enumerate(problem.model.rows)}
    limits = limits_of(standing_day(tight), problem)
    for found in api.why(tight):
        by_dual = abs(base.duals[numbers[found.name]]) * limits[numbers[found.name]].in_row
        assert by_dual >= found.buys * 0.99, "a dual never promises too little"
        assert found.up_to == (abs(by_dual - found.buys) > 0.01 * found.buys)
        assert ("up to" in found.words) == found.up_to


def test_limits_are_eased_by_sensible_steps_and_safe_ones_stay(tight: Plan) -> None:
    steps = {"kcal": 10, "g": 1, "min": 1, "money": 1}
    for found in api.why(tight):
        assert found.step == steps.get(found.unit, found.step)
        assert found.says in found.words
        assert found.may_give or "it stays" in found.words


def test_a_food_that_is_in_already_says_where(evening_run: Plan) -> None:
    meal = next(one for one in evening_run.days[0].meals if one.slot == "dinner")
    found = api.why_not(evening_run, meal.items[0].food)
    assert meal.number in found.standing
    assert found.possible
    assert str(meal.number) in found.words[0]


def test_what_would_follow_is_a_day_that_holds(evening_run: Plan) -> None:
    eaten = {item.food for meal in evening_run.days[0].meals for item in meal.items}
    name = next(food for food in ("lentils", "salmon", "chicken breast", "beef mince, lean") if food not in eaten)
    found = api.why_not(evening_run, name)
    assert found.possible
    assert found.plan is not None
    assert api.recheck(found.plan) == []
    assert name in {item.food for meal in found.plan.days[0].meals for item in meal.items}
    assert found.changes
    assert found.penalty_after is not None
    assert found.penalty_after == pytest.approx(sum(found.plan.days[0].penalty.values()), abs=0.1)


def test_what_is_kept_out_says_by_what(vegan_day: Plan) -> None:
    found = api.why_not(vegan_day, "salmon")
    assert found.possible is False
    assert found.plan is None
    assert any("vegan" in says for says in found.clashes)


def test_what_clashes_is_named_with_what_must_give(evening_run: Plan) -> None:
    kitchen = {**evening_run.case["kitchen"], "budget_per_day": 0.5}
    case = {**evening_run.case, "kitchen": kitchen}
    poor = evening_run.model_copy(update={"case": case})
    eaten = {item.food for meal in poor.days[0].meals for item in meal.items}
    name = next(food for food in ("salmon", "cod", "beef steak") if food not in eaten)
    found = api.why_not(poor, name)
    assert found.possible is False
    assert any("a day" in says for says in found.clashes)
    assert any("of money over" in says for says in found.words)


@pytest.mark.parametrize("name", ["", "qqxxzz", "a" * 300])
def test_a_name_of_nothing_is_one_sentence(name: str, evening_run: Plan) -> None:
    with pytest.raises(BadInput, match=r"^why-not: read"):
        api.why_not(evening_run, name)
