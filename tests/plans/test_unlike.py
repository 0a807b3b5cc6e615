"""Another day unlike those given, and days to choose from that lie near the best."""

from __future__ import annotations

import pytest

from mealopt import api
from mealopt.documents.plan import Plan
from mealopt.people.reading import case_from_dict
from mealopt.plans.day.unlike import TERM, dishes_of, near_enough
from tests.plans import cases


def test_another_day_shares_no_dish_with_the_one_given(evening_run: Plan) -> None:
    case = case_from_dict(evening_run.case, "the case of the plan")
    another = api.unlike(case, [evening_run], gap=0.1, seconds=60)
    assert api.recheck(another) == []
    assert another.days[0].day == "tue"
    assert not set(dishes_of(another.days[0])) & set(dishes_of(evening_run.days[0]))
    assert TERM not in another.days[0].penalty
    assert another.solve.objective == pytest.approx(sum(another.days[0].penalty.values()), abs=0.05)


def test_dishes_come_again_where_there_are_too_few() -> None:
    few = ("oat_porridge", "muesli", "chicken_wrap", "chickpea_curry", "potato_salad", "fruit_and_nuts", "fruit_salad")
    plan = cases.planned(never=cases.small_menu(*few), meals_per_day=4)
    another = api.unlike(case_from_dict(plan.case, "case"), [plan], gap=0.1, seconds=60)
    assert api.recheck(another) == []
    assert dishes_of(another.days[0]) != dishes_of(plan.days[0])


def test_choices_differ_and_lie_near_the_best(evening_run: Plan) -> None:
    case = case_from_dict(evening_run.case, "the case of the plan")
    found = api.choices(case, "tue", 2, gap=0.05, seconds=60)
    assert len(found) == 2
    assert dishes_of(found[0].days[0]) != dishes_of(found[1].days[0])
    for plan in found:
        assert api.recheck(plan) == []
        assert near_enough(plan, found[0])
        assert plan.solve.objective - found[0].solve.objective <= 0.05 * max(found[0].solve.objective, 50.0)
