"""Main meals on one staple, or of one kind of protein, again and again."""

from __future__ import annotations

import pytest

from mealopt.rules import weights
from mealopt.rules.main_meals import groups_of
from mealopt.table.pantry import shipped_pantry
from tests.rules import tiny

COVERS = "main meals alike"

FOODS = {
    "toast": tiny.food("toast", kin="bread"),
    "roll": tiny.food("roll", kin="bread"),
    "cod": tiny.food("cod", "fish"),
    "tuna": tiny.food("tuna", "fish"),
    "soya milk": tiny.food("soya milk", "soy", kin="milk"),
    "tofu": tiny.food("tofu", "soy"),
    "apple": tiny.food("apple", "fruit"),
}


def charged(*meals: str, kinds: tuple[str, ...] = ("breakfast", "lunch", "dinner", "snack")) -> float:
    """Points for these foods, one a meal."""
    bowl = tiny.plate("bowl", tiny.part("base", *FOODS.values()))
    slots = tuple(tiny.slot(index, kind) for index, kind in enumerate(kinds))
    eaten = {index: ("bowl", {name: 10.0}) for index, name in enumerate(meals)}
    return tiny.penalty(tiny.day(slots, *[(bowl,)] * len(slots)), COVERS, eaten)


@pytest.mark.parametrize(
    ("meals", "again"),
    [
        (("toast", "roll", "cod", "apple"), 1),
        (("toast", "cod", "apple", "roll"), 0),
        (("cod", "tuna", "cod", "tuna"), 2),
        (("tofu", "soya milk", "apple", "tofu"), 0),
        (("apple", "apple", "apple", "apple"), 0),
    ],
)
def test_each_main_meal_beyond_the_first(meals: tuple[str, ...], again: int) -> None:
    """Snacks do not count, nor does a soya drink beside tofu."""
    assert charged(*meals) == pytest.approx(again * weights.ALIKE, abs=1e-6)


def test_a_plate_that_always_holds_it_counts_once() -> None:
    """Two kinds of bread on one plate are one meal of bread."""
    plates = [
        (tiny.plate(name, tiny.part("bread", FOODS["toast"], FOODS["roll"], pick=(2, 2))),) for name in ("one", "two")
    ]
    slots = (tiny.slot(0, "breakfast"), tiny.slot(1, "lunch"))
    both = {"toast": 10.0, "roll": 10.0}
    assert tiny.penalty(tiny.day(slots, *plates), COVERS, {0: ("one", both), 1: ("two", both)}) == pytest.approx(
        weights.ALIKE
    )


def test_the_groups_are_of_the_pantry() -> None:
    """Each group has foods; a food that merely seasons or is drunk has none."""
    foods = shipped_pantry().foods.values()
    groups: dict[str, set[str]] = {}
    for food in foods:
        choice = tiny.food(food.name, *food.counts, kin=food.kin)
        for group in groups_of(choice):
            groups.setdefault(group, set()).add(food.name)
    assert all(len(names) >= 1 for names in groups.values())
    assert {"bread, white", "pitta, white"} <= groups["bread"]
    assert {"cod", "prawns"} <= groups["fish"]
    assert {"pasta, white", "soba noodles"} <= groups["pasta or noodles"]
    assert "soya drink" not in groups["soy"]
