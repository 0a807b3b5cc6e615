"""Fish on some days, oily fish on one."""

from __future__ import annotations

from mealopt.rules.weekly.fish import PORTION_G
from tests.rules import tiny
from tests.rules.weekly.eaten import eaten, missed

COVERS = "fish"
COD = tiny.food("cod", "fish")
SALMON = tiny.food("salmon", "fish", "oily_fish")
NOTHING = eaten()


def test_two_days_with_fish_and_one_of_them_oily() -> None:
    assert missed(COVERS, [eaten((COD, 120.0)), eaten((SALMON, 100.0)), *[NOTHING] * 5]) == {}
    assert missed(COVERS, [eaten((COD, 120.0)), eaten((COD, 100.0)), *[NOTHING] * 5]) == {"oily fish": 1.0}
    assert missed(COVERS, [NOTHING] * 7) == {"fish": 2.0, "oily fish": 1.0}


def test_a_day_counts_once_and_from_a_portion_on() -> None:
    twice = [*eaten((SALMON, 100.0)), *eaten((SALMON, 100.0), slot="dinner")]
    assert missed(COVERS, [twice, *[NOTHING] * 6]) == {"fish": 1.0}
    assert missed(COVERS, [eaten((SALMON, PORTION_G - 1.0))] * 7) == {"fish": 2.0, "oily fish": 1.0}
    halves = [*eaten((SALMON, PORTION_G / 2)), *eaten((COD, PORTION_G / 2), slot="dinner")]
    assert missed(COVERS, [halves] * 7) == {"oily fish": 1.0}


def test_nobody_who_eats_no_fish_is_asked_to_and_a_part_of_a_week_is_asked_its_part() -> None:
    assert missed(COVERS, [NOTHING] * 7, fish=False) == {}
    assert missed(COVERS, [NOTHING] * 3) == {}
    assert missed(COVERS, [NOTHING] * 4) == {"fish": 1.0}
