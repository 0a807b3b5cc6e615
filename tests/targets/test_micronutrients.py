"""Reference intakes by sex and age, against the published table."""

from __future__ import annotations

import pytest

from mealopt.targets.micronutrients import RETINOL_MOST_UG, references


@pytest.mark.parametrize(
    ("sex", "age", "key", "amount"),
    [
        ("female", 30, "iron_mg", 18.0),
        ("female", 51, "iron_mg", 8.0),
        ("male", 30, "iron_mg", 8.0),
        ("male", 30, "magnesium_mg", 400.0),
        ("male", 31, "magnesium_mg", 420.0),
        ("female", 51, "calcium_mg", 1200.0),
        ("male", 70, "calcium_mg", 1000.0),
        ("female", 40, "choline_mg", 425.0),
        ("female", 60, "vitamin_b6_mg", 1.5),
        ("male", 25, "vitamin_b12_ug", 2.4),
    ],
)
def test_published_values(sex: str, age: int, key: str, amount: float) -> None:
    """Dietary Reference Intakes, adults (US National Academies): recommended allowances and adequate intakes."""
    assert references(sex, age)[key] == amount


def test_the_upper_level_of_preformed_vitamin_a() -> None:
    """Dietary Reference Intakes, upper levels: 3,000 ug of preformed vitamin A, adults."""
    assert RETINOL_MOST_UG == 3000.0
