"""A document's day posed again: what stands in it costs what it cost, and what was changed by hand is refused."""

from __future__ import annotations

from typing import Any

import pytest

from mealopt import api
from mealopt.documents.plan import Plan
from mealopt.errors import BadInput
from mealopt.milp.answer import Status
from mealopt.milp.highs import Highs
from mealopt.plans.held.standing import StandingDay, standing_day


def held_value(day: StandingDay) -> float:
    """The penalty of the day with every food held to the gram, by the day's own rules."""
    answer = Highs(day.problem([[meal.held()] for meal in day.meals]).model).solve()
    assert answer.status is Status.OPTIMAL, "what stands keeps every rule"
    return answer.objective


@pytest.mark.parametrize("name", ["evening_run", "vegan_day"])
def test_what_stands_costs_what_the_document_says(name: str, request: pytest.FixtureRequest) -> None:
    plan: Plan = request.getfixturevalue(name)
    assert held_value(standing_day(plan)) == pytest.approx(plan.solve.objective, abs=2e-3)


def test_every_food_stands_with_its_grams(evening_run: Plan) -> None:
    for standing in standing_day(evening_run).meals:
        written = {item.food: item.grams for item in standing.meal.items if item.food in standing.names}
        assert {name: standing.grams(name) for name in standing.names} == pytest.approx(written, abs=0.01)
        assert {item.food for item in standing.meal.items} - standing.names <= {"salt"}


def test_other_foods_of_each_part_are_choices(evening_run: Plan) -> None:
    choices = {
        standing.index: sum(len(part.choices) for part in standing.plate.parts)
        for standing in standing_day(evening_run).meals
    }
    assert sum(choices.values()) > 2 * sum(len(meal.items) for meal in evening_run.days[0].meals)


def changed(plan: Plan, **keys: Any) -> Plan:
    """The plan with other keys of its day."""
    return plan.model_copy(update={"days": (plan.days[0].model_copy(update=keys),)})


def test_a_meal_at_another_time_is_refused(evening_run: Plan) -> None:
    first, *others = evening_run.days[0].meals
    moved = changed(evening_run, meals=(first.model_copy(update={"time": "06:40", "ends": "07:20"}), *others))
    with pytest.raises(BadInput, match="meal 1"):
        standing_day(moved)


def test_another_table_and_a_wrong_total_are_refused(evening_run: Plan) -> None:
    other = evening_run.model_copy(update={"table": evening_run.table.model_copy(update={"sha256": "0" * 64})})
    with pytest.raises(BadInput, match="food table"):
        standing_day(other)
    totals = {**evening_run.days[0].totals, "protein_g": 500.0}
    with pytest.raises(BadInput, match="does not hold what it says"):
        standing_day(changed(evening_run, totals=totals))


def test_a_day_that_is_not_in_the_plan_is_refused(evening_run: Plan) -> None:
    with pytest.raises(BadInput, match="tue"):
        standing_day(evening_run, "wed")


def test_a_meal_that_is_skipped_keeps_its_number_free(evening_run: Plan) -> None:
    """The recheck counts a skipped meal's number, and misses a number that nobody skipped."""
    meals = evening_run.days[0].meals
    gap = changed(evening_run, meals=(meals[0], *meals[2:]))
    assert any("counted from 1" in says for says in api.recheck(gap))
    entry = {"number": 2, "slot": meals[1].slot, "time": meals[1].time, "ends": meals[1].ends}
    skipped = api_skipped(gap, entry)
    assert not any("counted from 1" in says for says in api.recheck(skipped))


def api_skipped(plan: Plan, entry: dict[str, Any]) -> Plan:
    """The plan with one skipped meal, read as from a file."""
    data = plan.model_dump(mode="json", by_alias=True)
    data["days"][0]["skipped"] = [entry]
    return Plan.model_validate(data)
