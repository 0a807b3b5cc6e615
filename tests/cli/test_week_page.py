"""`mealopt week`: its page, its document, and what it refuses."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from mealopt import api
from tests.cli.conftest import Run

CaseFile = Callable[..., Path]


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (("--days", "someday"), "FIRST..LAST"),
        (("--days", "mon..funday"), "FIRST..LAST"),
        (("--use-up", "cabbage"), "cabbage=900g"),
        (("--use-up", "cabbage=0g"), "cabbage=900g"),
        (("--use-up", "cabbage=nan"), "cabbage=900g"),
        (("--use-up", "moon dust=300g"), "no food of the pantry"),
        (("--gap", "2"), "0.5"),
    ],
)
def test_what_cannot_be_used_is_said_in_one_sentence(
    run: Run, case_file: CaseFile, words: tuple[str, str], expected: str
) -> None:
    result = run("week", case_file(), *words)
    assert result.exit_code == 2, result.stderr
    assert expected in result.stderr
    assert len(result.stderr.splitlines()) == 1


def test_the_page_of_a_part_of_a_week(run: Run, case_file: CaseFile, tmp_path: Path) -> None:
    """Two processes side by side, as it is used."""
    out = tmp_path / "week.json"
    case = case_file(('sleep = "22:30"', 'sleep = "22:30"\nmeals_per_day = 3'))
    result = run("week", case, "--days", "sat..sun", "--gap", "0.2", "--seconds", "90", "-o", out)
    assert result.exit_code == 0, result.stderr
    plan = api.read_plan(out)
    assert [day.day for day in plan.days] == ["sat", "sun"]
    assert plan.groceries
    for heading in ("The week's numbers", "Saturday 13 March 2027", "The week's rules", "Cautions", "Not met:"):
        assert f"\n{heading}" in result.stdout, heading
    for check in plan.week.checks:
        assert check.rule.split(":")[0][:40] in " ".join(result.stdout.split()), check.rule
    assert max(map(len, result.stdout.splitlines())) <= 80
    assert "".join(result.stdout.split()).endswith("week.json")
