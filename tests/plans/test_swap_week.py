"""A swap in a week's document: that day changes, the others stay, and what hangs on all of them is found again."""

from __future__ import annotations

import pytest

from mealopt import api
from mealopt.documents.plan import Plan, PlanDay, Week
from mealopt.errors import BadInput
from mealopt.menu.dishes import shipped_menu
from mealopt.people.reading import case_from_dict, case_to_dict
from mealopt.plans.swap.told import pots
from mealopt.plans.swap.written import untied
from mealopt.plans.week.refresh import refreshed


@pytest.fixture(scope="session")
def two_days(evening_run: Plan) -> Plan:
    """A week's document of two days."""
    case = case_from_dict(evening_run.case, "the case of the plan")
    wednesday = api.plan_day(case, "wed", gap=0.1)
    days = (*evening_run.days, *wednesday.days)
    plan = evening_run.model_copy(update={"kind": "week", "days": days, "week": Week()})
    plan = refreshed(plan, shipped_menu())
    assert api.recheck(plan) == []
    return plan


def test_a_day_of_a_week_is_swapped_and_the_others_stay(two_days: Plan) -> None:
    number, food = next((one.number, item.food) for one in two_days.days[1].meals for item in one.items)
    done = api.swap(two_days, number, food, day="wed", seconds=60)
    assert api.recheck(done.plan) == [], "checks and groceries of the week are worked out again"
    assert done.plan.days[0] == two_days.days[0]
    assert done.day == done.plan.days[1]
    assert done.plan.solve == two_days.solve
    assert done.plan.groceries != two_days.groceries
    assert done.plan.groceries == refreshed(done.plan, shipped_menu()).groceries


def test_a_week_needs_the_name_of_a_day(two_days: Plan) -> None:
    with pytest.raises(BadInput, match="tue, wed"):
        api.swap(two_days, 1, "rice")
    with pytest.raises(BadInput, match="tue, wed"):
        api.swap(two_days, 1, "rice", day="sun")


def cooked_ahead(two_days: Plan) -> tuple[PlanDay, PlanDay]:
    """Both days, the second's dinner eaten from the first's pot."""
    first, second = two_days.days
    dinner = next(one for one in first.meals if one.slot == "dinner")
    other = next(one for one in second.meals if one.slot == "dinner")
    left = dinner.model_copy(
        update={"number": other.number, "time": other.time, "ends": other.ends, "cooked_on": "tue"}
    )
    meals = tuple(left if one is other else one for one in second.meals)
    return first, second.model_copy(update={"meals": meals})


def test_both_ends_of_a_pot_are_told(two_days: Plan) -> None:
    first, second = cooked_ahead(two_days)
    dinner = next(one for one in first.meals if one.slot == "dinner")
    changed = dinner.model_copy(update={"dish_id": "another", "dish": "another"})
    after = first.model_copy(update={"meals": tuple(changed if one is dinner else one for one in first.meals)})
    said = pots((first, second), first, after)
    assert len(said) == 1
    assert said[0].startswith("wed, meal")
    assert "pot" in said[0]
    mended = untied((first, second), first, after, shipped_menu())
    assert mended[0] == after
    assert all(one.cooked_on is None for one in mended[1].meals), "what was to come from the pot is cooked on its day"
    late = next(one for one in second.meals if one.cooked_on)
    without = second.model_copy(update={"meals": tuple(one for one in second.meals if one is not late)})
    assert "cook less there" in pots((first, second), second, without)[0]
    assert pots((first, second), first, first) == ()


def test_a_day_of_a_week_may_be_swapped_after_another_day_lost_a_session(two_days: Plan) -> None:
    """A lifting session that is taken off tuesday takes hours of lifting from the whole week: wednesday was planned
    before that, and stands by the sessions that there were then."""
    lift = {"day": "tue", "start": "11:00", "minutes": 60, "kind": "lift", "effort": "hard"}
    data = {**two_days.case, "session": [*two_days.case["session"], lift]}
    case = case_from_dict(data, "with a lift")
    days = tuple(api.plan_day(case, day, gap=0.5).days[0] for day in ("tue", "wed"))
    week = refreshed(two_days.model_copy(update={"case": case_to_dict(case), "days": days}), shipped_menu())
    off = api.replan(week, "18:35", day="tue", session_off=[1], seconds=3).plan
    assert off.days[1].targets == days[1].targets
    number, food = next((one.number, item.food) for one in off.days[1].meals for item in one.items)
    done = api.swap(off, number, food, day="wed", seconds=5)
    assert done.day.targets == days[1].targets, "by the sessions that it was planned with"
    assert api.recheck(done.plan) == []
    unknown = off.model_copy(update={"sessions_before": ()})
    with pytest.raises(BadInput, match="wed, targets"):
        api.swap(unknown, number, food, day="wed")
