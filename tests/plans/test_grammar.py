"""English of food words."""

from __future__ import annotations

import pytest

from mealopt.menu.dishes import shipped_menu
from mealopt.plans.ahead import cooked_ahead
from mealopt.plans.grammar import as_part, one_list, singular
from mealopt.plans.words import as_said, dish_name, filled
from mealopt.table.pantry import Food, shipped_pantry

FOODS = shipped_pantry().foods


@pytest.mark.parametrize(
    ("many", "one"),
    [
        ("pinto beans", "pinto bean"), ("tomatoes", "tomato"), ("raspberries", "raspberry"), ("peaches", "peach"),
        ("radishes", "radish"), ("hummus", "hummus"), ("couscous", "couscous"), ("asparagus", "asparagus"),
        ("chicken", "chicken"), ("cherries", "cherry"), ("olives", "olive"), ("peas", "pea"),
    ],
)  # fmt: skip
def test_one_of_it(many: str, one: str) -> None:
    assert singular(many) == one


def test_a_food_before_the_dish_that_it_is_part_of_is_one() -> None:
    assert dish_name("{beans} fajitas with {salad}", {"beans": ["pinto beans"], "salad": ["tomatoes"]}) == (
        "pinto bean fajitas with tomatoes"
    )
    assert dish_name("{fish} and tomato curry with {base}", {"fish": ["prawns"], "base": ["rice"]}) == (
        "prawn and tomato curry with rice"
    )
    assert dish_name("{meat} and {base} with salt", {"meat": ["sausages"], "base": ["rice"]}) == (
        "sausages and rice with salt"
    )
    assert as_part("meat-free pieces") == "meat-free"


def test_lists_that_meet_are_one() -> None:
    assert one_list("bread with Gouda, tomatoes") == "bread with Gouda and tomatoes"
    assert one_list("eggs and tomatoes and potatoes") == "eggs, tomatoes and potatoes"
    assert one_list("granola, with fruit") == "granola, with fruit"
    assert filled("Blend {a} with {b} and {c} well.", {"a": ["tofu"], "b": ["mango", "pear"], "c": ["juice"]}) == (
        "Blend tofu with mango, pear and juice well."
    )


def test_one_roll_is_a_roll() -> None:
    roll = FOODS["bread roll"]
    assert as_said(roll.says, roll.measure_g, roll.measure, roll.measure_g) == "bread roll"
    assert as_said(roll.says, 2 * roll.measure_g, roll.measure, roll.measure_g) == "bread rolls"
    assert as_said("oats", 20.0, "cup", 80.0) == "oats"


def test_what_takes_longer_than_the_dish_is_cooked_beforehand() -> None:
    """Beans take an hour after a night in water; a tin is as good [common practice, no source]."""
    beans, rice, bread = FOODS["white beans"], FOODS["rice, white"], FOODS["bread, white"]
    assert _ahead([bread], 5) == ()
    egg, carrot, beetroot = FOODS["egg"], FOODS["carrot, boiled"], FOODS["beetroot"]
    assert _ahead([egg, carrot], 12) == ()
    assert _ahead([egg, carrot], 12, "microwave") == ("Cooked beforehand: eggs (boiled firm)",)
    assert _ahead([egg, carrot, beetroot], 12, "none") == ("Cooked beforehand: eggs (boiled firm) and carrots",)
    assert _ahead([rice], 20) == ()
    assert _ahead([rice, bread], 5) == ("Cooked beforehand: rice",)
    assert _ahead([beans, rice], 5) == ("Cooked beforehand: white beans (or a tin of them) and rice",)


def test_what_the_method_takes_as_cooked_is_boiled_besides_or_before() -> None:
    """Rice takes twelve minutes on the stove [common practice, no source] and eight for the water."""
    rice, carrot = FOODS["rice, white"], FOODS["carrot, boiled"]
    assert _ahead([rice, carrot], 20, apart=True) == ("Cook besides: rice (about 12 min) and carrots (about 8 min)",)
    assert _ahead([rice], 19, apart=True) == ("Cooked beforehand: rice",)
    assert _ahead([rice], 60, "microwave", apart=True) == ("Cooked beforehand: rice",)


def _ahead(foods: list[Food], minutes: int, heat: str = "stove", *, apart: bool = False) -> tuple[str, ...]:
    some = shipped_menu().dishes["fried_rice"]
    dish = some.model_copy(update={"minutes": minutes, "heat": heat, "cooked_apart": ("rice",) if apart else ()})
    return cooked_ahead([(food, "rice") for food in foods], dish)
