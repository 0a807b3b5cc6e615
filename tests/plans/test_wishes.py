"""Wishes of the kitchen and the eater: each is kept in the plan, or the day says why it cannot be."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from mealopt.core.filters import ALLERGENS
from mealopt.core.nutrients import ENERGY
from mealopt.documents.plan import Plan
from mealopt.errors import BadInput, Unplannable
from mealopt.menu.dishes import shipped_menu
from mealopt.table.pantry import shipped_pantry
from mealopt.table.prices import shipped_prices
from tests.plans.cases import RUN, foods, planned, posed

PANTRY = shipped_pantry().foods
WED: dict[str, Any] = {"day": "wed", "start": "07:30", "minutes": 60, "kind": "ride", "effort": "steady"}


def test_what_is_never_planned_is_not() -> None:
    usual = planned()
    never = [*dict.fromkeys(foods(usual)), *(meal.dish_id for meal in usual.days[0].meals if meal.dish_id)]
    never = [name for name in never if name != "salt"]
    other = planned(never=never)
    assert not set(never) & {*foods(other), *(meal.dish_id for meal in other.days[0].meals)}


def test_salt_may_be_ruled_out_too() -> None:
    """Cooking salt is added outside the model: a ban must reach it there as well."""
    assert "salt" not in foods(planned(never=["salt"]))


def test_what_is_preferred_is_there_where_a_dish_can_hold_it() -> None:
    for wished in ("lentils", "salmon"):
        assert wished in foods(planned(prefer=[wished]))


def test_a_preferred_dish_is_served() -> None:
    dish = next(dish.id for dish in shipped_menu().dishes.values() if "dinner" in dish.slots and dish.heat == "stove")
    assert dish in [meal.dish_id for meal in planned(prefer=[dish]).days[0].meals]


def test_what_is_less_wanted_is_rather_not_there() -> None:
    """Ten usual foods of main meals marked so: the day does without nearly all of them."""
    usual = planned()
    less = list(dict.fromkeys(food for food in foods(usual) if "seasoning" not in PANTRY[food].counts))[:6]
    day = planned(less=less).days[0]
    served = [food for food in foods(planned(less=less)) if food in less]
    assert len(served) <= 1, served
    assert day.penalty.get("preferred and avoided", 0.0) <= 6.0 * len(served) + 1e-6


@pytest.mark.parametrize("allergen", ["milk", "gluten", "eggs", "soybeans", "nuts", "fish"])
def test_an_allergen_that_is_avoided_is_in_no_food(allergen: str) -> None:
    assert allergen in ALLERGENS
    day = posed(avoid_allergens=[allergen])
    card = day.card()
    card.deal(500)
    offered = {choice.name for slot in card.plates for plate in slot for part in plate.parts for choice in part.choices}
    assert offered
    assert not [name for name in offered if allergen in PANTRY[name].allergens]
    assert not [name for name in foods(planned(avoid_allergens=[allergen])) if allergen in PANTRY[name].allergens]


@pytest.mark.parametrize("diet", ["vegan", "vegetarian", "pescatarian"])
def test_a_diet_is_kept(diet: str) -> None:
    allowed = {"vegan": ("vegan",), "vegetarian": ("vegan", "vegetarian")}
    labels = allowed.get(diet, ("vegan", "vegetarian", "pescatarian"))
    assert all(PANTRY[food].diet in labels for food in foods(planned(diet=diet)))


@pytest.mark.parametrize("minutes", [30, 45])
def test_kitchen_minutes_hold(minutes: int) -> None:
    assert sum(meal.minutes for meal in planned(cook_minutes=minutes).days[0].meals) <= minutes


def test_no_minute_in_the_kitchen_is_kept_or_explained() -> None:
    """A whole day without a minute's work is more than any menu holds: the clash names the minutes."""
    with pytest.raises(Unplannable) as raised:
        planned(cook_minutes=0)
    assert "minute" in str(raised.value) or any("minutes" in remedy for remedy in raised.value.remedies)


def test_cooking_only_while_a_stove_is_at_hand() -> None:
    """Nothing that needs a stove is made for a meal outside these hours, unless it was made before and is carried."""
    day = posed(can_cook=["06:30-08:00", "18:00-21:00"])
    card = day.card()
    card.deal(500)
    noon = [slot for slot in day.slots if slot.kind in ("lunch", "snack") and not slot.stove]
    assert noon, "lunch lies outside"
    for slot in noon:
        for plate in card.plates[slot.index]:
            dish = plate.dish
            assert dish.heat != "stove" or dish.carry or dish.reheats, dish.id
    plan = planned(can_cook=["06:30-08:00", "18:00-21:00"])
    ahead = [meal for meal in plan.days[0].meals if any("Made ahead" in note for note in meal.notes)]
    for meal in plan.days[0].meals:
        dish = shipped_menu().dishes[meal.dish_id or ""]
        cold_hours = not ("06:30" <= meal.time <= "08:30" or "18:00" <= meal.time <= "21:30")
        assert not cold_hours or dish.heat != "stove" or meal in ahead, meal.dish


def test_where_there_is_no_kitchen_food_is_cold_or_carried() -> None:
    away = {"day": "tue", "away": "no_kitchen", "away_from": "08:00", "away_to": "18:00"}
    plan = planned(day=[away])
    for meal in plan.days[0].meals:
        if "08:00" <= meal.time < "18:00":
            dish = shipped_menu().dishes[meal.dish_id or ""]
            assert dish.heat == "none" or dish.carry, dish.id


def test_a_microwave_heats_but_does_not_cook() -> None:
    away = {"day": "tue", "away": "microwave", "away_from": "08:00", "away_to": "18:00"}
    day = posed(day=[away])
    card = day.card()
    card.deal(500)
    for slot in day.slots:
        if 8 * 60 <= slot.start < 18 * 60:
            assert (slot.stove, slot.heat) == (False, True)
            assert all(
                plate.dish.heat != "stove" or plate.dish.carry or plate.dish.reheats
                for plate in card.plates[slot.index]
            )


@pytest.mark.parametrize("meals", [2, 3, 4, 5, 6])
def test_meals_a_day_are_as_wished_or_it_is_said(meals: int) -> None:
    plan = planned(meals_per_day=meals)
    day = plan.days[0]
    extra = len(day.meals) - meals
    said = [note for note in day.notes if "than you asked for" in note]
    more = "One more snack" if extra == 1 else f"{extra} more snacks"
    assert extra == 0 or (extra > 0 and said and said[0].startswith(more))


def test_a_big_day_gets_more_meals_and_says_so() -> None:
    long = {**RUN, "start": "09:00", "minutes": 180, "kind": "ride", "active_kcal": 2200, "energy_from": "power"}
    day = planned(long, meals_per_day=3).days[0]
    eaten = [meal for meal in day.meals if meal.slot not in ("during", "before", "after")]
    assert len(eaten) > 3
    assert any("than you asked for" in note for note in day.notes)


def test_a_budget_holds() -> None:
    prices = shipped_prices()

    def cost(plan: Plan) -> float:
        return sum(item.grams * prices.get(item.food, 0.0) for meal in plan.days[0].meals for item in meal.items)

    dear = cost(planned())
    assert dear > 0
    cheap = cost(planned(budget_per_day=round(0.9 * dear, 2), gap=0.5))
    assert cheap <= 0.9 * dear + 0.01 + 0.05, "salt is added outside the model"


def test_own_hours_on_one_day() -> None:
    day = posed(day=[{"day": "tue", "wake": "04:45", "sleep": "20:30", "cook_minutes": 20, "meals_per_day": 3}])
    assert day.slots[0].start >= 4 * 60 + 50
    assert day.slots[-1].end <= 20 * 60 + 30
    assert day.wishes.minutes_most == 20


def test_tomorrows_early_session_limits_tonight() -> None:
    early = {**WED, "start": "01:30", "kind": "run", "effort": "race"}
    day = posed(early)
    late = [slot for slot in day.slots if slot.end > 25 * 60 + 30 - 240]
    assert all(slot.limits for slot in late)


def test_the_case_is_not_changed_by_planning_it() -> None:
    keys: dict[str, Any] = {"prefer": ["lentils"], "never": ["liver"]}
    before = copy.deepcopy(keys)
    planned(**keys)
    assert keys == before


@pytest.mark.parametrize("key", ["never", "prefer", "less"])
def test_a_name_that_nothing_has_is_refused_with_the_nearest(key: str) -> None:
    with pytest.raises(BadInput, match=r"salmonn.*nearest: salmon"):
        posed(**{key: ["salmonn"]})


def test_energy_is_near_its_aim_whatever_is_wished() -> None:
    for wishes in ({"diet": "vegetarian"}, {"cook_minutes": 45, "meals_per_day": 5}):
        day = planned(**wishes).days[0]
        assert day.totals[ENERGY] == pytest.approx(day.targets[ENERGY].aim, rel=0.0201)
