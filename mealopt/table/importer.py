"""Makes foods/composition.csv from the two published text files of USDA SR28.

The files are caret-separated, tildes as quotes, latin-1: ABBREV.txt (nutrients per 100 g edible portion, two household
weights, refuse) and FOOD_DES.txt (names, maker, the energy factors of each food). The same input gives the same bytes.
"""

from __future__ import annotations

import csv
import hashlib
import io
import re
from pathlib import Path

from mealopt.core.nutrients import NUTRIENTS
from mealopt.errors import BadInput

SHA256 = {
    "ABBREV.txt": "4c42235a001efd5e94ce38001682138056aa1b755427b8a8d315c2b02cd2b85b",
    "FOOD_DES.txt": "bb2047218cdad1d830da69e760386409fde3b7afabceae604c5479f280d4fa2e",
}

ABBREV_FIELDS = 53
FOOD_DES_FIELDS = 14

#: Groups of branded, restaurant and infant foods as a whole.
LEFT_OUT_GROUPS = {"0300": "baby foods", "2100": "fast foods", "3600": "restaurant foods"}

#: Words in capitals that are no maker's name; any other such word in a food's name marks a brand.
PLAIN_CAPITALS = {"USDA", "DHA", "BBQ", "UHT", "NFS", "ARA", "ADA", "NFSMI"}
_CAPITALS = re.compile(r"\b[A-Z][A-Z&'\-]*[A-Z]\b")

#: A remark on who else hands the same food out; the food itself is a generic one.
_DISTRIBUTED = re.compile(r"\(includes USDA commodity[^)]*\)?", re.IGNORECASE)
_BRANDED_WORDS = re.compile(r"school lunch|restaurant|fast food|\bbrand\b|commodity", re.IGNORECASE)

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


def read_caret_file(path: Path, fields: int) -> list[list[str]]:
    """Rows of one published file, quotes taken off. Raises BadInput where a row has another number of fields."""
    try:
        text = path.read_bytes().decode("latin-1")
    except OSError as error:
        raise BadInput(f"{path}: cannot be read ({error.strerror})") from error
    rows = []
    for number, line in enumerate(text.splitlines(), start=1):
        row = [part[1:-1] if part[:1] == "~" and part[-1:] == "~" else part for part in line.split("^")]
        if len(row) != fields:
            raise BadInput(f"{path}, line {number}: {len(row)} fields read, {fields} expected")
        rows.append(row)
    return rows


def generic(group: str, name: str, maker: str) -> bool:
    """Whether a food is a generic one: no maker, no brand in capitals, no restaurant, school or infant food."""
    name = _DISTRIBUTED.sub("", name)
    if maker.strip() or group in LEFT_OUT_GROUPS or _BRANDED_WORDS.search(name):
        return False
    return all(len(word) < 3 or word in PLAIN_CAPITALS for word in _CAPITALS.findall(name))


def composition_rows(abbrev: list[list[str]], names: list[list[str]]) -> list[list[str]]:
    """One row a generic food, in the order of HEADER, by food number. A blank stays a blank."""
    described = {row[0]: row for row in names}
    rows = []
    for row in sorted(abbrev, key=lambda fields: fields[0]):
        description = described[row[0]]
        group, name, maker = description[1], " ".join(description[2].split()), description[5]
        if not generic(group, name, maker):
            continue
        nutrients, weights = row[2:48], row[48:52]
        rows.append([row[0], group, name, *nutrients, *weights, row[52], *description[10:14]])
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
