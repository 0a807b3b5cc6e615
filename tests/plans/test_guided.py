"""A first plan that the linear program leads to, where the drawn order of dishes holds none."""

from __future__ import annotations

import pytest

from mealopt import api
from mealopt.errors import OutOfTime
from mealopt.plans.day.document import day_plan
from mealopt.plans.day.explain import WORTH, why_none
from mealopt.plans.day.found import NothingFits, SolvedDay
from mealopt.plans.day.guided import guided
from tests.plans import cases

#: Money for the test athlete's day: the least by the linear program is about 2.3, a usual day costs about 10.
TIGHT, TOO_LITTLE = 3.0, 1.5


def test_a_tight_budget_is_led_to_a_day_that_passes_its_recheck() -> None:
    """Its dishes are charged for the places that they have in the day's order."""
    posed = cases.posed(meals_per_day=4, budget_per_day=TIGHT)
    found = guided(posed, 30.0)
    assert isinstance(found, SolvedDay)
    assert api.recheck(day_plan(found)) == []
    prices = {food.choice.name: food.choice.price_per_gram or 0.0 for food in found.problem.foods()}
    paid = sum(prices.get(item.food, 0.0) * item.grams for meal in day_plan(found).days[0].meals for item in meal.items)
    assert 0.0 < paid <= TIGHT + 0.005
    order = [[plate.dish.id for plate in drawn] for drawn in posed.card().all]
    served = [[one.plate for one in options] for options in found.problem.servings]
    assert [plate.place for (plate,) in served] == [
        drawn.index(plate.dish.id) for drawn, (plate,) in zip(order, served, strict=True)
    ]


def test_what_the_linear_program_cannot_pay_for_is_known_to_be_hopeless() -> None:
    assert isinstance(guided(cases.posed(meals_per_day=4, budget_per_day=TOO_LITTLE), 30.0), NothingFits)


def test_a_search_that_ended_says_so() -> None:
    out = OutOfTime("no plan was found in 1 s")
    assert why_none(cases.posed(), out, WORTH - 1.0) is out
    with pytest.raises(OutOfTime):
        api.plan_day(cases.case(cases.RUN), "tue", seconds=0.001)
