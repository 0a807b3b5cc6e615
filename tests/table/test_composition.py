"""Reading the table: rows when they are asked for, blanks that stay unknown, and one clear error."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest

from mealopt.core.nutrients import KEYS
from mealopt.errors import BadInput
from mealopt.table.composition import HEADER, Composition, read_composition
from mealopt.table.files import foods_folder

LINE = '11090,1100,"Broccoli, raw",' + ",".join(["1.5"] * 46) + ",91,1 cup,,,39,6.25,2.44,8.37,3.57"


def write(tmp_path: Path, *lines: str, header: str = ",".join(HEADER)) -> Path:
    path = tmp_path / "composition.csv"
    path.write_text("\n".join([header, *lines, ""]), encoding="utf-8")
    return path


def test_a_row_as_it_stands(tmp_path: Path) -> None:
    row = read_composition(write(tmp_path, LINE)).rows["11090"]
    assert (row.ndb, row.group, row.name) == ("11090", "1100", "Broccoli, raw")
    assert row.per_100g == dict.fromkeys(KEYS, 1.5)
    assert row.weights == ((91.0, "1 cup"),)
    assert (row.refuse_percent, row.factors) == (39.0, (2.44, 8.37, 3.57))


def test_a_blank_is_unknown_not_zero(tmp_path: Path) -> None:
    line = LINE.replace(",1.5", ",", 1).replace(",2.44,", ",,")
    row = read_composition(write(tmp_path, line)).rows["11090"]
    assert "water_g" not in row.per_100g
    assert row.factors == (None, 8.37, 3.57)


def test_the_shipped_table(table: Composition) -> None:
    content = (foods_folder() / "composition.csv").read_bytes()
    assert table.sha256 == hashlib.sha256(content).hexdigest()
    assert table.name == "USDA SR28"
    assert len(table.rows) == content.count(b"\n") - 1 > 6000
    assert list(table.rows) == sorted(table.rows)
    assert "20044" in table.rows
    assert "00000" not in table.rows
    assert table.rows["20044"] is table.rows["20044"]
    assert table.rows.get("00000") is None


def test_sources_name_the_shipped_table(table: Composition) -> None:
    told = (foods_folder() / "SOURCES.md").read_text(encoding="utf-8")
    assert f"`{table.sha256}`" in told
    assert f"{len(table.rows):,} of its 8,789 rows" in told


def test_every_shipped_row_can_be_read(table: Composition) -> None:
    for ndb, row in table.rows.items():
        assert row.ndb == ndb
        assert row.name


@pytest.mark.parametrize(
    ("lines", "message"),
    [
        (["broccoli"], r"composition\.csv, line 2: 'broccoli' read, a food number and its group expected"),
        ([LINE, ""], "line 3: '' read"),
        ([LINE, LINE], "line 3: food 11090 stands twice"),
    ],
)
def test_a_broken_file_is_refused_at_once(tmp_path: Path, lines: list[str], message: str) -> None:
    with pytest.raises(BadInput, match=message):
        read_composition(write(tmp_path, *lines, *([LINE.replace("11090", "11091")] if "" in lines else [])))


@pytest.mark.parametrize("line", [LINE + ",1", LINE.replace("1.5", "much", 1), LINE.replace('raw"', "raw")])
def test_a_broken_row_is_refused_when_it_is_asked_for(tmp_path: Path, line: str) -> None:
    table = read_composition(write(tmp_path, line))
    with pytest.raises(BadInput, match=r"composition\.csv, line 2: not a row of the table"):
        table.rows["11090"]


def test_another_header_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match="line 1: not the header of the table"):
        read_composition(write(tmp_path, LINE, header="food,kcal"))


def test_a_file_that_cannot_be_read_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match="cannot be read"):
        read_composition(tmp_path / "none.csv")
    with pytest.raises(BadInput, match="cannot be read"):
        read_composition(tmp_path)
    (tmp_path / "latin.csv").write_bytes(b"ndb,\xe9")
    with pytest.raises(BadInput, match=r"not UTF-8 \(byte 5\)"):
        read_composition(tmp_path / "latin.csv")
    (tmp_path / "empty.csv").write_bytes(b"")
    with pytest.raises(BadInput, match="not the header"):
        read_composition(tmp_path / "empty.csv")
