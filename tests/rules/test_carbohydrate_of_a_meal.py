"""Carbohydrate in a session and before one."""

from __future__ import annotations

import pytest

from tests.rules import tiny

COVERS = "carbohydrate of a meal"


@pytest.mark.parametrize(("grams", "ok"), [(290, False), (300, True), (600, True), (610, False)])
def test_least_and_most_of_a_meal(grams: float, ok: bool) -> None:
    slots = (tiny.slot(0, "during", carbohydrate_least=30.0, carbohydrate_most=60.0), tiny.slot(1))
    problem = tiny.day(slots, (tiny.simple("a", steps=(1, 100)),), (tiny.simple("b"),))
    assert tiny.holds(problem, COVERS, {0: ("a", {"a": grams}), 1: ("b", {"b": 10})}) == ok


def test_none_of_it_is_a_most_too() -> None:
    problem = tiny.day((tiny.slot(0, carbohydrate_most=0.0),), (tiny.simple("a"),))
    assert not tiny.holds(problem, COVERS, {0: ("a", {"a": 10})})
