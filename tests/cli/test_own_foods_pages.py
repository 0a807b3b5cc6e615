"""Your own file at the command: checked, found, shown, and refused in one sentence."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.conftest import Run, squeezed
from tests.table.own_files import BAR, TABLET, own, write

FILE = str(Path(__file__).parents[2] / "examples" / "own" / "own_foods.toml")


def test_the_check_tells_what_to_know_of_your_own_foods(run: Run) -> None:
    result = run("foods", "check", "--own", FILE)
    assert result.exit_code == 0
    text = squeezed(result.stdout)
    assert squeezed("3 notes on your own foods") in text
    assert squeezed("barley drink: unknown, expected known") in text
    document = json.loads(run("foods", "check", "--own", FILE, "--json").stdout)
    assert (document["faults"], document["notes"]) == (0, 3)
    assert document["facts"] == json.loads(run("foods", "check", "--json").stdout)["facts"]


@pytest.mark.parametrize("width", [80, 40, 20])
def test_an_own_food_is_found_and_shown(run: Run, width: int) -> None:
    shown = run("foods", "show", "harbour", "oat", "bar", "--own", FILE, columns=width)
    assert shown.exit_code == 0
    assert squeezed("Your own food") in squeezed(shown.stdout)
    assert max(len(line) for line in shown.stdout.splitlines()) <= width
    found = run("foods", "find", "barley", "drink", "--own", FILE, columns=width)
    assert squeezed("barley drink") in squeezed(found.stdout)
    dish = run("foods", "show", "quay_barley_oats", "--own", FILE, columns=width)
    assert dish.exit_code == 0


def test_an_own_food_as_data_names_its_file(run: Run) -> None:
    document = json.loads(run("foods", "show", "harbour oat bar", "--own", FILE, "--json").stdout)
    assert document["row"]["source"] == "own:own_foods.toml#harbour oat bar"
    assert document["row"]["per_100g"]["carbohydrate_g"] == 66.5


def test_without_the_file_it_is_not_there(run: Run) -> None:
    assert run("foods", "show", "harbour oat bar").exit_code == 2


def test_a_label_that_cannot_be_ends_as_bad_input(run: Run, tmp_path: Path) -> None:
    path = write(tmp_path, own({**BAR, "sugars_g": 90}))
    result = run("foods", "check", "--own", str(path))
    assert result.exit_code == 2
    assert squeezed("[[food]] 1 (harbour oat bar) sugars_g") in squeezed(result.stderr)


def test_too_large_a_dose_is_refused(run: Run, tmp_path: Path) -> None:
    path = write(tmp_path, own({**TABLET, "iron_mg": 60}))
    result = run("foods", "check", "--own", str(path))
    assert result.exit_code == 3
    assert squeezed("registered dietitian") in squeezed(result.stderr)
