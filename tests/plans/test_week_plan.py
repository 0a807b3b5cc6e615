"""A planned part of a week: each day keeps its own rules, the week's are met or named, and what is shared is found."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from mealopt import api
from mealopt.documents.plan import Plan
from mealopt.documents.reading import plan_from_text
from mealopt.errors import BadInput, Unplannable
from mealopt.menu.dishes import shipped_menu
from mealopt.people.reading import case_from_dict
from mealopt.plans.week.crew import error_of
from mealopt.plans.week.refresh import refreshed
from tests.plans.cases import ATHLETE

#: Days over the end of a calendar week.
DAYS = ("sun", "mon")
KITCHEN = {"wake": "06:30", "sleep": "22:30", "meals_per_day": 3}
WEEK = {"cooked_ahead_least": 2}


def case(**parts: Any) -> api.Case:
    data = {"schema": "mealopt/case-1", "week_of": "2027-03-08", "athlete": ATHLETE, "kitchen": KITCHEN, "week": WEEK}
    return case_from_dict(data | parts, "test week")


@pytest.fixture(scope="module")
def told() -> list[str]:
    return []


@pytest.fixture(scope="module")
def plan(told: list[str]) -> Plan:
    """Two days that follow each other, planned with a wide gap in this process."""
    return api.plan_week(case(), days=DAYS, gap=0.08, seconds=90.0, progress=told.append, processes=1)


def test_it_passes_its_recheck_and_stands_in_the_order_that_was_asked(plan: Plan) -> None:
    assert api.recheck(plan) == []
    assert plan.kind == "week"
    assert [day.day for day in plan.days] == list(DAYS)
    assert [str(day.date) for day in plan.days] == ["2027-03-14", "2027-03-15"]


def test_value_bound_and_gap_belong_together(plan: Plan, told: list[str]) -> None:
    solve = plan.solve
    assert solve.objective is not None
    assert solve.bound is not None
    assert 0 <= solve.bound <= solve.objective
    assert solve.gap == pytest.approx((solve.objective - solve.bound) / max(solve.objective, 100.0), abs=1e-5)
    assert sum(plan.week.penalty.values()) == pytest.approx(solve.objective, abs=0.2)
    own = [day.solve for day in plan.days if day.solve is not None]
    assert len(own) == 2
    assert all(one.bound is not None and one.bound <= (one.objective or 0.0) for one in own)
    assert any("gap" in words and "at best" in words for words in told)


def test_energy_balances_to_the_kilocalorie(plan: Plan) -> None:
    energy = plan.week.energy
    assert energy is not None
    assert abs(energy.aims_kcal - sum(day.targets["energy_kcal"].aim or 0.0 for day in plan.days)) < 0.5
    assert abs(energy.aims_kcal - energy.expected_kcal) < 0.5


def test_each_unmet_rule_has_its_reason(plan: Plan) -> None:
    assert len(plan.week.checks) > 25
    for check in plan.week.checks:
        assert check.met or check.says, check.rule
        assert check.source, check.rule


def test_what_is_cooked_ahead_stands_on_the_sheet_and_counts_its_minutes_once(plan: Plan) -> None:
    ahead = [(day, meal) for day in plan.days for meal in day.meals if meal.cooked_on]
    on_sheet = [words for entry in plan.week.cooking for dish in entry.cook for words in dish.meals]
    assert len(on_sheet) == len(ahead) + sum(len(entry.cook) for entry in plan.week.cooking)
    for day, meal in ahead:
        assert meal.minutes <= 5
        assert f"{day.day} {meal.time} {meal.slot}" in on_sheet
        (pot,) = [m for d in plan.days if d.day == meal.cooked_on for m in d.meals if m.dish_id == meal.dish_id]
        assert {item.food for item in pot.items} == {item.food for item in meal.items}


def test_a_changed_week_is_worked_out_anew(plan: Plan) -> None:
    again = refreshed(plan, shipped_menu())
    assert [check.value for check in again.week.checks] == [check.value for check in plan.week.checks]
    assert again.groceries == plan.groceries
    only = refreshed(plan.model_copy(update={"days": plan.days[:1]}), shipped_menu())
    assert len(only.groceries) < len(plan.groceries)
    assert only.week.energy is not None
    assert only.week.energy.eaten_kcal < (plan.week.energy.eaten_kcal if plan.week.energy else 0.0)


def changed(plan: Plan) -> dict[str, Any]:
    return copy.deepcopy(plan.model_dump(mode="json", by_alias=True))


def broken(data: dict[str, Any]) -> list[str]:
    import json

    return api.recheck(plan_from_text(json.dumps(data), "changed"))


def test_the_recheck_counts_every_rule_again(plan: Plan) -> None:
    for place, check in enumerate(plan.week.checks):
        if "pot" in check.rule:
            continue
        data = changed(plan)
        entry = data["week"]["checks"][place]
        entry["value"] = entry["value"] + max(1.0, 0.1 * entry["value"])
        assert any(repr(check.rule) in words for words in broken(data)), check.rule


def test_the_recheck_sees_a_pot_that_was_never_cooked_and_a_false_balance(plan: Plan) -> None:
    data = changed(plan)
    lunch = next(meal for meal in data["days"][1]["meals"] if meal["slot"] == "lunch")
    breakfast = next(meal for meal in data["days"][1]["meals"] if meal["slot"] == "breakfast")
    breakfast["cooked_on"] = "sun"
    assert any("cooked on sun" in words for words in broken(data))
    breakfast["cooked_on"], lunch["cooked_on"] = None, "sat"
    assert any("cooked on sat" in words for words in broken(data))
    data = changed(plan)
    data["week"]["energy"]["expected_kcal"] += 2.0
    assert any("does not balance" in words for words in broken(data))


@pytest.mark.parametrize("days", [(), ("mon", "mon"), ("mon", "wed"), ("monday",), ("sun", "sat")])
def test_days_that_do_not_follow_each_other_are_refused(days: tuple[str, ...]) -> None:
    with pytest.raises(BadInput, match="days: read"):
        api.plan_week(case(), days=days)


def test_food_to_use_up_must_be_food_that_is_eaten() -> None:
    with pytest.raises(BadInput, match="no food of the pantry"):
        api.plan_week(case(), days=DAYS, use_up={"moon dust": 100.0})
    with pytest.raises(BadInput, match="left out"):
        api.plan_week(case(kitchen=KITCHEN | {"diet": "vegan"}), days=DAYS, use_up={"salmon": 100.0})


@pytest.mark.slow
def test_a_day_that_cannot_be_planned_is_named_with_what_clashes() -> None:
    tight = KITCHEN | {"never": [], "cook_minutes": 0, "can_cook": [], "budget_per_day": 0.2}
    with pytest.raises(Unplannable) as said:
        api.plan_week(case(kitchen=tight), days=("mon",), seconds=8.0, processes=1)
    assert "mon" in str(said.value)
    assert said.value.clashes


def test_an_error_of_another_process_keeps_its_kind_and_its_clashes() -> None:
    again = error_of("Unplannable", "mon: nothing", ("a", "b"), ("c",))
    assert isinstance(again, Unplannable)
    assert (again.clashes, again.remedies, again.exit_code) == (("a", "b"), ("c",), 3)
    assert isinstance(error_of("BadInput", "read nothing", (), ()), BadInput)


def test_stopped_before_each_day_has_a_plan_nothing_is_left() -> None:
    with pytest.raises(KeyboardInterrupt):
        api.plan_week(case(), days=DAYS, stop=lambda: True)


def test_even_by_day_and_moved_weeks_have_one_sum() -> None:
    """Each day's energy differs; the week's sum does not."""
    run = {"day": "tue", "start": "17:30", "minutes": 90, "kind": "run", "effort": "steady"}
    weeks = [
        api.week_targets(case(session=[run], goal=goal))
        for goal in ({}, {"spread": "even"}, {"move": [{"from": "tue", "to": "wed", "kcal": 300}]})
    ]
    sums = [week.sum_kcal for week in weeks]
    assert max(sums) - min(sums) < 1e-6
    aims = [[day.bands["energy_kcal"].aim for day in week.days.values()] for week in weeks]
    assert all(len(set(values)) > 1 for values in (aims[0], aims[2]))
    assert max(aims[1]) - min(aims[1]) < 1e-6  # type: ignore[type-var, operator]
    assert aims[0] != aims[2]
