"""What totals a meal and a day carry."""

from __future__ import annotations

import pytest

from mealopt.documents.totals import Portion, coverage, day_totals, rounded

OATS = Portion(40.0, {"energy_kcal": 379.0, "fibre_g": 10.1, "iron_mg": 4.25})
VINEGAR = Portion(10.0, {"energy_kcal": 88.0})
JUICE = frozenset({"juice"})


def test_grams_times_the_row() -> None:
    totals = day_totals([[OATS, VINEGAR], [OATS]])
    assert totals.meals[0] == {"energy_kcal": 160.4, "fibre_g": 4.04, "fruit_vegetable_g": 0.0, "iron_mg": 1.7}
    assert totals.day == {"energy_kcal": 312.0, "fibre_g": 8.08, "fruit_vegetable_g": 0.0, "iron_mg": 3.4}


def test_a_nutrient_that_no_food_of_a_meal_knows_is_absent_there() -> None:
    totals = day_totals([[VINEGAR], [OATS]])
    assert "fibre_g" not in totals.meals[0]
    assert totals.day["fibre_g"] == 4.04


def test_coverage_is_the_known_share_by_grams() -> None:
    found = coverage([OATS, VINEGAR])
    assert found["fibre_g"] == 0.8
    assert found["vitamin_d_ug"] == 0.0
    assert "energy_kcal" not in found
    assert coverage([]) == {}


def test_coverage_never_reads_1_where_something_is_blank() -> None:
    crumb = Portion(0.001, {})
    assert coverage([Portion(5000.0, {"fibre_g": 1.0}), crumb])["fibre_g"] == 0.9999


def test_juice_counts_once_and_in_the_first_meals() -> None:
    juice = Portion(100.0, {}, JUICE)
    apple = Portion(90.0, {}, frozenset({"fruit", "whole_food"}))
    totals = day_totals([[juice, apple], [juice], [juice, apple]])
    assert [meal["fruit_vegetable_g"] for meal in totals.meals] == [190.0, 50.0, 90.0]
    assert totals.day["fruit_vegetable_g"] == 330.0


@pytest.mark.parametrize(
    ("value", "written"), [(2740.123456, 2740.1), (0.0123456, 0.012346), (0.0, 0.0), (12345.6, 12346)]
)
def test_five_digits(value: float, written: float) -> None:
    assert rounded(value) == written
