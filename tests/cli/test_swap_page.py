"""`mealopt swap`: two columns, offers, files, and one sentence where something is wrong."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from mealopt import api
from mealopt.documents.plan import Plan
from tests.cli.conftest import Run


@pytest.fixture(scope="session")
def plan_file(plan: Plan, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A planned day in a file."""
    path = tmp_path_factory.mktemp("swap") / "plan.json"
    path.write_text(api.plan_text(plan), encoding="utf-8")
    return path


def food_of(plan: Plan) -> str:
    """A food of the first meal."""
    return next(item.food for item in plan.days[0].meals[0].items if item.food != "salt")


def test_before_and_after_stand_beside_each_other(run: Run, plan_file: Path, plan: Plan, tmp_path: Path) -> None:
    food, out = food_of(plan), tmp_path / "after.json"
    result = run("swap", plan_file, "--meal", 1, "--out", food, "-o", out, "--seconds", 60)
    assert result.exit_code == 0, result.output
    lines = result.output.splitlines()
    assert max(map(len, lines)) <= 80
    assert "What changed" in lines
    assert any(line.split() == ["before", "now", "target"] for line in lines)
    assert "Penalty, 0 for an ideal day" in result.output
    assert "not medical advice" in result.output, "the caution stands where the numbers stand"
    after = api.read_plan(out)
    assert api.recheck(after) == []
    assert food not in {item.food for item in after.days[0].meals[0].items}


def test_json_is_the_document_and_a_narrow_page_is_narrow(run: Run, plan_file: Path, plan: Plan) -> None:
    result = run("swap", plan_file, "--meal", "1", "--out", food_of(plan), "--json", "--seconds", 60)
    assert json.loads(result.output)["schema"] == "mealopt/plan-1"
    narrow = run("swap", plan_file, "--meal", "1", "--out", food_of(plan), "--seconds", 60, columns=40)
    assert max(map(len, narrow.output.splitlines())) <= 40
    assert " -> " in narrow.output


def test_offers_are_listed_and_change_nothing(run: Run, plan_file: Path, plan: Plan) -> None:
    before = plan_file.read_bytes()
    result = run("swap", plan_file, "--meal", "1", "--out", food_of(plan), "--offer")
    assert result.exit_code == 0, result.output
    assert result.output.startswith(f"Instead of {food_of(plan)} in meal 1")
    assert "not medical advice" in result.output
    assert plan_file.read_bytes() == before


BAD = {
    "cut off": (lambda text: text[: len(text) // 2], "cut off"),
    "another version": (lambda text: text.replace("mealopt/plan-1", "mealopt/plan-2"), "another version"),
    "another table": (lambda text: re.sub(r'"sha256": ".', '"sha256": "x', text), "sha256"),
    "another one that there could be": (
        lambda text: re.sub(r'"sha256": "\w+', f'"sha256": "{"a" * 64}', text),
        "plan it anew",
    ),
    "a target": (lambda text: re.sub(r'("most": )[\d.]+', r"\g<1>9999.0", text, count=1), "its case gives"),
    "another athlete": (lambda text: re.sub(r'("mass_kg": )[\d.]+', r"\g<1>95.0", text), "its case gives"),
    "edited": (lambda text: text.replace('"grams": ', '"grams": 9', 1), "does not hold what it says"),
    "not JSON": (lambda text: "rice = 3", "JSON"),
}


@pytest.mark.parametrize("name", BAD)
def test_a_file_that_cannot_be_used(run: Run, plan_file: Path, tmp_path: Path, name: str) -> None:
    spoil, words = BAD[name]
    path = tmp_path / "plan.json"
    path.write_text(spoil(plan_file.read_text(encoding="utf-8")), encoding="utf-8")
    before = path.read_bytes()
    result = run("swap", path, "--meal", "1", "--out", "rice", "-o", tmp_path / "after.json")
    assert result.exit_code == 2, result.output
    assert words in result.output
    assert result.output.count("\n") == 1, "one sentence"
    assert str(path) in result.output
    assert path.read_bytes() == before
    assert not (tmp_path / "after.json").exists()


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("--meal", "99", "--out", "rice"), "read meal 99"),
        (("--meal", "first", "--out", "rice"), "the number of a meal"),
        (("--meal", "1", "--out", "no such food"), "in meal 1"),
        (("--out", "rice"), "read no meal"),
        ((), "nothing to change"),
        (("--meal", "1", "--out", "rice", "--offer", "--fresh"), "--offer"),
        (("--meal", "all", "--out", "rice", "--offer"), "one meal"),
        (("--day", "sun", "--meal", "1", "--out", "rice"), "holds tue"),
    ],
)
def test_wishes_that_cannot_be_meant(run: Run, plan_file: Path, arguments: tuple[str, ...], words: str) -> None:
    result = run("swap", plan_file, *arguments)
    assert result.exit_code == 2, result.output
    assert words in result.output
    assert result.output.count("\n") == 1
