"""Food to use up."""

from __future__ import annotations

import pytest

from mealopt.rules import weights
from mealopt.rules.weekly.use_up import is_of
from tests.rules import tiny
from tests.rules.weekly.eaten import eaten, missed, points

COVERS = "food to use up"
BOILED = tiny.food("cabbage, boiled", kin="cabbage")
OTHER = tiny.food("leek")


def test_grams_as_bought_are_counted() -> None:
    days = [eaten((BOILED, 300.0), (OTHER, 500.0)), eaten((BOILED, 100.0))]
    bought = {"cabbage, boiled": 1.25}
    assert missed(COVERS, days, use_up={"cabbage": 500.0}, bought=bought) == {}
    assert missed(COVERS, days, use_up={"cabbage": 600.0}, bought=bought) == pytest.approx({"use up cabbage": 100.0})
    assert points(COVERS, days, use_up={"cabbage": 1000.0}, bought=bought) == pytest.approx(50 * weights.WEEK_USE_UP)


def test_a_word_means_a_name_its_beginning_or_a_kin() -> None:
    assert is_of("cabbage", "cabbage, boiled", "brassica")
    assert is_of("cabbage", "savoy", "cabbage")
    assert not is_of("cab", "cabbage, boiled", "brassica")
