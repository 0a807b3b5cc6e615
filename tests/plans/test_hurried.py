"""A day of few kitchen minutes: a dinner may be what else is a lunch, and no warm meal is asked for."""

from __future__ import annotations

import pytest

from mealopt import api
from mealopt.core.slots import HURRIED
from mealopt.plans.day.pose import PosedDay
from tests.plans import cases


def at_dinner(day: PosedDay) -> set[str]:
    """The slots of all dishes that stand on the card for dinner."""
    index = next(slot.index for slot in day.slots if slot.kind == "dinner")
    return {kind for plate in day.card().all[index] for kind in plate.dish.slots if "dinner" not in plate.dish.slots}


@pytest.mark.parametrize(("minutes", "hurried"), [(HURRIED - 1, True), (HURRIED, False)])
def test_dinner_may_be_a_lunch_where_minutes_are_few(minutes: int, hurried: bool) -> None:
    day = cases.posed(cook_minutes=minutes)
    assert ("lunch" in at_dinner(day)) == hurried
    assert day.wishes.warm_main != hurried


def test_a_day_of_eighteen_minutes_is_planned() -> None:
    plan = cases.planned(cook_minutes=18, meals_per_day=4, gap=0.5)
    assert api.recheck(plan) == []
    assert sum(meal.minutes for meal in plan.days[0].meals) <= 18
    assert any("dinner" in meal.slot for meal in plan.days[0].meals)
