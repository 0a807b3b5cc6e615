"""`mealopt fuel`: nothing wider than the line, nothing left out, cautions beside the volumes."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from mealopt import api
from tests.cli.conftest import EXAMPLES, Run, squeezed


@pytest.mark.parametrize("width", [80, 30])
@pytest.mark.parametrize("example", [path for path in EXAMPLES if path.stem in ("race_week", "heavy", "vegan_runner")])
def test_no_line_is_wider_and_nothing_is_cut_off(run: Run, example: Path, width: int) -> None:
    result = run("fuel", example, columns=width)
    assert result.exit_code == 0, result.stderr
    assert result.stdout.isascii()
    assert max(len(line) for line in result.stdout.splitlines()) <= width
    whole = squeezed(result.stdout)
    for plan in api.fuel(api.read_case(example)):
        for words in (*plan.before, *plan.after, *plan.notes, *plan.cautions):
            assert squeezed(words) in whole
        for part in (*(bottle.says for bottle in plan.bottles), *(step.says for step in plan.steps)):
            assert squeezed(part) in whole


def test_the_caution_stands_beside_the_volume(run: Run) -> None:
    lines = run("fuel", EXAMPLES[[path.stem for path in EXAMPLES].index("race_week")], "--day", "sun").stdout
    fluid, clock = lines.index("\nfluid"), lines.index("By the clock")
    assert fluid < lines.index("Drink to thirst") < clock


def test_json_is_the_plans(run: Run) -> None:
    example = next(path for path in EXAMPLES if path.stem == "race_week")
    found = json.loads(run("fuel", example, "--json").stdout)
    assert [(one["day"], one["session"]) for one in found] == [("tue", 1), ("sun", 1)]
    assert found[1]["fluid"]["tested"] is True


@pytest.mark.parametrize(
    ("options", "code", "words"),
    [
        (["--session", "9"], 2, "session: read 9"),
        (["--session", "1"], 2, "the lift of 45 min on mon"),
        (["--session", "1", "--day", "sun"], 0, "run, race"),
        (["--sheet"], 0, "The days before"),
        (["--day", "wed"], 0, "No session of Wednesday is endurance"),
        (["--session", "x"], 2, "'x' is not a valid integer"),
        (["--seconds", "soon"], 2, "'soon' is not a valid number"),
    ],
)
def test_what_can_be_asked(run: Run, options: list[str], code: int, words: str) -> None:
    example = next(path for path in EXAMPLES if path.stem == "race_week")
    result = run("fuel", example, *options)
    assert result.exit_code == code
    assert words in result.stdout + result.stderr


def test_a_plan_is_no_case(run: Run, tmp_path: Path) -> None:
    (tmp_path / "plan.json").write_text('{"schema": "mealopt/plan-1"}', encoding="utf-8")
    result = run("fuel", tmp_path / "plan.json")
    assert result.exit_code == 2
    assert "the case file that it was planned from is expected" in result.stderr
