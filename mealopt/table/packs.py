"""How each pantry food is sold: the shop's name for it, what it comes in, and how long an opened pack keeps."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from mealopt.errors import BadInput
from mealopt.files import read_text
from mealopt.table.files import foods_folder
from mealopt.table.find import nearest
from mealopt.table.pantry import Food, Pantry, shipped_pantry

HEADER = ("food", "sold_as", "one", "pack", "size", "pieces", "opened_days", "staple")

#: What food comes in; empty where pieces are sold loose. With its plural.
PACKS = {
    "": "",
    "bag": "bags",
    "bar": "bars",
    "bottle": "bottles",
    "box": "boxes",
    "bunch": "bunches",
    "carton": "cartons",
    "jar": "jars",
    "loaf": "loaves",
    "pack": "packs",
    "pot": "pots",
    "punnet": "punnets",
    "tin": "tins",
    "tub": "tubs",
    "tube": "tubes",
}


@dataclass(frozen=True, slots=True)
class Sold:
    """How one food is sold.

    name: as a shop says it; foods that share it are one thing to buy. one: a single piece in words, "" where it is not
    counted. pack: a word of PACKS, "" where pieces are sold loose. size: a pack's size in words, "" where that is its
    grams. pieces: in a pack, 0 where not counted. opened_days: how long an opened pack keeps; None where as long as an
    unopened one. staple: a kitchen is taken to have it.
    """

    name: str
    one: str = ""
    pack: str = "pack"
    size: str = ""
    pieces: int = 0
    opened_days: int | None = None
    staple: bool = False


def read_packs(path: Path, pantry: Pantry) -> dict[str, Sold]:
    """How the foods of a pantry are sold, by pantry name; lines that start with # are notes.

    Raises BadInput with file and line where a word or a number is not allowed, or foods of one name in the shop differ
    in aisle, pack, keeping or the row that they are bought by.
    """
    lines = read_text(path).splitlines()
    numbered = [(number, line) for number, line in enumerate(lines, start=1) if line.strip() and line[0] != "#"]
    if not numbered or next(csv.reader([numbered[0][1]])) != list(HEADER):
        raise BadInput(f"{path}: the first line must read {','.join(HEADER)}")
    found: dict[str, Sold] = {}
    first: dict[str, str] = {}
    for number, line in numbered[1:]:
        where, cells = f"{path}, line {number}", [cell.strip() for cell in next(csv.reader([line]))]
        if len(cells) != len(HEADER):
            raise BadInput(f"{where}: {len(cells)} cells read, {len(HEADER)} expected ({', '.join(HEADER)})")
        food, sold = cells[0], _sold(cells, where)
        if food not in pantry.foods:
            raise BadInput(f"{where}: food: the pantry has no {food!r}{nearest(food, pantry)}")
        if food in found:
            raise BadInput(f"{where}: food: {food} stands twice")
        other = first.setdefault(sold.name, food)
        if found.get(other, sold) != sold or _thing(pantry.foods[other]) != _thing(pantry.foods[food]):
            raise BadInput(f"{where}: sold_as: {food} and {other} are both sold as {sold.name!r}, and differ")
        found[food] = sold
    return found


def _thing(food: Food) -> tuple[object, ...]:
    return food.bought_ndb, food.aisle, food.pack_g, food.keeps_days, food.diet


def _sold(cells: list[str], where: str) -> Sold:
    _, name, one, pack, size, pieces, opened, staple = cells
    if not name:
        raise BadInput(f"{where}: sold_as: nothing read; the shop's name is expected")
    if pack not in PACKS:
        raise BadInput(f"{where}: pack: read {pack!r}; allowed are {', '.join(filter(None, PACKS))}, or nothing")
    if staple not in ("", "yes"):
        raise BadInput(f"{where}: staple: read {staple!r}; yes or nothing is allowed")
    counted = _whole(pieces, where, "pieces")
    if bool(one) != bool(counted) or (not pack and not counted):
        raise BadInput(f"{where}: pieces: read {pieces!r} with one = {one!r}; both or neither, and loose food both")
    return Sold(name, one, pack, size, counted or 0, _whole(opened, where, "opened_days"), staple == "yes")


def _whole(text: str, where: str, key: str) -> int | None:
    if not text:
        return None
    if not (text.isascii() and text.isdigit() and 1 <= int(text) <= 10_000):
        raise BadInput(f"{where}: {key}: read {text!r}; a whole number from 1 is expected")
    return int(text)


@lru_cache(maxsize=1)
def shipped_packs() -> dict[str, Sold]:
    """How the foods of the shipped pantry are sold, read once a process."""
    return read_packs(foods_folder() / "packs.csv", shipped_pantry())


@lru_cache(maxsize=1)
def _shop_names() -> frozenset[str]:
    return frozenset(how.name for how in shipped_packs().values())


def sold(food: Food) -> Sold:
    """How a food is sold; one of a person's own in packs under its own name."""
    return shipped_packs().get(food.name) or own_sold(food.name)


def own_sold(name: str) -> Sold:
    """How a food of a person's own is sold; one that has the name of something in the shop is told apart."""
    return Sold(f"{name} (your own)" if name in _shop_names() else name)
