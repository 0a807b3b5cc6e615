"""One dish as a snack three times a week at most."""

from __future__ import annotations

from tests.rules.weekly.eaten import meal, missed

COVERS = "snacks that differ"


def test_a_snack_three_times_is_met_and_five_times_is_not() -> None:
    day = [meal("snack", "smoothie"), meal("before", "smoothie")]
    assert missed(COVERS, [day] * 3) == {}
    assert missed(COVERS, [day] * 5) == {"snack": 2.0}


def test_two_snacks_of_one_day_count_twice() -> None:
    assert missed(COVERS, [[meal("snack", "smoothie"), meal("snack", "smoothie")]] * 2) == {"snack": 1.0}
