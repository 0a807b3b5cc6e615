"""What the food table has no column for: single sugars and caffeine, from a file in which each value says its basis."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from mealopt.core.nutrients import CARBOHYDRATE, FIBRE
from mealopt.errors import BadInput
from mealopt.table.files import foods_folder
from mealopt.table.find import nearest
from mealopt.table.pantry import Pantry, shipped_pantry

HEADER = (
    "food",
    "glucose_percent",
    "fructose_percent",
    "caffeine_low_mg",
    "caffeine_high_mg",
    "basis",
    "why",
)
BASES = ("assumed", "published")
SUGARS = "sugars_g"


@dataclass(frozen=True, slots=True)
class Extra:
    """One food. glucose, fructose: shares (0 to 1) of its sugars, None where not said; caffeine: mg in 100 g, low and
    high; basis: "assumed" or "published", why: from what, or the source.
    """

    food: str
    glucose: float | None
    fructose: float | None
    caffeine: tuple[float, float] | None
    basis: str
    why: str


def read_extra(path: Path, pantry: Pantry) -> dict[str, Extra]:
    """The file's foods by name. Raises BadInput with file and line where a row breaks a rule."""
    try:
        lines = path.read_text(encoding="utf-8").splitlines()
    except (OSError, UnicodeDecodeError) as error:
        raise BadInput(f"{path}: cannot be read ({error})") from error
    numbered = [(number, line) for number, line in enumerate(lines, start=1) if line.strip() and line[0] != "#"]
    if not numbered or next(csv.reader([numbered[0][1]])) != list(HEADER):
        raise BadInput(f"{path}: the first line must read {','.join(HEADER)}")
    found: dict[str, Extra] = {}
    for number, line in numbered[1:]:
        where, cells = f"{path}, line {number}", [cell.strip() for cell in next(csv.reader([line]))]
        if len(cells) != len(HEADER):
            raise BadInput(f"{where}: {len(cells)} cells read, {len(HEADER)} expected ({', '.join(HEADER)})")
        entry = _entry(cells, where, pantry)
        if entry.food in found:
            raise BadInput(f"{where}: food: {entry.food} stands twice")
        found[entry.food] = entry
    return found


def _entry(cells: list[str], where: str, pantry: Pantry) -> Extra:
    food, glucose, fructose, low, high, basis, why = cells
    if food not in pantry.foods:
        raise BadInput(f"{where}: food: the pantry has no {food!r}{nearest(food, pantry)}")
    if basis not in BASES:
        raise BadInput(f"{where}: basis: {basis!r} read; one of {', '.join(BASES)} is expected")
    if not why:
        raise BadInput(f"{where}: why: nothing read; a source, or what the food is, is expected")
    shares = _pair(glucose, fructose, 100.0, f"{where}: glucose_percent, fructose_percent")
    if shares is not None and shares[0] + shares[1] > 100.0 + 1e-9:
        raise BadInput(f"{where}: glucose_percent and fructose_percent: {sum(shares):g} read together; at most 100")
    caffeine = _pair(low, high, 1000.0, f"{where}: caffeine_low_mg, caffeine_high_mg")
    if caffeine is not None and caffeine[0] > caffeine[1]:
        raise BadInput(f"{where}: caffeine_low_mg: {low} read, above the high end of {high}")
    if shares is None and caffeine is None:
        raise BadInput(f"{where}: {food} says nothing; shares of sugars or caffeine are expected")
    glucose_share, fructose_share = (None, None) if shares is None else (shares[0] / 100.0, shares[1] / 100.0)
    return Extra(food, glucose_share, fructose_share, caffeine, basis, why)


def _pair(one: str, other: str, most: float, where: str) -> tuple[float, float] | None:
    if not one and not other:
        return None
    try:
        first, second = float(one), float(other)
    except ValueError:
        raise BadInput(f"{where}: {one!r} and {other!r} read; two numbers or two blanks are expected") from None
    if not (0.0 <= first <= most and 0.0 <= second <= most):
        raise BadInput(f"{where}: {one} and {other} read; 0 to {most:g} is allowed")
    return first, second


@lru_cache(maxsize=1)
def shipped_extra() -> dict[str, Extra]:
    """The file that ships with the program, read once a process."""
    return read_extra(foods_folder() / "extra.csv", shipped_pantry())


def single_sugars(name: str, per_gram: dict[str, float], extra: dict[str, Extra]) -> tuple[float, float]:
    """Glucose and fructose that one gram of a food ends as, g; starch is glucose.

    A food without a line, or whose sugars the table leaves blank, counts as one sugar: glucose.
    """
    carbohydrate = max(0.0, per_gram.get(CARBOHYDRATE, 0.0) - per_gram.get(FIBRE, 0.0))
    entry, sugars = extra.get(name), per_gram.get(SUGARS)
    if entry is None or entry.fructose is None or sugars is None:
        return carbohydrate, 0.0
    fructose = min(carbohydrate, sugars) * entry.fructose
    return carbohydrate - fructose, fructose
