"""Wishes that cannot be meant, and plans that cannot be used: one sentence, before anything is solved."""

from __future__ import annotations

from typing import Any

import pytest

from mealopt import api
from mealopt.documents.plan import Item, Plan
from mealopt.errors import BadInput
from mealopt.menu.dishes import shipped_menu
from mealopt.people.reading import case_from_dict
from tests.plans import cases


def refused(plan: Plan, *wishes: Any, **keys: Any) -> str:
    """The one sentence with which these wishes are refused."""
    with pytest.raises(BadInput) as raised:
        api.swap(plan, *wishes, **keys)
    assert raised.value.exit_code == 2
    assert "\n" not in str(raised.value)
    return str(raised.value)


def first_food(plan: Plan) -> str:
    """A food of the first meal."""
    return next(item.food for item in plan.days[0].meals[0].items if item.food != "salt")


@pytest.mark.parametrize("number", [0, 99, -1])
def test_a_meal_that_is_not_there(evening_run: Plan, number: int) -> None:
    says = refused(evening_run, number, "rice")
    assert f"read meal {number}" in says
    assert "1, 2, 3" in says, "the meals that there are"
    assert f"read meal {number}" in refused(evening_run, None, drop=[number])


def test_a_food_that_is_not_in_the_meal(evening_run: Plan) -> None:
    assert first_food(evening_run) in refused(evening_run, 1, "no such food"), "what the meal holds is named"
    assert "in the day" in refused(evening_run, "all", "no such food")


def test_a_food_that_no_dish_of_the_meal_holds(evening_run: Plan) -> None:
    menu = shipped_menu()
    at_breakfast = {food for dish in menu.by_slot("breakfast") for part in dish.component for food in part.foods}
    elsewhere = next(
        food
        for dish in menu.by_slot("dinner")
        for part in dish.component
        for food in part.foods
        if food not in at_breakfast
    )
    says = refused(evening_run, 1, first_food(evening_run), elsewhere)
    assert "in meal 1" in says
    assert "no dish for a breakfast" in says
    assert "nearest" in refused(evening_run, 1, first_food(evening_run), "brocoli")


def test_a_food_that_the_case_keeps_out(vegan_day: Plan) -> None:
    one = next(one for one in vegan_day.days[0].meals if one.slot == "dinner")
    food = next(item.food for item in one.items if item.food != "salt")
    assert "not vegan" in refused(vegan_day, one.number, food, "salmon")


def test_a_dish_that_cannot_be_served_there(evening_run: Plan) -> None:
    assert "as breakfast" in refused(evening_run, 1, None, "fish_tacos")


def test_an_amount_that_no_kitchen_measures(evening_run: Plan) -> None:
    item = max((item for item in evening_run.days[0].meals[0].items if item.food != "salt"), key=lambda one: one.grams)
    step_g = shipped_menu().pantry.foods[item.food].step_g
    assert "kitchen steps" in refused(evening_run, 1, None, f"{item.food}={item.grams + 0.4 * step_g:g}g")
    assert "grams are expected" in refused(evening_run, 1, None, f"{item.food}=much")


def test_wishes_that_contradict_each_other_or_ask_nothing(evening_run: Plan) -> None:
    food = first_food(evening_run)
    assert "leaving and as coming" in refused(evening_run, 1, food, food)
    assert "held and as dropped" in refused(evening_run, None, hold=[1], drop=[1])
    assert "one to change" in refused(evening_run, 1, food, hold=[1])
    assert "nothing to change" in refused(evening_run, None)
    assert "nothing to change" in refused(evening_run, None, hold=[1])
    assert "nothing to change in it" in refused(evening_run, 1)
    assert "no meal" in refused(evening_run, None, food)
    assert "one meal" in refused(evening_run, "all", dish=True)
    everything = [one.number for one in evening_run.days[0].meals]
    assert "every meal" in refused(evening_run, None, drop=everything)


def test_words_that_may_be_several_foods(evening_run: Plan) -> None:
    """Where words fit more than one food of a meal, both are named, and nothing is guessed."""
    from mealopt.plans.swap.names import one_of

    with pytest.raises(BadInput, match=r"beans, baked or white beans|white beans or beans, baked"):
        one_of("beans", ["beans, baked", "white beans", "rice, white"], "in meal 1", "")
    assert one_of("white", ["white beans", "rice"], "in meal 1", "") == "white beans"


def changed(plan: Plan, **keys: Any) -> Plan:
    """The plan with other keys of its first item."""
    day = plan.days[0]
    meal = day.meals[0]
    item: Item = meal.items[0].model_copy(update=keys)
    meal = meal.model_copy(update={"items": (item, *meal.items[1:])})
    return plan.model_copy(update={"days": (day.model_copy(update={"meals": (meal, *day.meals[1:])}),)})


def test_a_plan_that_was_edited_until_it_is_wrong(evening_run: Plan) -> None:
    food = first_food(evening_run)
    says = refused(changed(evening_run, grams=431.7), 1, food, where="plan.json")
    assert says.startswith("plan.json: this plan does not hold what it says")
    with pytest.raises(BadInput, match="does not hold"):
        api.offers(changed(evening_run, food="moon rock"), 1, food)


def test_a_plan_whose_case_was_edited_is_refused_where_its_day_is_another(evening_run: Plan) -> None:
    moved = {**evening_run.case, "session": [{**evening_run.case["session"][0], "start": "12:00"}]}
    assert "the plan" in refused(evening_run.model_copy(update={"case": moved}), 1, first_food(evening_run))


def test_a_plan_made_with_another_table(evening_run: Plan) -> None:
    other = evening_run.model_copy(update={"table": evening_run.table.model_copy(update={"sha256": "a" * 64})})
    assert "food table" in refused(other, 1, first_food(evening_run))


def test_what_the_case_settles_is_not_swapped() -> None:
    fixed = [{"time": "12:30", "what": "canteen", "energy_kcal": 700}]
    plan = cases.planned(fixed=fixed)
    number = cases.at(plan, "12:30").number
    assert "settled by the case" in refused(plan, number, "rice")
    food = next(item.food for item in plan.days[0].meals[0].items if item.food != "salt")
    done = api.swap(plan, 1, food, seconds=60)
    assert cases.at(done.plan, "12:30") == cases.at(plan, "12:30")
    assert api.recheck(done.plan) == []


def test_a_case_without_its_own_foods_file_is_refused(evening_run: Plan) -> None:
    kitchen = {**evening_run.case["kitchen"], "own_foods": "shelf.toml"}
    plan = evening_run.model_copy(update={"case": {**evening_run.case, "kitchen": kitchen}})
    case_from_dict(plan.case, "it is a case")
    assert "shelf.toml" in refused(plan, 1, first_food(evening_run))
