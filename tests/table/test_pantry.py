"""The pantry: what it holds, what it is tied to, and what its reader refuses."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest

from mealopt.core.filters import FoodFilter
from mealopt.errors import BadInput
from mealopt.table.composition import Composition
from mealopt.table.pantry import AISLES, COUNTS, Pantry, read_pantry

Writer = Callable[..., Path]


def test_enough_foods_of_every_aisle(pantry: Pantry) -> None:
    aisles = Counter(food.aisle for food in pantry.foods.values())
    assert len(pantry.foods) >= 350
    assert set(aisles) == set(AISLES)
    many = {"grains", "bread", "vegetables", "fruit", "pulses and tins", "dairy", "meat", "fish"}
    assert all(aisles[aisle] >= 15 for aisle in many)


def test_every_count_is_used(pantry: Pantry) -> None:
    assert {count for food in pantry.foods.values() for count in food.counts} == set(COUNTS)


#: What a food is, beside the words that its table row must hold, in the state in which it is weighed.
TIES = {
    "rice, white": ("Rice, white", "cooked"),
    "pasta, white": ("Pasta, cooked",),
    "oats, rolled": ("oats", "dry"),
    "potato, boiled": ("Potatoes, boiled", "without skin"),
    "lentils": ("Lentils", "boiled", "without salt"),
    "chickpeas": ("Chickpeas", "canned", "drained"),
    "chicken breast": ("breast, meat only", "roasted"),
    "beef mince, lean": ("ground, 95% lean", "cooked"),
    "salmon": ("salmon", "cooked"),
    "cod": ("cod", "cooked"),
    "egg": ("Egg, whole, cooked",),
    "milk, semi-skimmed": ("2% milkfat",),
    "Greek yoghurt, fat-free": ("Greek", "nonfat"),
    "tofu, firm": ("Tofu, firm",),
    "broccoli": ("Broccoli", "boiled", "without salt"),
    "carrot, raw": ("Carrots, raw",),
    "banana": ("Bananas, raw",),
    "apple": ("Apples, raw, with skin",),
    "dried apricots": ("Apricots, dried",),
    "almonds": ("almonds",),
    "olive oil": ("Oil, olive",),
    "honey": ("Honey",),
    "salt": ("Salt, table",),
    "tuna, tinned in water": ("tuna", "canned in water", "drained"),
    "bread roll": ("Rolls, hard",),
    "bread roll, wholemeal": ("Rolls, dinner, whole-wheat",),
    "tomato pasta sauce": ("sauce, with onions",),
    "syrup": ("Syrups", "refiner"),
}


@pytest.mark.parametrize(("name", "words"), TIES.items())
def test_foods_stand_on_the_row_that_they_are(pantry: Pantry, name: str, words: tuple[str, ...]) -> None:
    row = pantry.row(pantry.foods[name])
    assert all(word in row.name for word in words), row.name


@pytest.mark.parametrize(
    ("name", "allergen"),
    [
        ("oats, rolled", "gluten"),  # oats are a gluten cereal of Annex II, Regulation (EU) No 1169/2011
        ("pearl barley", "gluten"),
        ("bread, rye", "gluten"),
        ("spelt", "gluten"),
        ("couscous", "gluten"),
        ("soy sauce", "gluten"),
        ("soy sauce", "soybeans"),
        ("tahini", "sesame"),
        ("bagel", "sesame"),
        ("dried apricots", "sulphites"),
        ("celery", "celery"),
        ("mustard", "mustard"),
        ("lupin beans", "lupin"),
        ("prawns", "crustaceans"),
        ("mussels", "molluscs"),
        ("peanut butter", "peanuts"),
        ("mayonnaise", "eggs"),
        ("butter", "milk"),
        ("worcestershire sauce", "fish"),
        ("almond drink", "nuts"),
    ],
)
def test_allergens_of_the_european_list(pantry: Pantry, name: str, allergen: str) -> None:
    food = pantry.foods[name]
    assert allergen in food.allergens
    avoiding = FoodFilter(avoid_allergens=frozenset({allergen}))
    assert avoiding.refuses(food.diet, frozenset(food.allergens)) == f"holds {allergen}"


@pytest.mark.parametrize(
    "name", ["buckwheat", "rice, white", "quinoa", "millet", "polenta", "tamari", "potato, boiled"]
)
def test_foods_without_gluten_are_not_refused(pantry: Pantry, name: str) -> None:
    assert FoodFilter(gluten_free=True).refuses("vegan", frozenset(pantry.foods[name].allergens)) is None


@pytest.mark.parametrize(
    ("name", "diet"),
    [
        ("honey", "vegetarian"),  # bee products are vegetarian, not vegan: ISO 23662:2021
        ("milk, whole", "vegetarian"),
        ("egg", "vegetarian"),
        ("yeast", "vegan"),
        ("jelly sweets", "omnivore"),
        ("cod", "pescatarian"),
        ("fish sauce", "pescatarian"),
        ("chicken stock", "omnivore"),
        ("Parmesan", "pescatarian"),
        ("hoisin sauce", "vegetarian"),
    ],
)
def test_diets(pantry: Pantry, name: str, diet: str) -> None:
    assert pantry.foods[name].diet == diet


def test_a_food_of_the_file(write_pantry: Writer, table: Composition) -> None:
    pantry = read_pantry(write_pantry(measure_g="158", step="0.25", allergens=" ", counts="whole_food; starchy"), table)
    food = pantry.foods["rice, white"]
    assert food.step_g == 39.5
    assert food.source == "USDA-SR28:20445"
    assert (food.allergens, food.counts) == ((), ("whole_food", "starchy"))


@pytest.mark.parametrize(
    ("changed", "message"),
    [
        ({"aisle": "cellar"}, "aisle 'cellar' is not one of grains"),
        ({"allergens": "wheat"}, "allergen 'wheat' is not one of gluten"),
        ({"counts": "tasty"}, "counts 'tasty' is not one of whole_food"),
        ({"diet": "raw"}, "diet: .*omnivore.* \\(read: 'raw'\\)"),
        ({"state": "warm"}, "state: .*cooked.* \\(read: 'warm'\\)"),
        ({"settles": "never"}, "settles: "),
        ({"least_g": "500"}, "least_g <= most_meal_g <= most_day_g does not hold"),
        ({"measure_g": "0"}, "measure_g: .*greater than 0.* \\(read: '0'\\)"),
        ({"measure_g": "some"}, "measure_g: .*number.* \\(read: 'some'\\)"),
        ({"edible_percent": "101"}, "edible_percent: .*less than or equal to 100"),
        ({"yield_factor": ""}, "yield_factor: "),
        ({"keeps_days": "0.5"}, "keeps_days: "),
        ({"ndb": "4711"}, "ndb: .*pattern"),
        ({"ndb": "99999"}, "the table has no generic row 99999"),
        ({"bought_ndb": "99999"}, "the table has no generic row 99999"),
        ({"name": ""}, "name: "),
        ({"kin": ""}, "kin: "),
    ],
)
def test_a_wrong_cell_is_refused_with_its_line(
    write_pantry: Writer, table: Composition, changed: dict[str, str], message: str
) -> None:
    with pytest.raises(BadInput, match=rf"pantry\.csv, line 2: .*{message}"):
        read_pantry(write_pantry(**changed), table)


def test_a_food_that_stands_twice_is_refused(write_pantry: Writer, table: Composition) -> None:
    path = write_pantry()
    with path.open("a", encoding="utf-8") as file:
        file.write(path.read_text(encoding="utf-8").splitlines()[1] + "\n")
    with pytest.raises(BadInput, match=r"pantry\.csv, line 3: rice, white stands twice"):
        read_pantry(path, table)


@pytest.mark.parametrize(("old", "new"), [("kin\n", "family\n"), (",kin\n", "\n"), ("kin\n", "kin,kin\n")])
def test_another_header_is_refused(write_pantry: Writer, table: Composition, old: str, new: str) -> None:
    path = write_pantry()
    path.write_text(path.read_text(encoding="utf-8").replace(old, new, 1), encoding="utf-8")
    with pytest.raises(BadInput, match=r"pantry\.csv, line 1: the columns must be name,says,ndb,.*,kin"):
        read_pantry(path, table)


@pytest.mark.parametrize("more", [",one too many", None])
def test_a_row_of_another_length_is_refused(write_pantry: Writer, table: Composition, more: str | None) -> None:
    path = write_pantry()
    text = path.read_text(encoding="utf-8").rstrip("\n")
    path.write_text(text + more if more else text.rsplit(",", 1)[0], encoding="utf-8")
    with pytest.raises(BadInput, match=r"line 2: 2[02] cells read, 21 expected"):
        read_pantry(path, table)


def test_an_empty_file_is_refused(tmp_path: Path, table: Composition) -> None:
    (tmp_path / "pantry.csv").write_text("", encoding="utf-8")
    with pytest.raises(BadInput, match="line 1: the columns must be"):
        read_pantry(tmp_path / "pantry.csv", table)


def test_a_file_that_cannot_be_read_is_refused(tmp_path: Path, table: Composition) -> None:
    with pytest.raises(BadInput, match="cannot be read"):
        read_pantry(tmp_path / "none.csv", table)
    (tmp_path / "latin.csv").write_bytes(b"name\n\xe9\n")
    with pytest.raises(BadInput, match="cannot be read"):
        read_pantry(tmp_path / "latin.csv", table)
