"""Every food that is eaten cooked is cooked by the method, or the plan says that it must be."""

from __future__ import annotations

import re

import pytest

from mealopt.menu.dishes import Dish, shipped_menu
from mealopt.plans.ahead import cooked_ahead
from mealopt.table.pantry import Food

MENU = shipped_menu()

COOKS = re.compile(
    r"\b(boil|simmer|fry|stir-fry|steam|roast|bake|grill|cook|poach|scrambl|brais|brown|soften|sear|wilt|soak"
    r"|microwave|melt|bubbl|set\b|stew|toast|char|griddle|warm|heat|hot)",
    re.IGNORECASE,
)

#: What only warms: enough for a tin of beans or for cooked rice, not for raw meat or dry rice.
WARMS = re.compile(r"\b(warm|heat|hot|toast)\w*", re.IGNORECASE)

#: Read by eye: a later step cooks what this role was stirred, kneaded or laid into.
LATER = {
    ("flatbread_pizza", "vegetables"), ("tandoori_style_with_naan", "protein"), ("meatballs_with_potatoes", "mince"),
    ("buckwheat_pancakes_with_filling", "egg"), ("pasta_egg_and_ham", "egg"), ("fish_pie", "fish"),
    ("fish_pie", "vegetables"), ("scrambled_eggs_toast", "eggs"), ("egg_pancakes", "eggs"),
    ("banana_oat_pancakes", "eggs"), ("light_couscous", "grain"), ("pea_soup_and_bread", "vegetables"),
    ("red_lentil_soup_cup", "vegetables"), ("miso_soup_rice_breakfast", "vegetables"), ("edamame_bowl", "beans"),
    ("pea_soup_and_bread", "peas"), ("light_couscous", "couscous"), ("soba_edamame_salad", "protein"),
    ("roasted_pulses", "pulses"), ("warm_sweet_potato", "potato"), ("pad_thai_style_noodles", "vegetables"),
    ("risotto", "rice"),
}  # fmt: skip


def _bought_raw(food: Food) -> bool:
    return food.state == "cooked" and (food.bought_ndb != food.ndb or food.kin == "egg")


def _said_above(food: Food, role: str, dish: Dish) -> bool:
    return any(food.says in sentence for sentence in cooked_ahead([(food, role)], dish))


def _cooked_by_method(dish: Dish, role: str) -> bool:
    steps = [step for step in dish.method if f"{{{role}}}" in step]
    return any(COOKS.search(WARMS.sub("", step)) for step in steps)


@pytest.mark.parametrize("dish", MENU.dishes.values(), ids=lambda dish: dish.id)
def test_what_is_eaten_cooked_is_cooked(dish: Dish) -> None:
    for part in dish.component:
        for name in part.foods:
            food = MENU.pantry.foods[name]
            if _bought_raw(food) and (dish.id, part.role) not in LATER and not _said_above(food, part.role, dish):
                assert _cooked_by_method(dish, part.role), f"{part.role}: nothing cooks {name}"


def test_what_is_read_by_eye_still_stands() -> None:
    assert {dish for dish, _ in LATER} <= set(MENU.dishes)


def test_no_method_boils_what_is_said_to_be_cooked_already() -> None:
    for dish in MENU.dishes.values():
        for role in dish.cooked_apart:
            assert not any(re.search(rf"\bboil {{{role}}}", step, re.IGNORECASE) for step in dish.method), dish.id
