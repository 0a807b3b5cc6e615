"""Foods and dishes: finding, showing, checking, importing."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from mealopt import api
from mealopt.cli.foods_view import spoken
from mealopt.table.finding import Finding
from tests.cli.conftest import Run, squeezed

ASKED = [
    ("find", "rice"),
    ("find", "brown", "rice"),
    ("find", "vitamin"),
    ("show", "egg"),
    ("show", "tortilla, wheat"),
    ("show", "01129"),
    ("show", "oat", "porridge"),
    ("check",),
]


@pytest.mark.parametrize("width", [80, 40, 20])
@pytest.mark.parametrize("asked", ASKED, ids=" ".join)
def test_no_line_is_wider_and_no_letter_is_strange(run: Run, asked: tuple[str, ...], width: int) -> None:
    result = run("foods", *asked, columns=width)
    assert result.exit_code == 0, result.stderr
    assert max(len(line) for line in result.stdout.splitlines()) <= width
    assert result.stdout.isascii()


@pytest.mark.parametrize("width", [80, 40, 20])
def test_no_number_is_cut_off(run: Run, width: int) -> None:
    row = json.loads(run("foods", "show", "egg", "--json").stdout)["row"]["per_100g"]
    shown = run("foods", "show", "egg", columns=width).stdout
    assert len(re.findall(r"(?<![\d.])373(?![\d.])", shown)) == 1, "the cholesterol of row 01129"
    assert row["cholesterol_mg"] == 373
    found = run("foods", "find", "rice", "cakes", columns=width).stdout
    assert re.search(r"(?<![\d.])387(?![\d.])", found)


def test_finding_lists_foods_then_dishes_then_rows(run: Run) -> None:
    text = run("foods", "find", "white", "rice").stdout
    assert 0 < text.index("Foods of the pantry") < text.index("Dishes") < text.index("Rows of the food table")
    assert "rice, white" in text


def test_what_a_search_leaves_out_is_counted(run: Run) -> None:
    rows = [found for found in api.find_foods("beef") if found.food is None]
    assert len(rows) > 20
    assert f"... and {len(rows) - 20} more rows" in run("foods", "find", "beef").stdout
    document = json.loads(run("foods", "find", "beef", "--json").stdout)
    assert len(document["rows"]) == len(rows)
    assert [dish["id"] for dish in document["dishes"]] == [dish.id for dish in api.find_dishes("beef")]


def test_nothing_found_is_said(run: Run) -> None:
    result = run("foods", "find", "zzz", "qqq")
    assert result.exit_code == 0
    assert "No food and no dish holds all of these words: zzz qqq" in result.stdout
    document = json.loads(run("foods", "find", "zzz", "--json").stdout)
    assert (document["foods"], document["dishes"], document["rows"]) == ([], [], [])


def test_an_unknown_value_is_no_zero(run: Run) -> None:
    blank = next(
        found for found in api.find_foods("rice") if found.food is None and "fibre_g" not in found.row.per_100g
    )
    lines = run("foods", "find", blank.row.ndb).stdout.splitlines()
    line = next(line for line in lines if line.startswith(blank.row.ndb))
    assert line.split()[-1] == "?"
    told = " ".join(run("foods", "show", blank.row.ndb).stdout.split())
    assert "Not known, which is not zero:" in told
    assert "fibre" in told.partition("Not known")[2]


def test_a_hard_boiled_egg_holds_what_handbooks_say(run: Run) -> None:
    """USDA SR28, row 01129, egg, hard-boiled: 155 kcal and 12.6 g protein in 100 g [memory]."""
    row = json.loads(run("foods", "show", "egg", "--json").stdout)["row"]
    assert row["source"] == "USDA-SR28:01129"
    assert row["per_100g"]["energy_kcal"] == pytest.approx(155)
    assert row["per_100g"]["protein_g"] == pytest.approx(12.6, abs=0.1)
    text = run("foods", "show", "egg").stdout
    assert "1 egg, 50 g" in text
    assert "allergens:   eggs" in text
    assert "read each label" in text


def test_a_dish_is_shown_by_its_id(run: Run) -> None:
    dish = api.show_dish("oat_porridge")
    assert dish is not None
    text = squeezed(run("foods", "show", "oat_porridge").stdout)
    assert squeezed(run("foods", "show", "Oat", "porridge").stdout) == text
    for part in dish.component:
        assert squeezed("; ".join(part.foods)) in text
    for sentence in dish.method:
        assert squeezed(spoken(sentence)) in text
    document = json.loads(run("foods", "show", "oat_porridge", "--json").stdout)
    assert document["dish"]["id"] == "oat_porridge"


def test_an_unknown_name_is_answered_with_the_nearest(run: Run) -> None:
    result = run("foods", "show", "oatz")
    assert (result.exit_code, result.stdout) == (2, "")
    assert "oats, rolled" in result.stderr
    assert "oat_porridge" in run("foods", "show", "oat", "porridg").stderr


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ("{cereal} with {liquid}, {protein}[ and {fruit}]", "CEREAL with LIQUID, PROTEIN (and FRUIT)"),
        ("Stir {nut_butter} in.", "Stir NUT BUTTER in."),
        ("[{topping} on ]toast", "(TOPPING on) toast"),
    ],
)
def test_roles_are_spoken_as_words(written: str, words: str) -> None:
    assert spoken(written) == words


def test_every_finding_of_the_checks_is_named(run: Run) -> None:
    text = squeezed(run("foods", "check").stdout)
    findings = api.check_foods()
    for finding in findings:
        assert squeezed(f"{finding.food}: {finding.value}, expected {finding.allowed}") in text
    document = json.loads(run("foods", "check", "--json").stdout)
    assert (document["faults"], document["facts"]) == (0, len(findings))
    assert len(document["findings"]) == len(findings)


def test_a_fault_of_the_food_files_ends_as_our_own(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    fact = Finding("foods/composition.csv", "00002 Row", "fibre", "9", "8", "fact")
    fault = Finding("foods/pantry.csv", "bread", "pack", "-1", "above 0", "fault")
    monkeypatch.setattr(api, "check_foods", lambda _own=None: [fact, fault])
    result = run("foods", "check")
    assert result.exit_code == 1
    assert result.stdout.index("bread: -1, expected above 0") < result.stdout.index("00002 Row")
    assert "1 faults" in result.stdout


def test_importing_needs_the_published_files(run: Run, tmp_path: Path) -> None:
    out = tmp_path / "table.csv"
    missing = run("foods", "import", tmp_path / "none", "-o", out)
    assert missing.exit_code == 2
    assert "ABBREV.txt" in missing.stderr
    (tmp_path / "ABBREV.txt").write_text("~01001~^~x~\n")
    (tmp_path / "FOOD_DES.txt").write_text("~01001~^~x~\n")
    other = run("foods", "import", tmp_path, "-o", out)
    assert other.exit_code == 2
    assert "SHA-256" in other.stderr
    assert not out.exists()


def test_an_import_writes_only_where_it_is_told(run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def made(folder: object, out: Path) -> int:
        out.write_text("ndb\n01001\n", encoding="utf-8")
        return 1

    monkeypatch.setattr(api, "import_foods", made)
    monkeypatch.chdir(tmp_path)
    tried = run("foods", "import", "folder")
    assert "1 foods; nothing written" in tried.stdout
    assert list(tmp_path.iterdir()) == []
    written = json.loads(run("foods", "import", "folder", "-o", "table.csv", "--json").stdout)
    assert written["written"] == "table.csv"
    assert (tmp_path / "table.csv").read_text(encoding="utf-8") == "ndb\n01001\n"
