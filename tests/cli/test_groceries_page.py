"""`mealopt groceries`: the page, its files, and what is refused."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from mealopt import api
from tests.cli.conftest import Run


@pytest.fixture
def document(tmp_path: Path, plan: api.Plan) -> Path:
    path = tmp_path / "plan.json"
    path.write_text(api.plan_text(plan), encoding="utf-8")
    return path


def test_the_page_names_every_line_with_a_box(run: Run, document: Path, plan: api.Plan) -> None:
    shown = run("groceries", document)
    assert shown.exit_code == 0
    shopping = api.groceries(plan)
    assert shown.output.count("[ ]") == len(shopping.bought)
    assert all(line.says.split(",")[0] in shown.output for line in shopping.bought)
    assert "coin (invented prices)" in shown.output
    assert "not medical advice" in shown.output
    assert "read" in shown.output
    assert max(map(len, shown.output.splitlines())) <= 80


@pytest.mark.parametrize("columns", [20, 40])
def test_a_narrow_page_loses_no_line(run: Run, document: Path, plan: api.Plan, columns: int) -> None:
    shown = run("groceries", document, columns=columns)
    assert shown.output.count("[ ]") == len(api.groceries(plan).bought)
    assert max(map(len, shown.output.splitlines())) <= columns


def test_json_is_all_that_is_printed(run: Run, document: Path, plan: api.Plan) -> None:
    data = json.loads(run("groceries", document, "--json").output)
    assert [line["food"] for line in data["lines"]] == [line.food for line in api.groceries(plan).lines]


def test_files_are_written_and_read_in_the_next_week(run: Run, document: Path, tmp_path: Path) -> None:
    left, table, text = tmp_path / "left.txt", tmp_path / "list.csv", tmp_path / "list.txt"
    first = run("groceries", document, "--left", left, "--csv", table, "--text", text)
    assert first.exit_code == 0
    assert table.read_bytes().startswith(b"\xef\xbb\xbf")
    assert "[ ] " in text.read_text(encoding="utf-8")
    again = json.loads(run("groceries", document, "--have", left, "--have", "salt=1kg", "--json").output)
    before = json.loads(run("groceries", document, "--json").output)
    assert again["total_price"] < before["total_price"]


def test_bad_input_is_one_sentence(run: Run, document: Path, tmp_path: Path) -> None:
    for arguments, words in (
        (("--have", "oat=400g"), "nearest: oat bran"),
        (("--have", tmp_path / "none.txt"), "cannot be read"),
        (("--have", "oats=many"), "a food and its weight"),
        (("--prices", document), "the first line must read food,pack_g,price"),
        (("--csv", tmp_path / "x", "--text", tmp_path / "x"), "two files"),
        (("--csv", document), "another name"),
        (("--shops", "3"), "1<=x<=2"),
    ):
        ended = run("groceries", document, *arguments)
        assert ended.exit_code == 2
        assert words in " ".join(ended.output.split()), ended.output
        assert ended.output.startswith("mealopt: ")
    assert run("groceries", tmp_path / "none.json").exit_code == 2


def test_after_a_change_only_what_is_new_is_listed(run: Run, document: Path, tmp_path: Path, plan: api.Plan) -> None:
    shown = run("groceries", document, "--bought", document)
    assert shown.exit_code == 0
    assert "Nothing has to be bought" in shown.output
    assert "Bought in vain, for meals that are no more: nothing." in shown.output
    meal = plan.days[0].meals[-1]
    changed = tmp_path / "changed.json"
    after = api.swap(plan, None, drop=(meal.number,)).plan
    changed.write_text(api.plan_text(after), encoding="utf-8")
    data = json.loads(run("groceries", changed, "--bought", document, "--json").output)
    assert data["in_vain"]
    assert {one["food"] for one in data["in_vain"]} <= {item.food for one in plan.days[0].meals for item in one.items}


def test_a_plan_changed_by_hand_is_refused(run: Run, document: Path, tmp_path: Path, plan: api.Plan) -> None:
    fewer = plan.days[0].model_copy(update={"meals": plan.days[0].meals[:-1]})
    changed = tmp_path / "changed.json"
    changed.write_text(api.plan_text(plan.model_copy(update={"days": (fewer,)})), encoding="utf-8")
    for asked in ((changed,), (document, "--bought", changed)):
        result = run("groceries", *asked)
        assert result.exit_code == 2
        assert "changed.json: this plan does not hold what it says" in result.stderr
