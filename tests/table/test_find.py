"""Finding a food by words, showing it, and naming the nearest."""

from __future__ import annotations

import pytest

from mealopt.errors import BadInput
from mealopt.table.composition import Composition
from mealopt.table.find import find_foods, nearest, nearest_names, plain, show_food
from mealopt.table.pantry import Pantry


def names(words: str) -> list[str]:
    return [found.name for found in find_foods(words)]


@pytest.mark.parametrize("words", ["brown rice", "RICE brown", "  rice,  BROWN ", "ríce browñ"])
def test_words_in_any_order_case_and_accent(words: str) -> None:
    assert names(words)[0] == "rice, brown"
    assert names(words) == names("rice brown")


def test_the_pantry_comes_first_and_all_words_must_occur(table: Composition) -> None:
    found = find_foods("rice")
    ours = [one.food is not None for one in found]
    assert ours == sorted(ours, reverse=True)
    assert 5 < sum(ours) < len(ours)
    for one in find_foods("rice cooked"):
        both = plain(f"{one.name} {one.food.says if one.food else ''} {one.row.name}")
        assert "rice" in both
        assert "cooked" in both
    assert {one.row.ndb for one in found if one.food is None} == {
        ndb for ndb, row in table.rows.items() if "rice" in plain(row.name)
    }


def test_a_whole_word_comes_before_a_part_of_one() -> None:
    found = names("oats")
    assert found.index("oats, rolled") < found.index("buckwheat")  # groats


def test_the_spelling_of_the_table_leads_to_ours() -> None:
    assert "yoghurt, plain" in names("yogurt")
    assert names("eggplant")[0] == "aubergine"


def test_a_number_finds_its_row_and_who_stands_on_it() -> None:
    assert names("20445") == ["rice, white", "20445"]
    assert names("20045") == ["20045"]


@pytest.mark.parametrize("words", ["", "   ", "?!", "zzzz", "rice zzzz", "00000"])
def test_nothing_is_found_for_nothing(words: str) -> None:
    assert find_foods(words) == []


def test_a_pantry_food_is_shown_whole(pantry: Pantry) -> None:
    shown = show_food("Rice, WHITE")
    assert shown.food is pantry.foods["rice, white"]
    assert (shown.row.ndb, shown.bought and shown.bought.ndb) == ("20445", "20444")
    assert shown.used_by == ("rice, white",)


def test_a_row_of_the_table_is_shown_with_who_stands_on_it() -> None:
    shown = show_food(" 16070 ")
    assert shown.food is None
    assert shown.bought is None
    assert shown.row.name.startswith("Lentils")
    assert set(shown.used_by) == {"lentils", "red lentils"}


def test_every_pantry_food_is_found_and_shown_by_its_name(pantry: Pantry) -> None:
    for name, food in pantry.foods.items():
        assert show_food(name).food is food
        assert nearest_names(name)[0] == name


def test_an_unknown_food_is_refused_with_the_nearest() -> None:
    with pytest.raises(BadInput, match=r"no food 'brocoli' in the pantry.*\(nearest: broccoli"):
        show_food("brocoli")
    with pytest.raises(BadInput, match=r"nor a row of that number in the table$"):
        show_food("00000")


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("rolled oats", "oats, rolled"),
        ("porage oats", "oats, rolled"),
        ("brocoli", "broccoli"),
        ("chiken", "chicken breast"),
        ("peanutbutter", "peanut butter"),
        ("wholemeal bread", "bread, wholemeal"),
        ("PARMESAN", "Parmesan"),
    ],
)
def test_the_nearest_is_what_was_meant(written: str, meant: str) -> None:
    assert meant in nearest_names(written)
    assert nearest(written).startswith(" (nearest: ")
    assert len(nearest_names(written)) <= 3


@pytest.mark.parametrize("written", ["", "zzzz", "0"])
def test_nothing_is_near_to_nothing(written: str) -> None:
    assert nearest_names(written) == []
    assert nearest(written) == ""


def test_accents_are_ignored() -> None:
    assert plain("Crème Brûlée, JALAPEÑO") == "creme brulee, jalapeno"
