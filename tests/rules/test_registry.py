"""The register of families: each has a test of its own, and no two share a name."""

from __future__ import annotations

import ast
from collections import Counter
from collections.abc import Iterable
from pathlib import Path

import pytest

from mealopt.milp.model import Row
from mealopt.rules import registry
from mealopt.rules.problem import Problem
from mealopt.rules.registry import Family, families, family, pose
from tests.rules import tiny
from tests.rules.small_day import small_day

HERE = Path(__file__).parent


def covered(path: Path) -> str | None:
    """The family that a test file says it covers (COVERS = "..."), where it also asks the family something."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    names = [
        node.value.value
        for node in tree.body
        if isinstance(node, ast.Assign)
        and isinstance(node.value, ast.Constant)
        and [ast.unparse(target) for target in node.targets] == ["COVERS"]
    ]
    asks = {
        node.func.attr
        for node in ast.walk(tree)
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Attribute)
        and any(isinstance(given, ast.Name) and given.id == "COVERS" for given in node.args)
    }
    tests = any(isinstance(node, ast.FunctionDef) and node.name.startswith("test_") for node in tree.body)
    return str(names[0]) if names and tests and asks & {"holds", "penalty", "least_cost"} else None


def lacking(registered: Iterable[str], files: Iterable[Path]) -> tuple[set[str], set[str]]:
    """Families without a test file of their own, and names covered that are not registered or covered twice."""
    found = Counter(name for path in files if (name := covered(path)) is not None)
    registered = set(registered)
    return registered - found.keys(), {name for name, times in found.items() if times > 1 or name not in registered}


def test_every_family_and_term_has_a_test_of_its_own() -> None:
    """A new file in mealopt/rules/ needs one here, with COVERS = its name, that asks `holds` or `penalty` of it."""
    untested, unknown = lacking((entry.name for entry in families()), HERE.glob("test_*.py"))
    assert untested == set(), "write tests/rules/test_<family>.py for these"
    assert unknown == set(), "these are covered twice, or not registered"


def test_a_family_without_a_test_is_noticed() -> None:
    files = [path for path in HERE.glob("test_*.py") if path.name != "test_budget.py"]
    assert lacking((entry.name for entry in families()), files) == ({"budget"}, set())
    assert lacking(["dish", "no such family"], [HERE / "test_dish.py"]) == ({"no such family"}, set())
    assert lacking(["no such family"], [HERE / "test_dish.py"]) == ({"no such family"}, {"dish"})


def test_a_file_that_asks_nothing_covers_nothing(tmp_path: Path) -> None:
    path = tmp_path / "test_empty.py"
    path.write_text('COVERS = "dish"\n\ndef test_it():\n    assert True\n', encoding="utf-8")
    assert covered(path) is None


def test_a_name_is_taken_once() -> None:
    with pytest.raises(ValueError, match="two rule families are called 'dish'"):
        family("dish")(lambda problem: ())


def test_families_come_before_terms_and_by_name() -> None:
    order = [(entry.is_term, entry.name) for entry in families()]
    assert order == sorted(order)


def test_terms_are_never_relaxed() -> None:
    assert not any(entry.relaxable for entry in families() if entry.is_term)


def test_what_keeps_a_session_or_a_plate_safe_is_never_relaxed() -> None:
    hard = {"window before a session", "dish", "one plate a meal", "size of a meal", "sums", "no repeats"}
    assert hard <= {entry.name for entry in families() if not entry.relaxable}


def test_rows_are_marked_with_their_family() -> None:
    """A helper row, which bounds nothing that a person could ask for, is not eased with its family."""

    def make(problem: Problem) -> list[Row]:
        return [Row("eased", (), unit="g", says="eat more"), Row("helper", ())]

    rows = list(Family("made up", make, relaxable=True, unit="kcal", is_term=False).rows(tiny.day(())))
    assert [(row.family, row.relaxable, row.unit) for row in rows] == [
        ("made up", True, "g"),
        ("made up", False, "kcal"),
    ]


def test_every_row_of_a_posed_day_has_its_own_name() -> None:
    problem = small_day()
    pose(problem)
    twice = {name for name, times in Counter(row.name for row in problem.model.rows).items() if times > 1}
    assert twice == set()


def test_every_row_that_may_be_eased_says_what_it_asks() -> None:
    problem = small_day()
    pose(problem)
    eased = [row for row in problem.model.rows if row.relaxable]
    assert {row.family for row in eased} == {entry.name for entry in families() if entry.relaxable}
    assert [row.name for row in eased if not row.says or not row.key] == []
    assert all(row.scale > 0 for row in problem.model.rows)


def test_a_family_may_be_left_out() -> None:
    problem = small_day()
    pose(problem, frozenset({"budget"}))
    assert "budget" not in {row.family for row in problem.model.rows}
    assert "dish" in {row.family for row in problem.model.rows}


def test_the_penalty_has_no_term_below_nought_and_its_shares_add_up() -> None:
    problem = small_day()
    pose(problem)
    assert min(problem.model.cost) >= 0
    assert set(problem.costs) <= {entry.name for entry in families() if entry.is_term}
    values = [float(1 + column % 5) for column in range(problem.model.columns)]
    assert sum(problem.shares(values).values()) == pytest.approx(problem.model.value(values))


def test_a_charge_below_nought_is_not_taken() -> None:
    problem = small_day()
    problem.charge("made up", 0, -1.0)
    assert min(problem.model.cost) >= 0
    assert registry.families() is families()
