"""The invented price list, and what its reader refuses."""

from __future__ import annotations

from collections import defaultdict
from pathlib import Path

import pytest

from mealopt.errors import BadInput
from mealopt.table.files import foods_folder
from mealopt.table.pantry import Pantry
from mealopt.table.prices import CURRENCY, as_eaten, read_prices, shipped_prices


def write(tmp_path: Path, text: str) -> Path:
    path = tmp_path / "prices.csv"
    path.write_text(text, encoding="utf-8")
    return path


def test_every_pantry_food_has_a_price(pantry: Pantry) -> None:
    prices = shipped_prices()
    assert list(prices) == list(pantry.foods)
    assert all(0 < price < 0.2 for price in prices.values())


def test_the_file_says_that_it_is_invented() -> None:
    first = (foods_folder() / "prices.csv").read_text(encoding="utf-8").splitlines()[0]
    assert first.startswith("# Invented prices")
    assert CURRENCY in first


def test_packs_are_those_of_the_pantry(pantry: Pantry) -> None:
    lines = (foods_folder() / "prices.csv").read_text(encoding="utf-8").splitlines()[3:]
    packs = dict(line.strip('"').rsplit(",", 2)[:2] for line in lines)
    assert {name.strip('"'): float(pack) for name, pack in packs.items()} == {
        name: food.pack_g for name, food in pantry.foods.items()
    }


def test_the_same_bought_thing_costs_the_same(pantry: Pantry) -> None:
    bought: dict[tuple[str, float, str], set[float]] = defaultdict(set)
    for name, price in shipped_prices().items():
        food = pantry.foods[name]
        per_bought = price * food.yield_factor * food.edible_percent / 100
        bought[food.bought_ndb, food.pack_g, food.diet].add(round(per_bought, 6))
    assert {key: found for key, found in bought.items() if len(found) > 1} == {}


def test_prices_stand_in_order_beside_each_other() -> None:
    """Staples are cheap, meat and fish dearer, what is scarce dearest [common practice, no source]."""
    prices = shipped_prices()
    order = ["rice, white", "bread, white", "chicken breast", "beef steak", "scallops"]
    assert [prices[name] for name in order] == sorted(prices[name] for name in order)
    assert prices["lentils"] < prices["tofu, firm"] < prices["salmon"]
    assert prices["sunflower oil"] < prices["olive oil"]


def test_a_gram_as_eaten_costs_what_was_bought_for_it(tmp_path: Path, pantry: Pantry) -> None:
    """1 kg of rice for 2 coin makes 2.8 kg cooked; of 1 kg of bananas for 1.28 coin 640 g are eaten."""
    found = read_prices(write(tmp_path, 'food,pack_g,price\n"rice, white",1000,2\nbanana,1000,1.28\n'), pantry)
    assert found == {"rice, white": pytest.approx(2 / 2800), "banana": pytest.approx(0.002)}
    egg = pantry.foods["egg"]
    assert as_eaten(2.0, 341.0, egg) == pytest.approx(2.0 / (341 * 0.88))


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", r"the first line must read food,pack_g,price"),
        ("# only a note\n", r"the first line must read food,pack_g,price"),
        ("food,price\n", r"the first line must read food,pack_g,price"),
        ("food,pack_g,price\nhoney,340\n", r"line 2: 2 cells read, 3 expected"),
        ("food,pack_g,price\nhony,340,3\n", r"line 2: food: the pantry has no 'hony' \(nearest: honey"),
        ("food,pack_g,price\n\n# note\nhoney,340,3\nhoney,340,3\n", r"line 5: food: honey stands twice"),
        ("food,pack_g,price\nhoney,0,3\n", r"line 2: pack_g: '0' read where a number above 0"),
        ("food,pack_g,price\nhoney,340,-1\n", r"line 2: price: '-1' read where a number above 0"),
        ("food,pack_g,price\nhoney,340,cheap\n", r"line 2: price: 'cheap' read where a number above 0"),
        ("food,pack_g,price\nhoney,1e-300,2\n", r"line 2: pack_g: '1e-300' read; 0.001 to 1e\+07 is allowed"),
        ("food,pack_g,price\nhoney,340,1e300\n", r"line 2: price: '1e300' read; 0.001 to"),
        ("food,pack_g,price\nhoney,340,inf\n", r"line 2: price: 'inf' read where a number above 0"),
        ("food,pack_g,price\nhoney,nan,3\n", r"line 2: pack_g: 'nan' read where a number above 0"),
    ],
)
def test_broken_lists_are_refused(tmp_path: Path, pantry: Pantry, text: str, message: str) -> None:
    with pytest.raises(BadInput, match=rf"prices\.csv(:|,) {message}"):
        read_prices(write(tmp_path, text), pantry)


def test_a_list_that_cannot_be_read_is_refused(tmp_path: Path, pantry: Pantry) -> None:
    with pytest.raises(BadInput, match="is a folder"):
        read_prices(tmp_path, pantry)
