"""Red meat within what guidance holds."""

from __future__ import annotations

import pytest

from mealopt.rules import weights
from tests.rules import tiny
from tests.rules.weekly.eaten import eaten, missed, points

COVERS = "red meat"
BEEF = tiny.food("beef", "red_meat")
CHICKEN = tiny.food("chicken", "poultry")


def test_five_hundred_grams_a_week() -> None:
    days = [eaten((BEEF, 250.0), (CHICKEN, 400.0)), eaten((BEEF, 250.0)), *[eaten()] * 5]
    assert missed(COVERS, days) == {}
    assert missed(COVERS, [*days[:-1], eaten((BEEF, 60.0))]) == pytest.approx({"red meat": 60.0})
    assert points(COVERS, [*days[:-1], eaten((BEEF, 60.0))]) == pytest.approx(60.0 * weights.WEEK_GRAMS)


def test_a_part_of_a_week_has_its_part() -> None:
    assert missed(COVERS, [eaten((BEEF, 143.0))] * 1, days=2) == pytest.approx({"red meat": 143.0 - 1000.0 / 7}, abs=1)
    assert missed(COVERS, [eaten((BEEF, 140.0))] * 1, days=2) == {}
