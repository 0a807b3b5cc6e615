"""What a meal before a session must stay under."""

from __future__ import annotations

import pytest

from mealopt.core.nutrients import FAT, FIBRE
from tests.rules import tiny

COVERS = "window before a session"


@pytest.mark.parametrize(("grams", "ok"), [(200, True), (210, False), (350, False)])
def test_each_limit_of_the_meal_holds(grams: float, ok: bool) -> None:
    """0.01 g fibre and 0.02 g fat a gram: 200 g hold 2 g and 4 g."""
    slots = (tiny.slot(0, "before", limits={FIBRE: 2.0, FAT: 5.0}), tiny.slot(1))
    plates = ((tiny.simple("a", steps=(1, 50)),), (tiny.simple("b", steps=(1, 50)),))
    problem = tiny.day(slots, *plates)
    assert tiny.holds(problem, COVERS, {0: ("a", {"a": grams}), 1: ("b", {"b": 500})}) == ok
    assert not tiny.holds(tiny.day((slots[0],), ((tiny.simple("a", steps=(1, 50), **{FAT: 0.03})),)), COVERS,
                          {0: ("a", {"a": 170})}), "fat alone is over"  # fmt: skip


def test_it_is_never_eased() -> None:
    problem = tiny.day((tiny.slot(0, "before", limits={FIBRE: 2.0}),), (tiny.simple("a"),))
    (row,) = tiny.rows(problem, COVERS).values()
    assert not row.relaxable
    assert row.says == "before: at most 2 g fibre"
