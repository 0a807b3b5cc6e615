"""Vitamins and minerals over the week."""

from __future__ import annotations

from dataclasses import replace

import pytest

from mealopt.rules import weights
from tests.rules import tiny
from tests.rules.weekly.eaten import comes_out, eaten, missed, points

COVERS = "vitamins and minerals"
LIVER = replace(tiny.food("liver"), per_gram={"iron_mg": 0.06, "vitamin_d_ug": 0.01})
UNKNOWN = tiny.food("a food that the table says nothing of")
WANTED = {"iron_mg": 18.0}


def test_the_mean_counts_not_the_day() -> None:
    days = [eaten((LIVER, 600.0)), eaten()]
    assert comes_out(COVERS, days, references=WANTED) == pytest.approx(18.0)
    assert missed(COVERS, days, references=WANTED) == {}
    assert missed(COVERS, [*days, eaten()], references=WANTED) == pytest.approx({"iron_mg": 6.0})


def test_a_blank_adds_nothing() -> None:
    assert comes_out(COVERS, [eaten((UNKNOWN, 500.0))], references=WANTED) == 0.0


def test_each_per_cent_is_charged_and_a_case_may_ask_for_less() -> None:
    day = [eaten((LIVER, 270.0))]
    assert points(COVERS, day, references=WANTED) == pytest.approx(10.0 * weights.WEEK_PERCENT)
    assert points(COVERS, day, references=WANTED, reach=0.9) == pytest.approx(0.0)
    assert missed(COVERS, day, references=WANTED, reach=0.0) == {}


def test_what_food_hardly_holds_is_told_and_not_paid_for() -> None:
    assert missed(COVERS, [eaten((LIVER, 270.0))], references={"vitamin_d_ug": 15.0}) == pytest.approx(
        {"vitamin_d_ug": 12.3}
    )
    assert points(COVERS, [eaten((LIVER, 270.0))], references={"vitamin_d_ug": 15.0}) == 0.0
