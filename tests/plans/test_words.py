"""Words of a plan: names of dishes, steps of methods, and grams as a cook measures them."""

from __future__ import annotations

import random
import re
from fractions import Fraction
from itertools import pairwise

import pytest

from mealopt.core.words import measured, spoken
from mealopt.menu.dishes import Dish, shipped_menu
from mealopt.plans.grammar import joined
from mealopt.plans.salt import salt_measure
from mealopt.plans.steps import complete
from mealopt.plans.words import dish_name, kitchen_measure, method_of
from mealopt.table.pantry import Food, shipped_pantry

MENU = shipped_menu()
PANTRY = shipped_pantry()

#: Volumes in teaspoons: 3 to a tablespoon, 48 to a cup.
SPOONS = {"tsp": 1, "tbsp": 3, "cup": 48, "cups": 48}


@pytest.mark.parametrize(
    ("grams", "measure", "measure_g", "words"),
    [
        (80, "10 g", 10, "80 g"), (61.5, "g", 1, "62 g"), (40, "cup", 80, "1/2 cup"), (80, "cup", 80, "1 cup"),
        (120, "cup", 80, "1 1/2 cups"), (397, "cup", 244.3, "1 1/2 cups and 2 tbsp"), (30.5, "cup", 244, "2 tbsp"),
        (150, "egg", 50, "3 eggs"), (465, "small glass", 155, "3 small glasses"),
        (77.5, "small glass", 155, "1/2 small glass"), (170, "avocado", 136, "1 1/4 avocados"),
        (28, "jalapeno", 14, "2 jalapenos"), (246, "medium tomato", 123, "2 medium tomatoes"),
        (276, "small baked potato", 138, "2 small baked potatoes"), (12, "anchovy", 4, "3 anchovies"),
        (42, "matzo", 28, "1 1/2 matzos"), (1, "pinch", 0.5, "2 pinches"), (300, "peach", 150, "2 peaches"),
        (123, "half grapefruit", 123, "1/2 grapefruit"), (246, "half grapefruit", 123, "1 grapefruit"),
        (369, "half grapefruit", 123, "1 1/2 grapefruits"), (9, "tsp", 4.5, "2 tsp"), (13.5, "tsp", 4.5, "1 tbsp"),
        (20.25, "tsp", 4.5, "1 1/2 tbsp"), (18, "tsp", 4.5, "1 tbsp and 1 tsp"), (63, "tbsp", 9, "7 tbsp"),
        (72, "tbsp", 9, "1/2 cup"), (117, "tbsp", 9, "3/4 cup and 1 tbsp"), (70, "heaped tbsp", 10, "7 heaped tbsp"),
        (22.5, "tsp", 4.5, "1 tbsp and 2 tsp"), (24.75, "tsp", 4.5, "1 1/2 tbsp and 1 tsp"),
        (515, "50 ml", 51.5, "500 ml"), (2, "tsp", 2, "1 tsp"), (1, "tsp", 2, "1/2 tsp"),
        (312, "slice", 26, "12 slices"),
    ],
)  # fmt: skip
def test_grams_in_kitchen_measure(grams: float, measure: str, measure_g: float, words: str) -> None:
    assert kitchen_measure(grams, measure, measure_g) == words


@pytest.mark.parametrize("food", PANTRY.foods.values(), ids=lambda food: food.name)
def test_every_measure_that_can_be_planned_reads_well_and_is_its_grams(food: Food) -> None:
    """No measure says a thing twice, counts in eighths, or stands for other grams than those that are planned."""
    for steps in range(1, int(food.most_meal_g / food.step_g + 1e-9) + 1):
        grams = steps * food.step_g
        if grams < food.least_g - 1e-9:
            continue
        words = kitchen_measure(grams, food.measure, food.measure_g)
        assert not re.search(r"/[5-9]|/\d\d", words), words
        assert stands_for(words, food) == pytest.approx(grams, rel=0.001, abs=0.51), words
        said = measured(words, spoken(food.name))
        names = re.findall(r"[a-z]+", said.replace("jelly sweet", ""))
        assert all(one != other for one, other in pairwise(names)), said


def stands_for(words: str, food: Food) -> float:
    """The grams that a measure in words stands for."""
    if food.measure.endswith("g") and food.measure[0].isdigit():
        return float(words.removesuffix(" g"))
    if food.measure.endswith(" ml"):
        return float(words.removesuffix(" ml")) / float(food.measure.removesuffix(" ml")) * food.measure_g
    grams = 0.0
    for part in words.split(" and "):
        found = re.match(r"(?:(\d+) )?(?:(\d+/\d+) )?(.*)", part)
        assert found is not None
        count = Fraction(found[1] or 0) + Fraction(found[2] or 0)
        unit = found[3]
        if unit in SPOONS and food.measure in SPOONS:
            grams += float(count) * SPOONS[unit] / SPOONS[food.measure] * food.measure_g
        else:
            grams += float(count) * food.measure_g * (2 if food.measure.startswith("half ") else 1)
    return grams


@pytest.mark.parametrize(
    ("measure", "food", "words"),
    [
        ("1/2 medium banana", "banana", "1/2 medium banana"),
        ("2 slices", "white bread", "2 slices white bread"),
        ("3 eggs", "egg", "3 eggs"),
        ("1/2 small baked potato", "baked potato", "1/2 small baked potato"),
        ("2 eggs", "scrambled egg", "2 scrambled eggs"),
        ("2 eggs", "egg, omelette", "2 eggs, omelette"),
        ("1 grapefruit", "grapefruit", "1 grapefruit"),
        ("2 1/2 avocados", "avocado", "2 1/2 avocados"),
        ("1 1/2 cups and 2 tbsp", "whole milk", "1 1/2 cups and 2 tbsp whole milk"),
        ("5 Brussels sprouts", "Brussels sprouts", "5 Brussels sprouts"),
    ],
)
def test_measure_and_food_read_as_one(measure: str, food: str, words: str) -> None:
    assert measured(measure, food) == words


def test_lists() -> None:
    assert joined([]) == ""
    assert joined(["a"]) == "a"
    assert joined(["a", "b"]) == "a and b"
    assert joined(["a", "b", "c"]) == "a, b and c"


def test_a_name_is_made_of_what_was_chosen() -> None:
    template = "{base} with {fish}[ and {greens}]"
    assert dish_name(template, {"base": ["rice"], "fish": ["cod"]}) == "rice with cod"
    assert dish_name(template, {"base": ["rice"], "fish": ["cod"], "greens": ["peas"]}) == "rice with cod and peas"
    chosen = {"base": ["rice"], "fish": ["cod"], "greens": ["peas", "leeks"]}
    assert dish_name(template, chosen) == "rice with cod, peas and leeks"
    assert dish_name("{base} and {fish} in sauce with {greens}", chosen) == "rice and cod in sauce with peas and leeks"
    assert dish_name("{base}, and {fish}", chosen) == "rice, and cod"
    assert dish_name("{base} with {fish}", {"base": ["rice"]}) == "with"


def test_a_step_without_its_food_goes() -> None:
    steps = ("Boil {base}.", "Fry {fish}[ in {fat}].", "Serve with {greens}.")
    chosen = {"base": ["rice"], "fish": ["cod"]}
    assert method_of(steps, chosen) == ("Boil rice.", "Fry cod.")
    assert method_of(steps, {**chosen, "fat": ["oil"]}) == ("Boil rice.", "Fry cod in oil.")


@pytest.mark.parametrize("dish", MENU.dishes.values(), ids=lambda dish: dish.id)
def test_names_and_methods_read_well_whatever_is_chosen(dish: Dish) -> None:
    draw = random.Random(dish.id)
    for _ in range(40):
        chosen = {
            part.role: [PANTRY.foods[food].says for food in draw.sample(part.foods, draw.randint(*part.pick))]
            for part in dish.component
        }
        name = dish_name(dish.name, chosen)
        method = method_of(dish.method, chosen)
        assert method, "something is left to do"
        for text in (name, *method):
            assert not re.search(r"[{}\[\]]|  | ,|,,|\band and\b|\bwith and\b|\bof with\b|\b(\w+) \1\b", text), text
            assert text == text.strip()
        assert not re.search(r" and [\w' -]+ and (?!.*:)", re.split(r" (?:with|in|on|of|beside|over|from) ", name)[-1])
        assert all(step[0].isupper() and step[-1] in ".!" for step in method)


@pytest.mark.parametrize(
    ("grams", "words"),
    [
        (0.3, "1 pinch"),
        (0.8, "2 pinches"),
        (1.2, "a scant 1/4 tsp"),
        (1.5, "1/4 tsp"),
        (2.2, "1/3 tsp"),
        (3.0, "1/2 tsp"),
    ],
)
def test_a_measure_of_salt_stands_for_its_grams(grams: float, words: str) -> None:
    """A level teaspoon of salt is 6 g (the table's household weight, row 02047)."""
    assert salt_measure(grams) == words


def test_no_measure_of_salt_stands_for_much_more_or_less_than_another() -> None:
    spoken_for: dict[str, list[float]] = {}
    for tenths in range(4, 31):
        spoken_for.setdefault(salt_measure(tenths / 10), []).append(tenths / 10)
    assert all(max(grams) <= 1.5 * min(grams) for grams in spoken_for.values()), spoken_for


def test_the_steps_speak_of_salt_water_and_minutes() -> None:
    millet = [PANTRY.foods["millet"]]
    assert complete(("Boil millet until tender.",), millet, True) == (
        "Boil millet until tender.",
        "Dry millet takes two and a half times its volume of water and about 20 minutes under a lid.",
        "Season with the salt.",
    )
    assert complete(("Boil millet in salted water for 20 minutes.",), millet, True) == (
        "Boil millet in salted water for 20 minutes.",
    )


def test_what_is_said_of_meat_is_not_said_of_tofu() -> None:
    step = ("Fry it until hot and done right through.",)
    assert complete(step, [PANTRY.foods["tofu, firm"]], False) == ("Fry it until hot right through.",)
    assert complete(step, [PANTRY.foods["tofu, firm"], PANTRY.foods["chicken breast"]], False) == step
