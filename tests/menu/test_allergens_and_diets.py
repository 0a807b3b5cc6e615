"""What a vegan, or anybody who must avoid something, may be served: over every dish, against words read by themselves.

The rules: Regulation (EU) No 1169/2011, Annex II (14 allergens; oats
are a cereal with gluten), ISO 23662:2021 (no honey for vegans) and, of the words for foods, kitchen knowledge [memory].
The words are not those of the pantry's own checks; the test reads names, never the labels.
"""

from __future__ import annotations

import re

import pytest

from mealopt.core.filters import ALLERGENS, DIETS, FoodFilter
from mealopt.core.slots import Slot
from mealopt.menu.dishes import shipped_menu
from mealopt.menu.plates import Larder, plate

MENU = shipped_menu()

MEAT = r"beef|pork|lamb|chicken|turkey|veal|venison|ham\b|bacon|liver|gravy|marshmallow|gelatin"
FISH = (
    r"cod\b|haddock|halibut|herring|kipper|mackerel|plaice|pollock|salmon|sardine|sea bass|tilapia|trout|tuna|anchov|"
    r"fish|worcester"
)
SHELLFISH = r"prawn|shrimp|crab|crustacean"
MOLLUSCS = r"mussel|scallop|squid|oyster|mollusk"
MILK = (
    r"(?<!coconut )\bmilk|yoghurt|yogurt|cheese|cheddar|feta|gouda|mozzarella|parmesan|ricotta|queso|cream\b|ghee|"
    r"(?<!nut )(?<!cashew )(?<!almond )(?<!peanut )(?<!seed )\bbutter\b|custard|whey|"
    r"pancakes|waffles|sponge cake|scone|chocolate|croissant|naan|pesto|rice pudding|banana bread"
)
EGGS = r"\beggs?\b|mayonnaise|omelet|pancakes|waffles|sponge cake|scone|banana bread|croissant|ice cream"
WORDS: dict[str, str] = {
    "gluten": r"wheat|barley|\brye|\boats?\b|spelt|bulgur|couscous|semolina|seitan|matzo|naan|pitta|bagel|croissant|"
    r"biscuit|cracker|pretzel|granola|tortilla, wheat|bread, (white|wholemeal|french|mixed|raisin|rye)|chapati|soba|"
    r"pearl|english muffin|cereal bar|bread roll|fig rolls|flour, wh|focaccia|egg noodles|gravy|hoisin|oyster sauce|"
    r"pasta, white|pancakes|scone|sausage|soy sauce|sponge cake|banana bread|waffles|yeast extract|miso\b|teriyaki",
    "crustaceans": SHELLFISH,
    "eggs": EGGS,
    "fish": FISH,
    "peanuts": r"peanut",
    "soybeans": r"\bsoy|veggie|meat-free|tofu|tempeh|edamame|miso|tamari|teriyaki|hoisin",
    "milk": MILK,
    "nuts": r"almond|hazelnut|walnut|cashew|pecan|brazil nut|pistachio|macadamia|pesto",
    "celery": r"celery|\bstock\b|curry powder",
    "mustard": r"mustard|mayonnaise|vinaigrette|curry powder",
    "sesame": r"sesame|tahini|hummus",
    "sulphites": r"dried apricot|vinegar|dried apple|dried mango|sauerkraut|pickled|sausage, pork",
    "lupin": r"lupin",
    "molluscs": MOLLUSCS,
}

#: Foods whose words mislead: plant foods called after what they stand for, and the gluten-free among breads.
MISLEADING = {
    "milk": r"\bsoya|almond drink|rice drink|coconut|cocoa|dairy-free|butter beans|imitation|bread, gluten|butternut",
    "eggs": r"eggplant|aubergine|bread, gluten-free, vegan",
    "gluten": r"buckwheat|gluten-free|rice crackers|rice cakes|corn",
    "fish": r"jelly sweets",
    "nuts": r"peanuts$|milk, whole",
}

AVOIDING: dict[str, FoodFilter] = {
    **{name: FoodFilter(avoid_allergens=frozenset({name})) for name in ALLERGENS},
    "no gluten": FoodFilter(gluten_free=True),
}
NOT_FOR: dict[str, str] = {
    "pescatarian": MEAT,
    "vegetarian": f"{MEAT}|{FISH}|{SHELLFISH}|{MOLLUSCS}",
    "vegan": f"{MEAT}|{FISH}|{SHELLFISH}|{MOLLUSCS}|{MILK}|{EGGS}|honey",
}
VEGAN_MISLEADING = "|".join((MISLEADING["milk"], MISLEADING["eggs"], r"gelatine-free|jelly sweets|free,|vegan"))


def served(foods: FoodFilter) -> dict[str, set[str]]:
    """Food -> dishes in which this eater may be given it."""
    larder = Larder(MENU, foods)
    found: dict[str, set[str]] = {}
    for dish in MENU.dishes.values():
        for kind in dish.slots:
            made = plate(dish, Slot(0, kind, 0, 0, kind, energy_most=5000.0), larder)
            for part in made.parts if made else ():
                for choice in part.choices:
                    found.setdefault(choice.name, set()).add(dish.id)
    return found


def shows(food: str, words: str, misleading: str) -> bool:
    """Whether the food's name says so, where that is not misleading."""
    name = food.lower()
    if re.search(misleading, name):
        return False
    return re.search(words, name) is not None


@pytest.mark.parametrize("name", AVOIDING)
def test_what_must_be_avoided_is_on_no_plate(name: str) -> None:
    allergen = "gluten" if name == "no gluten" else name
    words, misleading = WORDS[allergen], MISLEADING.get(allergen, r"^$")
    everything = served(FoodFilter())
    assert any(shows(food, words, misleading) for food in everything) or allergen == "lupin", "the words find nothing"
    wrong = {food: ids for food, ids in served(AVOIDING[name]).items() if shows(food, words, misleading)}
    assert wrong == {}


@pytest.mark.parametrize("diet", NOT_FOR)
def test_what_a_diet_leaves_out_is_on_no_plate(diet: str) -> None:
    misleading = VEGAN_MISLEADING if diet == "vegan" else r"veggie|meat-free|gelatine-free|buckwheat|jelly"
    everything = served(FoodFilter())
    assert sum(shows(food, NOT_FOR[diet], misleading) for food in everything) > 10, "the words find nothing"
    wrong = {food: ids for food, ids in served(FoodFilter(diet=diet)).items() if shows(food, NOT_FOR[diet], misleading)}
    assert wrong == {}


@pytest.mark.parametrize("diet", DIETS[1:])
def test_labels_agree_with_the_words_read_here(diet: str) -> None:
    """And the other way round: a food that the words clear is not kept from an eater without a reason of the table."""
    larder = Larder(MENU, FoodFilter(diet=diet))
    refused = {name for name in MENU.pantry.foods if larder.choice(name) is None}
    kept = set(MENU.pantry.foods) - refused
    assert {"rice, white", "banana", "tofu, firm", "bread, white", "peanuts"} <= kept
    assert {"chicken breast", "gravy", "jelly sweets"} <= refused
    assert ("honey" in refused) == (diet == "vegan")
    assert ("salmon" in refused) == (diet != "pescatarian")


def test_oats_are_kept_from_those_who_avoid_gluten() -> None:
    """Oats count as a cereal with gluten under the European list; the table cannot show a certified kind."""
    for foods in (FoodFilter(gluten_free=True), FoodFilter(avoid_allergens=frozenset({"gluten"}))):
        assert "oats, rolled" not in served(foods)


#: Foods that a method must not slip in beside the dish's own: nothing counts them and no filter sees them.
SLIPPED_IN = (
    r"mustard|vinegar|soy|tamari|sesame|tahini|peanut|\bnuts?\b|almond|\bmilk\b|\bbutter\b|\bcream\b|honey|celery|"
    r"anchov|\bflour\b|\bwine\b|parmesan|\bghee\b|lupin|\bstock\b|worcester|(?<!gluten-free )baking powder|gelatine"
)


def test_a_method_adds_nothing_that_somebody_may_not_eat() -> None:
    slipped = {
        dish.id: step
        for dish in MENU.dishes.values()
        for step in (*dish.method, *dish.also)
        if re.search(SLIPPED_IN, re.sub(r"\{\w+\}", "", step).lower())
    }
    assert slipped == {}


def test_a_name_promises_no_food_that_an_eater_could_not_be_given() -> None:
    """Words of a name that stand for a food (not a role) are always in the dish: its omnivore's plate and a vegan's."""
    promised = {"honey": r"honey", "egg": r"\beggs?\b", "peanuts": r"peanuts", "Parmesan": r"parmesan"}
    for dish in MENU.dishes.values():
        words = re.sub(r"\{\w+\}", "", dish.name).lower()
        for food, pattern in promised.items():
            if re.search(pattern, words):
                holding = [part for part in dish.component if part.pick[0] and any(food in name for name in part.foods)]
                assert holding, (dish.id, food)
                assert all(food in name for part in holding[:1] for name in part.foods), (dish.id, food)
