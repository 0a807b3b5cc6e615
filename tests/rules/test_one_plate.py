"""One plate a meal."""

from __future__ import annotations

from tests.rules import tiny

COVERS = "one plate a meal"


def test_exactly_one_plate_in_each_slot() -> None:
    problem = tiny.day((tiny.slot(0), tiny.slot(1)), (tiny.simple("a"), tiny.simple("b")), (tiny.simple("c"),))
    assert tiny.holds(problem, COVERS, {0: ("b", {"b": 50}), 1: ("c", {"c": 10})})
    assert not tiny.holds(problem, COVERS, {0: ("b", {"b": 50})})
    row = tiny.rows(problem, COVERS)["plate_0"]
    both = [0.0] * problem.model.columns
    for serving in problem.servings[0]:
        both[serving.served] = 1.0
    assert row.activity(both) == 2.0
    assert (row.least, row.most) == (1.0, 1.0)


def test_a_slot_that_no_plate_fits_cannot_be_met() -> None:
    problem = tiny.day((tiny.slot(0), tiny.slot(1)), (tiny.simple("a"),), ())
    assert not tiny.holds(problem, COVERS, {0: ("a", {"a": 10})})
