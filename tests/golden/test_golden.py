"""The rows of a small day stay what they were, to the coefficient.

They hold what the program asks, not the foods that a solver picks. `python -m tests.golden.write` writes them anew.
"""

from __future__ import annotations

import pytest

from mealopt.rules.registry import Family, families
from mealopt.rules.weekly.registry import WeekFamily, week_families
from tests.golden.write import HERE, file_of, golden, week_file_of, week_golden

AGAIN = "if this change is meant: python -m tests.golden.write, and read the difference"


@pytest.mark.parametrize("entry", families(), ids=lambda entry: entry.name)
def test_rows_are_as_written(entry: Family) -> None:
    path = file_of(entry)
    assert path.exists(), AGAIN
    assert golden(entry).splitlines() == path.read_text(encoding="utf-8").splitlines(), AGAIN


@pytest.mark.parametrize("entry", week_families(), ids=lambda entry: entry.name)
def test_rows_of_the_week_are_as_written(entry: WeekFamily) -> None:
    path = week_file_of(entry)
    assert path.exists(), AGAIN
    assert week_golden(entry).splitlines() == path.read_text(encoding="utf-8").splitlines(), AGAIN


def test_each_family_has_a_file_and_each_file_a_family() -> None:
    named = {file_of(entry).name for entry in families()} | {week_file_of(entry).name for entry in week_families()}
    assert {path.name for path in HERE.glob("*.txt")} == named
    assert len({file_of(entry) for entry in families()}) == len(families())


@pytest.mark.parametrize("entry", families(), ids=lambda entry: entry.name)
def test_the_small_day_gives_every_family_something_to_say(entry: Family) -> None:
    text = file_of(entry).read_text(encoding="utf-8")
    assert ": any to any" not in text, "a row that asks nothing"
    assert text.count("\n") > 2
