"""The importer on small files of the published layout: what is kept, what stays out, and what is refused."""

from __future__ import annotations

import csv
import hashlib
import io
from pathlib import Path

import pytest

from mealopt.errors import BadInput
from mealopt.table import importer
from mealopt.table.composition import HEADER, read_composition


def abbrev_row(ndb: str, nutrients: str = "1.5", weights: tuple[str, str, str, str] = ("", "", "", "")) -> str:
    """One line of ABBREV.txt: number, short name, 46 nutrients, two weights, refuse."""
    grams_1, words_1, grams_2, words_2 = weights
    cells = [f"~{ndb}~", "~SHORT~", *[nutrients] * 46, grams_1, f"~{words_1}~", grams_2, f"~{words_2}~", "12"]
    return "^".join(cells)


def name_row(ndb: str, name: str, group: str = "1100", maker: str = "", factors: str = "6.25^2.44^8.37^3.57") -> str:
    """One line of FOOD_DES.txt."""
    return f"~{ndb}~^~{group}~^~{name}~^~SHORT~^~~^~{maker}~^~Y~^~~^12^~~^{factors}"


def write(folder: Path, abbrev: list[str], names: list[str]) -> Path:
    (folder / "ABBREV.txt").write_bytes("\r\n".join([*abbrev, ""]).encode("latin-1"))
    (folder / "FOOD_DES.txt").write_bytes("\r\n".join([*names, ""]).encode("latin-1"))
    return folder


def tie(folder: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Makes the small files the release that the program is tied to."""
    sums = {name: hashlib.sha256((folder / name).read_bytes()).hexdigest() for name in importer.SHA256}
    monkeypatch.setattr(importer, "SHA256", sums)
    return folder


def imported(folder: Path, monkeypatch: pytest.MonkeyPatch) -> list[dict[str, str]]:
    content = importer.import_release(tie(folder, monkeypatch))
    return list(csv.DictReader(io.StringIO(content.decode("utf-8"))))


def test_same_files_give_the_same_bytes_in_order(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write(
        tmp_path, [abbrev_row("11090"), abbrev_row("01001", "")], [name_row("01001", "Butter"), name_row("11090", "B")]
    )
    first = importer.import_release(tie(tmp_path, monkeypatch))
    assert first == importer.import_release(tmp_path)
    lines = first.decode().split("\n")
    assert lines[0] == ",".join(HEADER)
    assert [line[:5] for line in lines[1:-1]] == ["01001", "11090"]
    assert b"\r" not in first
    assert first.endswith(b"\n")


def test_a_row_keeps_its_numbers_and_its_blanks(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    row = abbrev_row("11090", "0.90", ("91", "1 cup,  chopped", "", "")).split("^")
    row[5] = ""
    write(tmp_path, ["^".join(row)], [name_row("11090", "Broccoli,  raw", factors="6.25^^8.37^")])
    (found,) = imported(tmp_path, monkeypatch)
    assert found["name"] == "Broccoli, raw"
    assert found["water_g"] == "0.90"
    assert found["fat_g"] == ""
    assert (found["weight_1_g"], found["weight_1"]) == ("91", "1 cup, chopped")
    assert (found["refuse_percent"], found["protein_kcal_per_g"], found["fat_kcal_per_g"]) == ("12", "", "8.37")
    path = tmp_path / "composition.csv"
    path.write_bytes(importer.import_release(tmp_path))
    assert "fat_g" not in read_composition(path).rows["11090"].per_100g


def test_latin_letters_are_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write(tmp_path, [abbrev_row("11090")], [name_row("11090", "Jalapeño, raw")])
    assert imported(tmp_path, monkeypatch)[0]["name"] == "Jalapeño, raw"


@pytest.mark.parametrize(
    ("ndb", "name", "group", "maker"),
    [
        ("20044", "Rice, white", "2000", "Invented Mill Co."),
        ("03000", "Porridge, strained", "0300", ""),
        ("21000", "Burger", "2100", ""),
        ("36000", "Soup", "3600", ""),
        ("14400", "Beverages, cola, fast-food cola", "1400", ""),
        ("20058", "Rice, white, steamed, restaurant", "2000", ""),
        ("06725", "Soup, single brand", "0600", ""),
        ("20045", "Snacks, SKERRYHARBOUR, oat bar", "2500", ""),
        ("20046", "Snacks, SKERRY'S oat bar", "2500", ""),
        *((ndb, "Plain words", "1800", "") for ndb in sorted(importer.LEFT_OUT_ROWS)),
    ],
)
def test_branded_rows_stay_out(ndb: str, name: str, group: str, maker: str) -> None:
    assert not importer.generic(ndb, group, name, maker)


@pytest.mark.parametrize(
    "name",
    [
        "Rice, white, cooked",
        "Applesauce, canned, unsweetened (includes USDA commodity)",
        "Cherries, water pack (includes USDA commodity red tart cherries, canned)",
        "Beef, short loin, USDA choice, broiled",
        "Chicken, rotisserie, BBQ, skin",
        "Milk, with added vitamin A and D",
        "Horchata, dry mix, variety of brands",
    ],
)
def test_generic_rows_stay(name: str) -> None:
    assert importer.generic("20045", "2000", name, " ")


def test_every_left_out_row_has_a_reason() -> None:
    assert all(len(ndb) == 5 and ndb.isdigit() and reason for ndb, reason in importer.LEFT_OUT_ROWS.items())


@pytest.mark.parametrize(
    ("grams", "words", "kept"),
    [
        ("28", "1 loaf (include Skerry Harbour Loaves)", ("28", "1 loaf")),
        ("25", '1 cookie,  big (3-1/2" dia) (include one brand)', ("25", '1 cookie, big (3-1/2" dia)')),
        ("12", "1 cookie, Skerry Harbour Chunk", ("", "")),
        ("0.8", "1 packet SKERRY", ("", "")),
        ("", "1 fl oz, assumed", ("", "")),
        ("15", "1 NLEA serving", ("15", "1 NLEA serving")),
        ("5.0", "1 Tbsp", ("5.0", "1 Tbsp")),
    ],
)
def test_weights_lose_trade_names(grams: str, words: str, kept: tuple[str, str]) -> None:
    assert importer.plain_weight(grams, words) == kept


def test_a_listed_weight_is_left_out(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    weights = ("28", "1 oz", "18", "1 piece")
    write(tmp_path, [abbrev_row("18249", weights=weights)], [name_row("18249", "Doughnuts")])
    (found,) = imported(tmp_path, monkeypatch)
    assert (found["weight_1"], found["weight_2_g"], found["weight_2"]) == ("1 oz", "", "")


def test_another_release_is_refused_by_its_sum(tmp_path: Path) -> None:
    write(tmp_path, [abbrev_row("11090")], [name_row("11090", "Broccoli, raw")])
    with pytest.raises(
        BadInput, match=r"ABBREV\.txt: SHA-256 [0-9a-f]{12}\.\.\. read, 4c42235a001e\.\.\. \(SR28\) expected"
    ):
        importer.import_release(tmp_path)


def test_one_changed_byte_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write(tmp_path, [abbrev_row("11090")], [name_row("11090", "Broccoli, raw")])
    tie(tmp_path, monkeypatch)
    write(tmp_path, [abbrev_row("11090")], [name_row("11090", "Broccoli, ray")])
    with pytest.raises(BadInput, match=r"FOOD_DES\.txt: SHA-256"):
        importer.import_release(tmp_path)


def test_a_missing_file_is_named(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match=r"ABBREV\.txt: cannot be read"):
        importer.import_release(tmp_path)
    with pytest.raises(BadInput, match=r"ABBREV\.txt: cannot be read"):
        importer.read_caret_file(tmp_path / "ABBREV.txt", 53)


NAMES = [name_row("11090", "Broccoli, raw")]


@pytest.mark.parametrize(
    ("abbrev", "names", "message"),
    [
        ([abbrev_row("11090") + "^1"], NAMES, "line 1: 54 fields read, 53 expected"),
        ([abbrev_row("11090"), ""], NAMES, "line 2: 1 fields read, 53 expected"),
        ([abbrev_row("11090")], ["~11090~^~1100~"], "line 1: 2 fields read, 14 expected"),
        ([abbrev_row("11091")], NAMES, r"food 11091: FOOD_DES\.txt has no such food"),
        ([abbrev_row("11090"), abbrev_row("11090")], NAMES, "food 11090 stands twice"),
        ([abbrev_row("11090", "much")], NAMES, "food 11090: 'much' read where a number"),
        ([abbrev_row("11090", "-1")], NAMES, "'-1' read where a number"),
        ([abbrev_row("11090", "inf")], NAMES, "'inf' read where a number"),
        ([abbrev_row("11090")], [name_row("11090", "B", factors="6.25^x^8^4")], r"FOOD_DES\.txt, food 11090: 'x' read"),
    ],
)
def test_broken_files_are_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, abbrev: list[str], names: list[str], message: str
) -> None:
    write(tmp_path, abbrev, names)
    with pytest.raises(BadInput, match=message):
        importer.import_release(tie(tmp_path, monkeypatch))
