"""The food-composition table: what 100 g of each food hold."""

from __future__ import annotations

import csv
import hashlib
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from mealopt.core.nutrients import KEYS
from mealopt.errors import BadInput
from mealopt.table.files import foods_folder

TABLE_NAME = "USDA SR28"


@dataclass(frozen=True, slots=True)
class CompositionRow:
    """One food of the table.

    per_100g: nutrient key -> amount in 100 g edible portion, in the unit of the key; a nutrient that the table leaves
    blank is absent, never zero. weights: household weights, (grams, words). refuse_percent: inedible share of the food
    as the table describes it. factors: kcal per g of protein, fat, carbohydrate, where the table states them.
    """

    ndb: str
    group: str
    name: str
    per_100g: dict[str, float]
    weights: tuple[tuple[float, str], ...]
    refuse_percent: float
    factors: tuple[float | None, float | None, float | None]


@dataclass(frozen=True, slots=True)
class Composition:
    """The whole table: rows by food number, and the SHA-256 of the file that they came from."""

    rows: dict[str, CompositionRow]
    sha256: str
    name: str = TABLE_NAME


def _number(text: str) -> float | None:
    return float(text) if text else None


def _row(fields: dict[str, str]) -> CompositionRow:
    weights = tuple((float(fields[f"weight_{n}_g"]), fields[f"weight_{n}"]) for n in (1, 2) if fields[f"weight_{n}_g"])
    return CompositionRow(
        ndb=fields["ndb"],
        group=fields["group"],
        name=fields["name"],
        per_100g={key: float(fields[key]) for key in KEYS if fields[key]},
        weights=weights,
        refuse_percent=float(fields["refuse_percent"] or 0.0),
        factors=(
            _number(fields["protein_kcal_per_g"]),
            _number(fields["fat_kcal_per_g"]),
            _number(fields["carbohydrate_kcal_per_g"]),
        ),
    )


def read_composition(path: Path) -> Composition:
    """The table in a file of the layout that the importer writes. Raises BadInput with file and line."""
    try:
        content = path.read_bytes()
    except OSError as error:
        raise BadInput(f"{path}: cannot be read ({error.strerror})") from error
    rows: dict[str, CompositionRow] = {}
    reader = csv.DictReader(content.decode("utf-8").splitlines())
    for fields in reader:
        try:
            row = _row(fields)
        except (KeyError, TypeError, ValueError) as error:
            raise BadInput(f"{path}, line {reader.line_num}: not a row of the table ({error})") from error
        rows[row.ndb] = row
    return Composition(rows=rows, sha256=hashlib.sha256(content).hexdigest())


@lru_cache(maxsize=1)
def shipped_composition() -> Composition:
    """The table that ships with the program, read once a process."""
    return read_composition(foods_folder() / "composition.csv")
