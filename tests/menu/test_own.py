"""A person's own dishes, and their own foods on the shipped dishes."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from mealopt.core.filters import FoodFilter
from mealopt.core.slots import Slot
from mealopt.errors import BadInput
from mealopt.menu.dishes import Dish, shipped_menu
from mealopt.menu.own import OwnMenu, menu_findings, own_menu, read_own, with_own
from mealopt.menu.plates import Larder, plate
from tests.table.own_files import BAR, TABLET, own, write

DISH: dict[str, Any] = {
    "id": "quay_plate",
    "name": "rice with {beans}",
    "kind": "quay plate",
    "kitchen": "your own",
    "slots": ["lunch"],
    "heat": "stove",
    "served": "warm",
    "minutes": 20,
    "fridge_days": 1,
    "hours_out": 1,
    "energy": [300, 800],
    "method": ["Boil {rice}.", "Warm {beans} with it."],
}
RICE = '{role = "rice", grams = [120, 400], foods = ["rice, white"]}'
EXAMPLE = Path(__file__).parents[2] / "examples" / "own" / "own_foods.toml"


def menu(*foods: dict[str, Any], beans: str = '"black beans"', plain: bool = False, **changed: Any) -> OwnMenu:
    """The menu with these foods and the dish, whose keys and beans a test changes."""
    part = f'{{role = "beans", grams = [40, 240], foods = [{beans}]}}'
    text = own(*foods, dishes=(DISH | changed,)) + f"component = [{RICE}, {part}]\n"
    return own_menu("own.toml", text, plain)


def only(*foods: dict[str, Any], plain: bool = False) -> OwnMenu:
    return own_menu("own.toml", own(*foods), plain)


def listing(dishes: dict[str, Dish], food: str) -> set[tuple[str, str]]:
    """Dish and role of each part that lists a food."""
    return {(dish.id, part.role) for dish in dishes.values() for part in dish.component if food in part.foods}


def test_an_own_food_stands_wherever_the_other_is_listed_and_nowhere_else() -> None:
    dishes = only(BAR).dishes
    places = listing(dishes, "harbour oat bar")
    assert places == listing(shipped_menu().dishes, "cereal bar")
    assert places
    assert set(dishes) == set(shipped_menu().dishes)


def test_the_shipped_dishes_stay_as_they_are() -> None:
    before = dict(shipped_menu().dishes)
    only(BAR)
    assert shipped_menu().dishes == before
    assert listing(shipped_menu().dishes, "harbour oat bar") == set()
    untouched = next(dish for dish in before.values() if not listing({dish.id: dish}, "cereal bar"))
    assert only(BAR).dishes[untouched.id] is untouched


def test_what_goes_apart_from_a_food_goes_apart_from_its_stand_in() -> None:
    dish = next(dish for dish in shipped_menu().dishes.values() if dish.apart)
    name = dish.apart[0][0]
    wider = with_own(dish, {name: ("own one",)})
    assert "own one" in wider.apart[0]
    assert all(("own one" in part.foods) == (name in part.foods) for part in wider.component)


def test_an_own_dish_stands_beside_the_others() -> None:
    found = menu(BAR, beans='"black beans", "harbour oat bar"')
    assert found.dishes["quay_plate"] in found.by_slot("lunch")
    assert found.dishes["quay_plate"].component[1].foods == ("black beans", "harbour oat bar")
    assert "quay_plate" not in shipped_menu().dishes


@pytest.mark.parametrize(
    ("beans", "changed", "says"),
    [
        ('"black bean"', {}, "component foods: the pantry has no 'black bean' .nearest: black beans"),
        ('"black beans"', {"id": next(iter(shipped_menu().dishes))}, "the program's dishes have already"),
        ('"black beans"', {"minutes": -1}, "minutes: "),
        ('"black beans"', {"colour": "red"}, "colour: "),
        ('"black beans"', {"slots": ["brunch"]}, "'brunch' is not one of"),
        ('"black beans"', {"slots": ["during"]}, "packed by its fuel plan"),
        ('"black beans"', {"energy": [1900, 2000]}, "energy: holds at most"),
        ('"black beans"', {"name": "rice with {nuts}"}, "names no component"),
    ],
    ids=["food", "id", "minutes", "key", "slot", "in a session", "energy", "role"],
)
def test_an_own_dish_is_checked_as_the_shipped_ones_are(beans: str, changed: dict[str, Any], says: str) -> None:
    with pytest.raises(BadInput, match=says) as raised:
        menu(beans=beans, **changed)
    assert str(raised.value).startswith("own.toml, [[dish]] 1 (")


def test_one_id_once() -> None:
    entry = (
        own(dishes=(DISH,)).split("\n", 1)[1]
        + f'component = [{RICE}, {{role = "beans", grams = [80, 240], foods = ["black beans"]}}]\n'
    )
    with pytest.raises(BadInput, match=r"\[\[dish\]\] 2 \(quay_plate\) id: .*this file has already"):
        own_menu("own.toml", 'schema = "mealopt/own-1"\n' + entry + entry)


def snack(**keys: Any) -> Slot:
    given = {"index": 0, "kind": "snack", "label": "snack", "start": 600, "end": 610, "main": False, "minutes_most": 60,
             "stove": True, "heat": True, "energy_least": 50.0, "energy_aim": 250.0, "energy_most": 600.0}  # fmt: skip
    return Slot(**(given | keys))


def names(found: OwnMenu, eater: FoodFilter, slot: Slot) -> set[str]:
    """Every food that some plate of the slot offers this eater."""
    larder = Larder(found, eater)
    plates = (plate(dish, slot, larder) for dish in found.by_slot(slot.kind))
    return {choice.name for one in plates if one for part in one.parts for choice in part.choices}


def test_an_unsaid_allergen_keeps_a_food_from_who_avoids_it() -> None:
    quiet = {**BAR, "diet": None, "free_of": None}
    avoids = FoodFilter(avoid_allergens=frozenset({"celery"}))
    assert "harbour oat bar" in names(only(quiet), FoodFilter(), snack())
    assert "harbour oat bar" not in names(only(quiet), avoids, snack())
    assert "harbour oat bar" in names(only(BAR), avoids, snack())
    assert "harbour oat bar" not in names(only(BAR), FoodFilter(gluten_free=True), snack())


def test_unknown_fibre_keeps_a_food_out_of_windows_that_limit_it() -> None:
    window = snack(limits={"fibre_g": 8.0, "fat_g": 20.0})
    assert "harbour oat bar" in names(only(BAR), FoodFilter(), window)
    assert "harbour oat bar" not in names(only({**BAR, "fibre_g": None}), FoodFilter(), window)


def test_a_plain_menu_has_no_supplement_in_any_dish() -> None:
    powder = {**TABLET, "name": "club whey powder", "stands_for": ["whey protein powder"], "dose": "scoop",
              "dose_g": 30, "iron_mg": None, "protein_g": 24, "energy_kcal": 120, "fat_g": 2, "fibre_g": 0}  # fmt: skip
    beans = '"black beans", "club whey powder"'
    assert listing(menu(powder, beans=beans).dishes, "club whey powder")
    found = menu(powder, beans=beans, plain=True)
    assert listing(found.dishes, "club whey powder") == set()
    assert "club whey powder" in found.pantry.foods, "a settled meal may hold it"
    assert "quay_plate" not in found.dishes


def test_a_food_that_no_dish_can_hold_is_told() -> None:
    alone = {**BAR, "stands_for": None, "aisle": "sports", "most_meal_g": 80, "most_day_g": 80, "keeps_days": 9}
    large = {**BAR, "measure_g": 500, "most_meal_g": 500, "most_day_g": 500}
    for food, says in ((alone, "none lists it"), (large, "0 of ")):
        found = [finding for finding in menu_findings(only(food)) if finding.what == "dishes that can hold it"]
        assert [finding.value.startswith(says) for finding in found] == [True]
    assert not [finding for finding in menu_findings(only(BAR)) if finding.what == "dishes that can hold it"]


def test_a_file_is_read_anew_when_it_changes(tmp_path: Path) -> None:
    path = write(tmp_path, own(BAR))
    first = read_own(path)
    assert read_own(path) is first
    write(tmp_path, own({**BAR, "name": "other bar"}))
    assert "other bar" in read_own(path).pantry.foods


def test_the_example_is_read() -> None:
    found = read_own(EXAMPLE)
    assert "quay_barley_oats" in found.dishes
    assert all(finding.severity == "note" for finding in menu_findings(found))
