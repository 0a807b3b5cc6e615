"""The day's minutes of cooking."""

from __future__ import annotations

import pytest

from tests.rules import tiny

COVERS = "kitchen minutes"


@pytest.mark.parametrize(("second", "ok"), [("quick", True), ("slow", False)])
def test_minutes_of_the_day(second: str, ok: bool) -> None:
    slots = (tiny.slot(0), tiny.slot(1))
    plates = ((tiny.simple("stew", minutes=40),), (tiny.simple("quick", minutes=20), tiny.simple("slow", minutes=21)))
    problem = tiny.day(slots, *plates, minutes_most=60.0)
    assert tiny.holds(problem, COVERS, {0: ("stew", {"stew": 10}), 1: (second, {second: 10})}) == ok
    (row,) = tiny.rows(problem, COVERS).values()
    assert (row.relaxable, row.says) == (True, "at most 60 minutes in the kitchen")
