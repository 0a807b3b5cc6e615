"""The food-composition table: what 100 g of each food hold."""

from __future__ import annotations

import csv
import hashlib
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from mealopt.core.nutrients import KEYS, NUTRIENTS
from mealopt.errors import BadInput
from mealopt.table.files import foods_folder

TABLE_NAME = "USDA SR28"

#: The columns of composition.csv: nutrients per 100 g edible portion, two household weights, refuse, and the factors
#: from which the table's energy was worked out.
HEADER: tuple[str, ...] = (
    "ndb",
    "group",
    "name",
    *(nutrient.key for nutrient in NUTRIENTS),
    "weight_1_g",
    "weight_1",
    "weight_2_g",
    "weight_2",
    "refuse_percent",
    "nitrogen_factor",
    "protein_kcal_per_g",
    "fat_kcal_per_g",
    "carbohydrate_kcal_per_g",
)

_FIRST = 3
_AFTER = _FIRST + len(KEYS)
_ROW = re.compile(r"\d{5},\d{4},")


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

    @property
    def source(self) -> str:
        """As the plan document names the row; that of a person's own food has its source for a number."""
        return self.ndb if self.ndb.startswith("own:") else f"USDA-SR28:{self.ndb}"


def _number(text: str) -> float | None:
    return float(text) if text else None


def _row(cells: list[str]) -> CompositionRow:
    """One row from its cells, in the order of HEADER. Raises ValueError where they are not such a row."""
    if len(cells) != len(HEADER):
        raise ValueError(f"{len(cells)} cells read, {len(HEADER)} expected")
    grams_1, words_1, grams_2, words_2, refuse, _, *factors = cells[_AFTER:]
    return CompositionRow(
        ndb=cells[0],
        group=cells[1],
        name=cells[2],
        per_100g={key: float(cell) for key, cell in zip(KEYS, cells[_FIRST:_AFTER], strict=True) if cell},
        weights=tuple((float(grams), words) for grams, words in ((grams_1, words_1), (grams_2, words_2)) if grams),
        refuse_percent=float(refuse or 0.0),
        factors=(_number(factors[0]), _number(factors[1]), _number(factors[2])),
    )


class Rows(Mapping[str, CompositionRow]):
    """The rows by food number; each is parsed when it is first asked for, because a plan needs some hundred of them.

    A lookup raises KeyError where the table has no such food, and BadInput with file and line where its row is broken.
    """

    def __init__(self, path: Path, lines: dict[str, tuple[int, str]]) -> None:
        self._path = path
        self._lines = lines
        self._parsed: dict[str, CompositionRow] = {}

    def __getitem__(self, ndb: str) -> CompositionRow:
        row = self._parsed.get(ndb)
        if row is None:
            number, line = self._lines[ndb]
            try:
                row = _row(next(csv.reader([line], strict=True)))
            except (csv.Error, ValueError) as error:
                raise BadInput(f"{self._path}, line {number}: not a row of the table ({error})") from error
            self._parsed[ndb] = row
        return row

    def __contains__(self, ndb: object) -> bool:
        return ndb in self._lines

    def __iter__(self) -> Iterator[str]:
        return iter(self._lines)

    def __len__(self) -> int:
        return len(self._lines)


@dataclass(frozen=True, slots=True)
class Composition:
    """The whole table: rows by food number, and the SHA-256 of the file that they came from."""

    rows: Mapping[str, CompositionRow]
    sha256: str
    name: str = TABLE_NAME


def read_composition(path: Path) -> Composition:
    """The table in a file of the layout that the importer writes.

    Raises BadInput with file and line where the header is another one, a line does not start with a food number and
    its group, or a food stands twice; what is wrong inside a row is found when that row is asked for.
    """
    try:
        content = path.read_bytes()
        text = content.decode("utf-8")
    except OSError as error:
        raise BadInput(f"{path}: cannot be read ({error.strerror})") from error
    except UnicodeDecodeError as error:
        raise BadInput(f"{path}: not UTF-8 (byte {error.start + 1})") from error
    header, *body = text.replace("\r\n", "\n").removesuffix("\n").split("\n")
    if header != ",".join(HEADER):
        raise BadInput(f"{path}, line 1: not the header of the table that the importer writes (ndb,group,name,...)")
    lines: dict[str, tuple[int, str]] = {}
    for number, line in enumerate(body, start=2):
        if not _ROW.match(line):
            raise BadInput(f"{path}, line {number}: {line[:20]!r} read, a food number and its group expected")
        if line[:5] in lines:
            raise BadInput(f"{path}, line {number}: food {line[:5]} stands twice")
        lines[line[:5]] = (number, line)
    return Composition(rows=Rows(path, lines), sha256=hashlib.sha256(content).hexdigest())


@lru_cache(maxsize=1)
def shipped_composition() -> Composition:
    """The table that ships with the program, read once a process."""
    return read_composition(foods_folder() / "composition.csv")
