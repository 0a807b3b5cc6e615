"""There are dishes enough for every slot and every way of eating, counted and then truly cooked."""

from __future__ import annotations

import pytest

from mealopt.menu.dishes import Menu, shipped_menu
from mealopt.menu.matrix import EATERS, LEAST, LINES, dishes_for, matrix, table
from tests.menu.cooked import Kitchen

MENU = shipped_menu()

#: Cells whose limits are tight enough that an interval may promise too much: each dish is cooked.
COOKED = [
    ("main meal (lunch or dinner)", "the same, no soy, no nuts"),
    ("breakfast", "vegan"),
    ("snack", "vegan"),
    ("after", "vegan"),
    ("breakfast, fibre 4 g, fat 10 g", "omnivore"),
    ("before, fibre 4 g, fat 10 g", "vegan"),
    ("before, fibre 4 g, fat 10 g", "the same, no soy, no nuts"),
    ("before, fibre 2 g, fat 5 g", "vegan"),
    ("before, fibre 2 g, fat 5 g", "gluten-free"),
]


def test_the_menu_is_as_large_as_it_must_be() -> None:
    assert len(MENU.dishes) >= 220
    assert len(MENU.pantry.foods) >= 350


def test_no_cell_is_below_its_least() -> None:
    counts = matrix(MENU)
    short = {
        (line, column): counts[line][column]
        for line, row in LEAST.items()
        for column, least in row.items()
        if counts[line][column] < least
    }
    assert short == {}
    assert "<" not in table(counts)


@pytest.mark.parametrize(("line", "column"), COOKED, ids=lambda word: word)
def test_what_is_counted_can_be_cooked(line: str, column: str) -> None:
    limits = dict(LINES[line].limits)
    cooked = 0
    for dish_id in dishes_for(LINES[line], EATERS[column], MENU):
        kitchen = Kitchen(MENU.dishes[dish_id], MENU, EATERS[column], limits, LINES[line].energy_least)
        cooked += kitchen.found is not None and kitchen.cook() is not None
    assert cooked >= LEAST[line][column]


def test_a_small_menu_falls_short_and_says_so() -> None:
    small = Menu({"muesli": MENU.dishes["muesli"]}, MENU.pantry)
    counts = matrix(small)
    assert counts["breakfast"]["omnivore"] == 1
    assert counts["lunch"]["omnivore"] == 0
    assert counts["breakfast"]["gluten-free"] == 0
    assert "1<12" in table(counts)
