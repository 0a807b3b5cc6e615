"""One main meal of the day is warm, where any could be."""

from __future__ import annotations

from tests.rules import tiny

COVERS = "a warm meal"
SLOTS = (tiny.slot(0, "breakfast"), tiny.slot(1, "snack"))
WARM, COLD = tiny.simple("soup", served="warm"), tiny.simple("salad")


def test_a_main_meal_is_warm() -> None:
    problem = tiny.day(SLOTS, (WARM, COLD), (WARM, COLD))
    assert tiny.holds(problem, COVERS, {0: ("soup", {"soup": 10}), 1: ("salad", {"salad": 10})})
    assert not tiny.holds(problem, COVERS, {0: ("salad", {"salad": 10}), 1: ("soup", {"soup": 10})}), "a snack is"


def test_nothing_is_asked_where_it_cannot_be_or_is_not_wanted() -> None:
    assert tiny.rows(tiny.day(SLOTS, (COLD,), (WARM,)), COVERS) == {}
    assert tiny.rows(tiny.day(SLOTS, (WARM, COLD), (WARM,), warm_main=False), COVERS) == {}
