"""`mealopt replan`, `mealopt why` and `mealopt why-not`: pages, files, and what is refused."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from mealopt import api
from tests.cli.conftest import Run

SKIPPED = ("--now", "16:00", "--skipped", "5")


@pytest.fixture
def document(tmp_path: Path, plan: api.Plan) -> Path:
    path = tmp_path / "plan.json"
    path.write_text(api.plan_text(plan), encoding="utf-8")
    return path


def test_the_page_shows_what_is_past_and_what_is_to_come(
    run: Run, document: Path, plan: api.Plan, tmp_path: Path
) -> None:
    before = document.read_text(encoding="utf-8")
    out = tmp_path / "later.json"
    shown = run("replan", document, *SKIPPED, "-o", out)
    assert shown.exit_code == 0
    assert "planned anew from 16:00" in shown.output
    assert ": not eaten" in shown.output
    assert "What is still to come" in shown.output
    assert "not medical advice" in shown.output
    assert max(map(len, shown.output.splitlines())) <= 80
    assert document.read_text(encoding="utf-8") == before, "the plan that is read stays as it is"
    written = api.read_plan(out)
    assert written.days[0].now == "16:00"
    assert api.recheck(written) == []
    again = run("replan", out, "--now", "16:30", "--json")
    assert json.loads(again.output)["days"][0]["now"] == "16:30"


@pytest.mark.parametrize("columns", [30, 60])
def test_a_narrow_page_is_no_wider(run: Run, document: Path, columns: int) -> None:
    for command in (("replan", document, *SKIPPED), ("why", document), ("why-not", document, "peanut butter")):
        shown = run(*command, columns=columns)
        assert shown.exit_code == 0
        assert max(map(len, shown.output.splitlines())) <= columns


def test_what_cannot_be_used_is_one_sentence_and_leaves_the_file(run: Run, document: Path, tmp_path: Path) -> None:
    before = document.read_text(encoding="utf-8")
    cut, other = tmp_path / "cut.json", tmp_path / "other.json"
    cut.write_text(before[: len(before) // 2], encoding="utf-8")
    other.write_text(before.replace('"sha256": "', '"sha256": "0', 1), encoding="utf-8")
    asked = [
        ("replan", document, "--now", "xx"),
        ("replan", document, "--now", "14:30", "--ate", "no such food at all=10g"),
        ("replan", document, "--now", "14:30", "-o", document),
        ("replan", cut, "--now", "14:30"),
        ("replan", other, "--now", "14:30"),
        ("why", cut),
        ("why-not", document, "qqxxzz"),
        ("why-not", cut, "rice"),
    ]
    for arguments in asked:
        shown = run(*arguments)
        assert shown.exit_code == 2, arguments
        assert len(shown.output.strip().splitlines()) == 1, shown.output
        assert shown.output.startswith("mealopt: ")
    assert document.read_text(encoding="utf-8") == before


def test_why_names_the_limits_and_the_points(run: Run, document: Path, plan: api.Plan) -> None:
    shown = run("why", document)
    assert shown.exit_code == 0
    assert "The limits that bind" in shown.output
    assert "not medical advice" in shown.output
    data = json.loads(run("why", document, "--json").output)
    assert [one["words"] for one in data] == [one.words for one in api.why(plan)]


def test_why_not_says_what_keeps_it_out(run: Run, document: Path) -> None:
    shown = run("why-not", document, "peanut butter")
    assert shown.exit_code == 0
    assert "holds peanuts" in shown.output
    assert json.loads(run("why-not", document, "peanut butter", "--json").output)["possible"] is False
