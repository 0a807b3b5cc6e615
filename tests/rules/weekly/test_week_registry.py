"""The register of the week's families: each has a test of its own, and none charges below nought."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest

from mealopt.rules.weekly.registry import WeekWishes, week_families, week_rows, weekly
from mealopt.targets.micronutrients import references

HERE = Path(__file__).parent
COVERED = re.compile(r'^COVERS = "(.+)"$', re.M)


def test_every_family_has_a_test_of_its_own() -> None:
    texts = [path.read_text(encoding="utf-8") for path in HERE.glob("test_*.py") if path != Path(__file__)]
    covered = [name for text in texts for name in COVERED.findall(text) if "(COVERS," in text]
    assert sorted(covered) == sorted(family.name for family in week_families())


def test_a_name_is_taken_once() -> None:
    with pytest.raises(ValueError, match="two families of the week are called 'fish'"):
        weekly("fish")(lambda wishes: iter(()))


def test_rows_have_names_of_their_own_a_side_and_no_charge_below_nought() -> None:
    rows = week_rows(WeekWishes(references=references("female", 30), use_up={"cabbage": 500.0}))
    assert max(Counter(row.name for row in rows).values()) == 1
    for row in rows:
        assert row.charge >= 0
        assert (row.least is None) != (row.most is None)
        assert row.source
        assert row.rule
        assert (row.per_gram is not None) == (row.form in ("sum", "days"))
