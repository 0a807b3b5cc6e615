"""Kinds, names and methods of the shipped dishes: what a cook reads."""

from __future__ import annotations

import itertools
import re

import pytest

from mealopt.menu.carried import shipped_carried
from mealopt.menu.dishes import Dish, shipped_menu
from mealopt.table.files import foods_folder

MENU = shipped_menu()
DISHES = list(MENU.dishes.values())
ROLE = re.compile(r"\{(\w+)\}")

#: Kinds that are no breakfast, lunch or dinner of their own, however large [common practice, no source].
NO_MAIN_MEAL = {
    *("smoothie", "shake", "milk drink", "fruit", "nuts and fruit", "biscuits and cake", "bars and balls"),
    *("ice cream", "pudding", "salty snack", "crackers", "rice cakes", "dip", "pulse snack", "cold plate"),
}

#: Kinds of the morning that nobody calls lunch or dinner [common practice, no source].
MORNING_ONLY = {
    *("porridge", "cereal", "overnight oats", "yoghurt bowl", "cottage cheese bowl", "chia pudding", "rice pudding"),
    "toast",
}


def optional(dish: Dish) -> set[str]:
    return {part.role for part in dish.component if part.pick[0] == 0}


def test_the_kinds_in_use_are_those_listed() -> None:
    text = (foods_folder() / "dishes" / "README.md").read_text(encoding="utf-8")
    listed = re.findall(r"^- (.+)$", text, flags=re.MULTILINE)
    assert len(listed) == len(set(listed))
    assert set(listed) == {dish.kind for dish in DISHES}


@pytest.mark.parametrize("slot", ["breakfast", "lunch", "dinner"])
def test_a_main_meal_is_a_meal(slot: str) -> None:
    wrong = NO_MAIN_MEAL | (MORNING_ONLY if slot != "breakfast" else set())
    assert [dish.id for dish in DISHES if slot in dish.slots and dish.kind in wrong] == []


def test_before_a_session_nothing_is_all_hot_or_heavy() -> None:
    """Stews, curries, beans and big roasts are no meal to train on [common practice, no source]."""
    wrong = {"stew", "curry", "rice and beans", "lentils and rice", "bake", "burger", "pizza", "pulse salad", "dip"}
    assert [dish.id for dish in DISHES if "before" in dish.slots and dish.kind in wrong] == []


@pytest.mark.parametrize("dish", DISHES, ids=lambda dish: dish.id)
def test_each_step_loses_nothing_when_a_part_is_left_out(dish: Dish) -> None:
    """A step that names a part that is not there goes: so it names that one part and no other."""
    for step in dish.method:
        roles = set(ROLE.findall(step))
        if roles & optional(dish):
            assert len(roles) == 1, step
    assert 2 <= len(dish.method) <= 5
    assert {role for step in dish.method for role in ROLE.findall(step)} == set(dish.roles), "a part is in no step"


@pytest.mark.parametrize("dish", DISHES, ids=lambda dish: dish.id)
def test_its_name_reads_whole_whichever_parts_are_there(dish: Dish) -> None:
    parts = sorted(optional(dish))
    for there in itertools.product((False, True), repeat=len(parts)):
        left_out = {part for part, here in zip(parts, there, strict=True) if not here}

        def keep(match: re.Match[str], gone: set[str] = left_out) -> str:
            return "" if set(ROLE.findall(match[1])) & gone else match[1]

        name = ROLE.sub("rice", re.sub(r"\[([^\[\]]*)\]", keep, dish.name))
        assert name.strip() == name
        assert not re.search(r"[\[\]{}]|  |,,| ,|,$| (and|with|of)$", name), name


def test_food_that_spoils_is_not_left_out() -> None:
    """Cooked or chilled food stands two hours at most; cooked rice keeps one or two days in the fridge.

    Two hours: the food-safety services of several countries [memory]; rice: eaten within a day [memory].
    """
    for dish in DISHES:
        foods = [MENU.pantry.foods[name] for part in dish.component if part.pick[0] for name in part.foods]
        aisles = {food.aisle for food in foods}
        if aisles & {"meat", "fish", "eggs"}:
            assert dish.hours_out <= 2, dish.id
        every = [MENU.pantry.foods[name] for part in dish.component for name in part.foods]
        if any(food.kin == "rice" and food.state == "cooked" for food in every):
            assert dish.fridge_days <= 1, dish.id
        if "fish" in {food.aisle for food in every}:
            assert dish.fridge_days <= 2, dish.id
        if dish.freezes:
            assert dish.fridge_days >= 1, dish.id


#: Foods that no dish and no pocket holds and yet are of use: seasonings are words in a method; a drink beside a settled
#: meal; eggs as somebody has already cooked them, for settled meals (a dish holds eggs and says how they are cooked).
BESIDE = {"coffee", "egg, fried", "egg, omelette", "egg, scrambled"}


def test_every_food_is_used() -> None:
    used = {name for dish in DISHES for part in dish.component for name in part.foods} | set(shipped_carried().foods)
    unused = {name for name, food in MENU.pantry.foods.items() if "seasoning" not in food.counts} - used - BESIDE
    assert unused == set()
