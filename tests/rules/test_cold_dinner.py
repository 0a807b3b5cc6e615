"""A cold dinner, where it could be warm."""

from __future__ import annotations

import pytest

from mealopt.rules import weights
from tests.rules import tiny

COVERS = "a cold dinner"


@pytest.mark.parametrize(
    ("lunch", "dinner", "points"),
    [("salad", "salad", 1), ("soup", "salad", 1), ("salad", "soup", 0), ("soup", "soup", 0)],
)
def test_a_warm_lunch_is_not_enough(lunch: str, dinner: str, points: int) -> None:
    plates = (tiny.simple("soup", served="warm"), tiny.simple("salad"))
    slots = tuple(tiny.slot(index, kind) for index, kind in enumerate(("breakfast", "lunch", "dinner")))
    problem = tiny.day(slots, *[plates] * 3)
    eaten = {index: (name, {name: 10.0}) for index, name in enumerate(("soup", lunch, dinner))}
    assert tiny.penalty(problem, COVERS, eaten) == pytest.approx(points * weights.COLD)


def test_where_no_dinner_is_warm_nothing_is_charged() -> None:
    slots = (tiny.slot(0, "lunch"), tiny.slot(1, "dinner"))
    problem = tiny.day(slots, *[(tiny.simple("salad"),)] * 2)
    eaten = {index: ("salad", {"salad": 10.0}) for index in range(2)}
    assert tiny.penalty(problem, COVERS, eaten) == 0


def test_where_no_warm_meal_is_wished_nothing_is_charged() -> None:
    plates = (tiny.simple("soup", served="warm"), tiny.simple("salad"))
    problem = tiny.day((tiny.slot(0, "dinner"),), plates, warm_main=False)
    assert tiny.penalty(problem, COVERS, {0: ("salad", {"salad": 10.0})}) == 0
