"""A day planned anew, held against what it promises: each fault that is made by hand is found."""

from __future__ import annotations

from typing import Any

import pytest

from mealopt import api
from mealopt.core.clock import minutes_of
from mealopt.documents.plan import Meal, Plan
from mealopt.people.reading import case_from_dict
from tests.plans import cases


@pytest.fixture(scope="module")
def anew() -> Plan:
    """The Skerry test athlete's tuesday after a cake at noon, planned anew."""
    case = case_from_dict({**cases.case(cases.RUN).model_dump(mode="json", by_alias=True, exclude_unset=True)}, "case")
    plan = api.plan_day(case, "tue", gap=0.3, seconds=60)
    return api.replan(plan, "14:30", ate=["a cake=900kcal"], seconds=30).plan


def changed(plan: Plan, **keys: Any) -> Plan:
    return plan.model_copy(update={"days": (plan.days[0].model_copy(update=keys),)})


def with_meal(plan: Plan, meal: Meal, **keys: Any) -> Plan:
    meals = tuple(one.model_copy(update=keys) if one.number == meal.number else one for one in plan.days[0].meals)
    return changed(plan, meals=meals)


def eaten(plan: Plan) -> Meal:
    return next(meal for meal in plan.days[0].meals if meal.eaten and meal.items)


def coming(plan: Plan) -> Meal:
    return next(meal for meal in reversed(plan.days[0].meals) if not meal.eaten)


def test_it_holds_as_it_is(anew: Plan) -> None:
    assert api.recheck(anew) == []


def test_what_is_past_is_eaten(anew: Plan) -> None:
    assert any("is not eaten" in says for says in api.recheck(with_meal(anew, eaten(anew), eaten=False)))


def test_what_is_to_come_is_not(anew: Plan) -> None:
    assert any("begins after 14:30" in says for says in api.recheck(with_meal(anew, coming(anew), eaten=True)))


def test_a_day_without_a_now_has_nothing_eaten(anew: Plan) -> None:
    assert any("no time of now" in says for says in api.recheck(changed(anew, now=None)))


def test_what_is_missed_is_listed_and_what_is_listed_is_missed(anew: Plan) -> None:
    day = anew.days[0]
    assert day.missed, "a cake of 900 kcal cannot be made up for"
    assert any("promised" in says for says in api.recheck(changed(anew, missed=())))
    met = next(
        key
        for key, band in day.targets.items()
        if key not in day.missed and (band.least or 0.0) * 1.01 < day.totals[key] < 0.99 * (band.most or 1e9)
    )
    assert any(f"{met} is missed" in says for says in api.recheck(changed(anew, missed=(*day.missed, met))))


def test_energy_alone_is_split_as_the_plan_says(anew: Plan) -> None:
    cake = next(meal for meal in anew.days[0].meals if not meal.items)
    assert minutes_of(cake.time) < minutes_of("14:30")
    totals = {**cake.totals, "protein_g": cake.totals["protein_g"] + 20}
    assert any("protein" in says for says in api.recheck(with_meal(anew, cake, totals=totals)))


def test_a_meal_keeps_its_share_of_what_was_first_planned(anew: Plan) -> None:
    meal = coming(anew)
    first = {"energy_kcal": 2 * meal.totals["energy_kcal"], "protein_g": meal.totals["protein_g"]}
    assert any("was to remain" in says for says in api.recheck(with_meal(anew, meal, planned=first)))
    protein = {"energy_kcal": meal.totals["energy_kcal"], "protein_g": meal.totals["protein_g"] + 10}
    assert any("was to remain" in says for says in api.recheck(with_meal(anew, meal, planned=protein)))
