"""How food is sold: every pantry food, one thing one pack; and what the reader refuses."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from pathlib import Path

import pytest

from mealopt.errors import BadInput
from mealopt.table.packs import HEADER, read_packs, shipped_packs, sold
from mealopt.table.pantry import Pantry
from mealopt.table.prices import PackPrice, shipped_price_list
from mealopt.table.shop_checks import check_shop

HEAD = ",".join(HEADER) + "\n"


def test_every_pantry_food_is_sold_and_nothing_else(pantry: Pantry) -> None:
    assert set(shipped_packs()) == set(pantry.foods)


def test_one_thing_has_one_pack_and_one_price(pantry: Pantry) -> None:
    things: dict[str, set[tuple[object, ...]]] = defaultdict(set)
    for name, how in shipped_packs().items():
        price = shipped_price_list()[name]
        things[how.name].add((price.pack_g, price.price, pantry.foods[name].bought_ndb))
    assert {name: found for name, found in things.items() if len(found) > 1} == {}


def test_a_piece_weighs_what_the_kitchen_measure_takes(pantry: Pantry) -> None:
    """Three apples of a plan are three apples in the shop: a loose piece is no lighter than its measure as bought."""
    for name, how in shipped_packs().items():
        food = pantry.foods[name]
        head = name.split(",")[0]
        if how.pieces == 1 and not how.pack and food.measure.removeprefix("medium ").removeprefix("half ") == head:
            whole = food.measure_g * (2 if food.measure.startswith("half ") else 1)
            assert food.pack_g >= whole / food.yield_factor * 100 / food.edible_percent - 1e-9, name


def test_the_check_of_the_food_files_names_what_no_shop_could_sell(pantry: Pantry) -> None:
    packs, prices = dict(shipped_packs()), dict(shipped_price_list())
    assert list(check_shop(pantry, packs, prices)) == []
    del packs["honey"], prices["jam"]
    packs["spinach, raw"] = replace(packs["spinach, raw"], opened_days=6)
    prices["apple"] = PackPrice(900, 2.0)
    found = {(one.food, one.what): (one.value, one.severity) for one in check_shop(pantry, packs, prices)}
    assert found == {
        ("honey", "how it is sold"): ("no line", "fault"),
        ("jam", "price"): ("no line", "fault"),
        ("spinach, raw", "days that an opened pack keeps"): ("6", "fault"),
        ("apple", "pack, g"): ("900", "fault"),
    }


def test_a_food_that_the_file_leaves_out_is_sold_in_packs_under_its_name(pantry: Pantry) -> None:
    other = pantry.foods["honey"].model_copy(update={"name": "heather honey"})
    assert (sold(other).name, sold(other).pack, sold(other).staple) == ("heather honey", "pack", False)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "the first line must read food,sold_as"),
        (HEAD + "honey,honey\n", "line 2: 2 cells read, 8 expected"),
        (HEAD + "hony,honey,,jar,,,,\n", r"line 2: food: the pantry has no 'hony' \(nearest: honey"),
        (HEAD + "honey,,,jar,,,,\n", "line 2: sold_as: nothing read"),
        (HEAD + "honey,honey,,crate,,,,\n", "line 2: pack: read 'crate'; allowed are bag"),
        (HEAD + "honey,honey,,,,,,\n", "line 2: pieces"),
        (HEAD + "honey,honey,jar,jar,,,,\n", "line 2: pieces"),
        (HEAD + "honey,honey,,jar,,,-3,\n", "line 2: opened_days: read '-3'"),
        (HEAD + "honey,honey,,jar,,,,no\n", "line 2: staple: read 'no'"),
        (HEAD + "honey,honey,,jar,,,,\n\n# note\nhoney,honey,,jar,,,,\n", "line 5: food: honey stands twice"),
        (
            HEAD + "honey,sweet,,jar,,,,\njam,sweet,,jar,,,,\n",
            "line 3: sold_as: jam and honey are both sold as 'sweet'",
        ),
    ],
)
def test_broken_files_are_refused(tmp_path: Path, pantry: Pantry, text: str, message: str) -> None:
    path = tmp_path / "packs.csv"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(BadInput, match=message):
        read_packs(path, pantry)
