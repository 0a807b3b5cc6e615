"""The price list: what a pack of each pantry food costs, and so a gram of it as eaten."""

from __future__ import annotations

import csv
import math
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from mealopt.errors import BadInput
from mealopt.files import read_text
from mealopt.table.files import foods_folder
from mealopt.table.find import nearest
from mealopt.table.pantry import Food, Pantry, shipped_pantry

HEADER = ("food", "pack_g", "price")

#: What the shipped prices are counted in: an invented currency, because the prices are invented.
CURRENCY = "coin"

#: No pack is lighter or heavier, g, and no price is outside these either.
LEAST, MOST = 0.001, 1e7


@dataclass(frozen=True, slots=True)
class PackPrice:
    """What one pack costs. pack_g: its grams as bought."""

    pack_g: float
    price: float


def _amount(text: str, where: str, key: str) -> float:
    try:
        value = float(text)
    except ValueError:
        value = math.nan
    if not (math.isfinite(value) and value > 0.0):
        raise BadInput(f"{where}: {key}: {text!r} read where a number above 0 is expected")
    if not LEAST <= value <= MOST:
        raise BadInput(f"{where}: {key}: {text!r} read; {LEAST:g} to {MOST:g} is allowed")
    return value


def as_eaten(price: float, pack_g: float, food: Food) -> float:
    """Price of a gram as the food is weighed: of a gram bought, over what trimming leaves and cooking makes of it.

    price: of one pack of pack_g grams as bought.
    """
    return price / pack_g / (food.yield_factor * food.edible_percent / 100.0)


def read_prices(path: Path, pantry: Pantry) -> dict[str, float]:
    """Price per gram as eaten, by pantry food, from a file of food, pack_g and price. Raises BadInput."""
    listed = read_price_list(path, pantry)
    return {name: as_eaten(pack.price, pack.pack_g, pantry.foods[name]) for name, pack in listed.items()}


def read_price_list(path: Path, pantry: Pantry) -> dict[str, PackPrice]:
    """Pack and its price, by pantry food, from a file of food, pack_g and price.

    Lines that start with # are notes. A food that the file leaves out has no price. Raises BadInput with file and line
    where the header is another one, a food is unknown (with the nearest that is known) or stands twice, or a number is
    none above 0.
    """
    lines = read_text(path).removeprefix("\ufeff").splitlines()
    numbered = [(number, line) for number, line in enumerate(lines, start=1) if line.strip() and line[0] != "#"]
    if not numbered or next(csv.reader([numbered[0][1]])) != list(HEADER):
        raise BadInput(f"{path}: the first line must read {','.join(HEADER)}")
    prices: dict[str, PackPrice] = {}
    for number, line in numbered[1:]:
        where, cells = f"{path}, line {number}", next(csv.reader([line]))
        if len(cells) != len(HEADER):
            raise BadInput(f"{where}: {len(cells)} cells read, {len(HEADER)} expected ({', '.join(HEADER)})")
        name = cells[0].strip()
        if name not in pantry.foods:
            raise BadInput(f"{where}: food: the pantry has no {name!r}{nearest(name, pantry)}")
        if name in prices:
            raise BadInput(f"{where}: food: {name} stands twice")
        prices[name] = PackPrice(_amount(cells[1], where, "pack_g"), _amount(cells[2], where, "price"))
    return prices


@lru_cache(maxsize=1)
def shipped_prices() -> dict[str, float]:
    """The invented prices that ship with the program, in CURRENCY per gram as eaten, read once a process."""
    return read_prices(foods_folder() / "prices.csv", shipped_pantry())


@lru_cache(maxsize=1)
def shipped_price_list() -> dict[str, PackPrice]:
    """The invented packs and prices that ship with the program, read once a process."""
    return read_price_list(foods_folder() / "prices.csv", shipped_pantry())
