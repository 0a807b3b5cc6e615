"""Bands of one's own for nutrients that no day asks for of itself: held by the plan as it is written, salt included."""

from __future__ import annotations

import pytest

from mealopt.documents.plan import Plan
from tests.plans.cases import RUN, planned

BANDS = (
    {"nutrient": "sodium_mg", "most": 2300},
    {"nutrient": "sodium_mg", "most": 700, "slot": "dinner"},
    {"nutrient": "iron_mg", "least": 18},
    {"nutrient": "calcium_mg", "least": 300, "slot": "breakfast"},
    {"nutrient": "cholesterol_mg", "most": 250},
)


@pytest.fixture(scope="module")
def plan() -> Plan:
    """Planned with all of them; its recheck has passed."""
    return planned(RUN, goal={"band": BANDS}, gap=0.5)


@pytest.mark.parametrize("band", BANDS, ids=lambda band: f"{band['nutrient']} {band.get('slot', 'day')}")
def test_own_bands_hold(plan: Plan, band: dict[str, float | str]) -> None:
    (day,) = plan.days
    totals = [meal.totals for meal in day.meals if meal.slot == band["slot"]] if "slot" in band else [day.totals]
    assert totals
    for held in totals:
        value = held[str(band["nutrient"])]
        assert float(band.get("least", 0.0)) * 0.9995 <= value <= float(band.get("most", 1e9)) * 1.0005


def test_the_salt_of_the_pan_is_in_the_band() -> None:
    """Without what else is salty, so that some of the band is the pan's."""
    salty = ["soy sauce", "tamari", "miso", "stock", "teriyaki sauce", "oyster sauce"]
    salted = planned(RUN, goal={"band": BANDS[:1]}, never=salty, gap=0.5).days[0]
    assert any(item.food == "salt" for meal in salted.meals for item in meal.items)
    assert salted.totals["sodium_mg"] <= 2300 * 1.0005


def test_a_least_is_met_with_salt_too() -> None:
    plan = planned(RUN, goal={"band": [{"nutrient": "sodium_mg", "least": 4500}]}, gap=0.5)
    assert plan.days[0].totals["sodium_mg"] >= 4500 * 0.9995


def test_who_has_no_salt_gets_none() -> None:
    band = {"nutrient": "sodium_mg", "most": 2300}
    plan = planned(RUN, goal={"band": [band]}, gap=0.5, never=["salt"])
    assert plan.days[0].totals["sodium_mg"] <= 2300 * 1.0005
    assert not any(item.food == "salt" for meal in plan.days[0].meals for item in meal.items)
