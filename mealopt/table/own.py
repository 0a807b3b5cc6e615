"""A person's own foods: the file that holds them, read, checked and set beside the pantry.

The file is TOML with schema = "mealopt/own-1", [[food]] entries from labels and [[dish]] entries as in foods/dishes/.
What a label leaves out is unknown, never zero; an allergen that the file does not rule out counts as present; a diet
left unsaid is "omnivore". Medicines are not for this file.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from functools import lru_cache
from pathlib import Path
from typing import Any

from mealopt.errors import BadInput, Refused
from mealopt.files import read_text
from mealopt.table.composition import CompositionRow
from mealopt.table.own_entry import OwnFood, read_entry
from mealopt.table.pantry import Food, Pantry, shipped_pantry
from mealopt.table.upper_limits import REFERRAL, Dosed, over

SCHEMA = "mealopt/own-1"
TABLES = ("schema", "food", "dish")

#: No person's own file is larger: bytes, entries of each kind.
MOST_BYTES = 1_000_000
MOST_ENTRIES = 300


@dataclass(frozen=True, slots=True)
class Shelf:
    """What an own file holds.

    file: its name without its folder. foods: by name, in the file's order. rows: source -> what 100 g hold, unknown
    nutrients absent. dishes: the entries of its dishes as read, which the menu checks.
    """

    file: str
    foods: Mapping[str, OwnFood]
    rows: Mapping[str, CompositionRow]
    dishes: tuple[Any, ...]

    @property
    def supplements(self) -> tuple[OwnFood, ...]:
        """Its supplements."""
        return tuple(food for food in self.foods.values() if food.supplement)

    @property
    def table(self) -> dict[str, dict[str, float]]:
        """Source -> nutrient key -> amount in 100 g, for a recheck."""
        return {source: dict(row.per_100g) for source, row in self.rows.items()}


class OwnPantry(Pantry):
    """The shipped pantry with a person's own foods beside it; the shipped one stays as it is."""

    def __init__(self, shipped: Pantry, shelf: Shelf) -> None:
        super().__init__((*shipped.foods.values(), *shelf.foods.values()), shipped.composition)
        self.shelf = shelf

    def row(self, food: Food) -> CompositionRow:
        """What 100 g of a food hold, by the table or by its label."""
        return self.shelf.rows[food.ndb] if isinstance(food, OwnFood) else super().row(food)


def own_text(path: Path) -> str:
    """The text of an own file. Raises BadInput."""
    if "#" in path.name or not path.name.isprintable():
        raise BadInput(f"{str(path)!r}: a plain name without # is expected, for a plan names each food own:FILE#NAME")
    text = read_text(path)
    if len(text) > MOST_BYTES:
        raise BadInput(f"{path}: {len(text) / 1e6:.1f} MB read; at most {MOST_BYTES / 1e6:g} MB is allowed")
    return text.removeprefix("\ufeff")


@lru_cache(maxsize=8)
def own_shelf(where: str, text: str) -> Shelf:
    """The foods of an own file's text, beside the shipped pantry. where: its path, for refusals.

    Raises BadInput with file, entry and key; Refused where supplements pass an upper limit.
    """
    pantry = shipped_pantry()
    data = _tables(where, text)
    file = Path(where).name
    foods: dict[str, OwnFood] = {}
    rows: dict[str, CompositionRow] = {}
    doses: list[Dosed] = []
    for number, entry in enumerate(data.get("food", []), start=1):
        read = read_entry(entry, where, number, file, pantry)
        name = read.food.name
        if name in foods:
            raise BadInput(f"{where}, [[food]] {number} ({name}) name: stands twice in this file")
        foods[name] = read.food
        rows[read.food.ndb] = CompositionRow(read.food.ndb, "", name, read.per_100g, (), 0.0, (None, None, None))
        if read.food.supplement:
            doses.append(Dosed(name, read.a_day))
    refused = list(over(doses))
    if refused:
        raise Refused(f"{where}: {'; '.join(refused)}: {REFERRAL}")
    return Shelf(file, foods, rows, tuple(data.get("dish", [])))


def _tables(where: str, text: str) -> dict[str, Any]:
    """The file's tables, of the right kinds. Raises BadInput."""
    try:
        data = tomllib.loads(text)
    except (ValueError, RecursionError) as error:
        raise BadInput(f"{where}: broken TOML ({str(error)[:200]}); [[food]] and [[dish]] are expected") from None
    if data.get("schema") != SCHEMA:
        raise BadInput(f'{where}: schema: read {data.get("schema")!r:.60}; schema = "{SCHEMA}" is expected')
    for key, entries in data.items():
        if key not in TABLES:
            near = get_close_matches(key[:60], TABLES, n=1)
            meant = f': did you mean "{near[0]}"?' if near else f"; allowed are {', '.join(TABLES)}"
            raise BadInput(f"{where}: {key[:60]}: read a key that does not exist{meant}")
        if key != "schema" and not (isinstance(entries, list) and all(isinstance(one, dict) for one in entries)):
            raise BadInput(f"{where}: {key}: tables are expected, each of which begins with [[{key}]]")
        if key != "schema" and len(entries) > MOST_ENTRIES:
            raise BadInput(f"{where}: [[{key}]]: read {len(entries)} entries; at most {MOST_ENTRIES} are allowed")
    if not data.get("food") and not data.get("dish"):
        raise BadInput(f"{where}: holds no food and no dish; each begins with [[food]] or [[dish]]")
    return data
