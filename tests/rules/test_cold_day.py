"""Lunch and dinner both cold."""

from __future__ import annotations

import pytest

from mealopt.rules import weights
from tests.rules import tiny

COVERS = "lunch and dinner cold"


@pytest.mark.parametrize(
    ("breakfast", "lunch", "dinner", "points"),
    [
        ("soup", "salad", "salad", 1),
        ("salad", "soup", "salad", 0),
        ("salad", "salad", "soup", 0),
        ("salad", "soup", "soup", 0),
    ],
)
def test_a_warm_breakfast_is_not_enough(breakfast: str, lunch: str, dinner: str, points: int) -> None:
    plates = (tiny.simple("soup", served="warm"), tiny.simple("salad"))
    slots = tuple(tiny.slot(index, kind) for index, kind in enumerate(("breakfast", "lunch", "dinner")))
    problem = tiny.day(slots, *[plates] * 3)
    eaten = {index: (name, {name: 10.0}) for index, name in enumerate((breakfast, lunch, dinner))}
    assert tiny.penalty(problem, COVERS, eaten) == pytest.approx(points * weights.COLD)


def test_where_nothing_is_warm_nothing_is_charged() -> None:
    slots = (tiny.slot(0, "lunch"), tiny.slot(1, "dinner"))
    problem = tiny.day(slots, *[(tiny.simple("salad"),)] * 2)
    eaten = {index: ("salad", {"salad": 10.0}) for index in range(2)}
    assert tiny.penalty(problem, COVERS, eaten) == 0
