"""Makes foods/composition.csv from the two published text files of USDA SR28.

The files are caret-separated, tildes as quotes, latin-1: ABBREV.txt (nutrients per 100 g edible portion, two household
weights, refuse) and FOOD_DES.txt (names, maker, the energy factors of each food). The same input gives the same bytes.
"""

from __future__ import annotations

import csv
import hashlib
import io
import math
import re
from pathlib import Path

from mealopt.errors import BadInput
from mealopt.table.composition import HEADER

SHA256 = {
    "ABBREV.txt": "4c42235a001efd5e94ce38001682138056aa1b755427b8a8d315c2b02cd2b85b",
    "FOOD_DES.txt": "bb2047218cdad1d830da69e760386409fde3b7afabceae604c5479f280d4fa2e",
}

ABBREV_FIELDS = 53
FOOD_DES_FIELDS = 14

#: Groups of branded, restaurant and infant foods as a whole.
LEFT_OUT_GROUPS = {"0300": "baby foods", "2100": "fast foods", "3600": "restaurant foods"}

#: Words in capitals that are no maker's name; any other such word of three letters and more marks a trade name.
PLAIN_CAPITALS = {"USDA", "BBQ", "NFS", "NFSMI"}
_CAPITALS = re.compile(r"\b[A-Z][A-Z&'\-]*[A-Z]\b")

#: A remark on who else hands the same food out; the food itself is a generic one.
_DISTRIBUTED = re.compile(r"\(includes USDA commodity[^)]*\)?", re.IGNORECASE)
_BRANDED_WORDS = re.compile(r"school lunch|restaurant|fast[ -]food|\bbrand\b|commodity", re.IGNORECASE)

#: Rows that no rule above catches, found by reading every name that was left: row number -> why it stays out. The
#: trade names themselves are not repeated here.
LEFT_OUT_ROWS = {
    "01200": "a trade name, without a maker in the maker's column",
    "01223": "a trade name, without a maker in the maker's column",
    "01224": "a trade name, without a maker in the maker's column",
    "01302": "a trade name, without a maker in the maker's column",
    "08580": "a registered name of a flour mixture",
    "09451": "the name gives a registered name of the fruit",
    "11308": "the name gives a trade name among the kinds included",
    "14031": "a flavour sold under a registered name",
    "14462": "a trade name, without a maker in the maker's column",
    "14599": "a trade name, without a maker in the maker's column",
    "18156": "the name gives what may be a trade name among the kinds included",
    "18942": "a trade name, without a maker in the maker's column",
    "18943": "a trade name, without a maker in the maker's column",
    "18956": "what may be one bakery's own name",
    "19401": "a trade name, in small letters",
    "22963": "a trade name, without a maker in the maker's column",
    "42204": "the name gives a trade name among the kinds included",
}

#: Words with a capital that may stand in a household weight; any other one marks a trade name.
PLAIN_WEIGHT_WORDS = {
    *("Arrowroot", "Bag", "From", "Jigger", "NFS", "NLEA", "Potato", "Roll", "Sum", "TBSP", "Tbsp", "Yield"),
}
#: Household weights that give a trade name in small letters: row number -> which of the two.
LEFT_OUT_WEIGHTS = {"18249": 2, "28331": 1}
_WEIGHT_REMARK = re.compile(r"\s*\(include[^)]*\)")
_WITH_CAPITAL = re.compile(r"\b\w*[A-Z][\w'&\-]*")


def read_caret_file(path: Path, fields: int) -> list[list[str]]:
    """Rows of one published file, quotes taken off. Raises BadInput where a row has another number of fields."""
    try:
        text = path.read_bytes().decode("latin-1")
    except OSError as error:
        raise BadInput(f"{path}: cannot be read ({error.strerror})") from error
    rows = []
    for number, line in enumerate(text.replace("\r\n", "\n").removesuffix("\n").split("\n"), start=1):
        row = [part[1:-1] if len(part) > 1 and part[0] == part[-1] == "~" else part for part in line.split("^")]
        if len(row) != fields:
            raise BadInput(f"{path}, line {number}: {len(row)} fields read, {fields} expected")
        rows.append(row)
    return rows


def generic(ndb: str, group: str, name: str, maker: str) -> bool:
    """Whether a food is a generic one: no maker, no trade name, no restaurant, school or infant food."""
    name = _DISTRIBUTED.sub("", name)
    if maker.strip() or group in LEFT_OUT_GROUPS or ndb in LEFT_OUT_ROWS or _BRANDED_WORDS.search(name):
        return False
    return all(len(word) < 3 or word in PLAIN_CAPITALS for word in _CAPITALS.findall(name))


def plain_weight(grams: str, words: str) -> tuple[str, str]:
    """A household weight without trade names: remarks on what else it includes are dropped.

    Both parts come back blank where a trade name is still left, and where the table gives words without grams.
    """
    words = " ".join(_WEIGHT_REMARK.sub("", words).split()).rstrip(",")
    if not grams or any(word not in PLAIN_WEIGHT_WORDS for word in _WITH_CAPITAL.findall(words)):
        return "", ""
    return grams, words


def _numbers(row: list[str], where: str) -> list[str]:
    """The cells of one row that must be numbers or blank, as they stand. Raises BadInput on anything else."""
    for cell in row:
        try:
            sound = not cell or (math.isfinite(float(cell)) and float(cell) >= 0)
        except ValueError:
            sound = False
        if not sound:
            raise BadInput(f"{where}: {cell!r} read where a number of at least 0, or a blank, is expected")
    return row


def composition_rows(abbrev: list[list[str]], names: list[list[str]]) -> list[list[str]]:
    """One row a generic food, in the order of HEADER, by food number. A blank stays a blank.

    Raises BadInput where a food has nutrients without a name, stands twice, or holds what is no number.
    """
    described = {row[0]: row for row in names}
    rows: list[list[str]] = []
    for row in sorted(abbrev, key=lambda fields: fields[0]):
        where = f"ABBREV.txt, food {row[0]}"
        if row[0] not in described:
            raise BadInput(f"{where}: FOOD_DES.txt has no such food")
        if rows and rows[-1][0] == row[0]:
            raise BadInput(f"{where} stands twice")
        description = described[row[0]]
        group, name, maker = description[1], " ".join(description[2].split()), description[5]
        if not generic(row[0], group, name, maker):
            continue
        nutrients = _numbers(row[2:48], where)
        pairs = [plain_weight(*row[48:50]), plain_weight(*row[50:52])]
        if row[0] in LEFT_OUT_WEIGHTS:
            pairs[LEFT_OUT_WEIGHTS[row[0]] - 1] = ("", "")
        weights = (cell for pair in pairs for cell in pair)
        factors = _numbers(description[10:14], f"FOOD_DES.txt, food {row[0]}")
        rows.append([row[0], group, name, *nutrients, *weights, *_numbers([row[52]], where), *factors])
    return rows


def write_composition(rows: list[list[str]]) -> bytes:
    """The rows as CSV, UTF-8, newline endings."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(HEADER)
    writer.writerows(rows)
    return out.getvalue().encode("utf-8")


def import_release(folder: Path) -> bytes:
    """The bytes of composition.csv from a folder that holds the two published files.

    Raises BadInput where a file is missing or is not the release that the program is tied to (SHA-256).
    """
    for name, expected in SHA256.items():
        path = folder / name
        try:
            found = hashlib.sha256(path.read_bytes()).hexdigest()
        except OSError as error:
            raise BadInput(f"{path}: cannot be read ({error.strerror})") from error
        if found != expected:
            raise BadInput(f"{path}: SHA-256 {found[:12]}... read, {expected[:12]}... (SR28) expected")
    abbrev = read_caret_file(folder / "ABBREV.txt", ABBREV_FIELDS)
    names = read_caret_file(folder / "FOOD_DES.txt", FOOD_DES_FIELDS)
    return write_composition(composition_rows(abbrev, names))
