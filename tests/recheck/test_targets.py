"""What the day was planned to."""

from __future__ import annotations

from typing import Any

import pytest

from mealopt.core.nutrients import TARGETED


@pytest.mark.parametrize("key", TARGETED)
@pytest.mark.parametrize("side", ["least", "most"])
def test_a_band_that_the_food_leaves(bench: Any, key: str, side: str) -> None:
    data = bench.data()
    value = data["days"][0]["totals"][key]
    away = 1.012 if side == "least" else 0.988
    data["days"][0]["targets"][key] = {"least": None, "aim": None, "most": None} | {side: away * value}
    if key == "protein_g" and side == "most":
        data["days"][0]["targets"][key]["least"] = 0.9 * value
    assert [f"at {side}" in says for says in bench.broken(data)] == [True]
    data["days"][0]["missed"] = [key]
    assert bench.broken(data) == []


def test_energy_stays_within_two_percent_of_its_aim_or_its_band(bench: Any) -> None:
    """Energy band +/- 2 % of the aim."""
    data = bench.data()
    value = data["days"][0]["totals"]["energy_kcal"]
    for aim, holds in ((value * 1.019, True), (value * 1.025, False), (value * 0.975, False)):
        data["days"][0]["targets"]["energy_kcal"] = {"least": None, "aim": aim, "most": None}
        assert (bench.broken(data) == []) is holds
    data["days"][0]["targets"]["energy_kcal"] = {"least": value * 0.9, "aim": value * 1.025, "most": value * 1.1}
    assert bench.broken(data) == []


def test_a_target_that_is_left_out(bench: Any) -> None:
    data = bench.data()
    del data["days"][0]["targets"]["fibre_g"]
    assert bench.broken(data) == ["tue: there is no target for fibre_g"]


@pytest.mark.parametrize("least", [None, 71.0])
def test_a_protein_floor_under_what_any_athlete_is_planned_to(bench: Any, least: float | None) -> None:
    """protein_g_per_kg is at least 1.2; 60 kg x 1.2 = 72 g."""
    data = bench.data()
    data["days"][0]["targets"]["protein_g"]["least"] = least
    assert any("protein floor" in says for says in bench.broken(data))
    data["case"]["goal"] = {"band": [{"nutrient": "protein_g", "least": 70}]}
    assert any("protein floor" in says for says in bench.broken(data)) is (least is None)


@pytest.mark.parametrize("which", [{"slot": "lunch"}, {"meal": 2}, {"slot": "lunch", "day": "tue"}])
def test_a_band_of_ones_own_for_one_meal(bench: Any, which: dict[str, Any]) -> None:
    data = bench.data()
    value = data["days"][0]["meals"][1]["totals"]["protein_g"]
    data["case"]["goal"] = {"band": [{"nutrient": "protein_g", "least": value - 1, "most": value + 1, **which}]}
    assert bench.broken(data) == []
    data["case"]["goal"]["band"][0]["most"] = value - 0.5
    assert [says for says in bench.broken(data) if "of your own" in says]
    data["case"]["goal"]["band"][0]["day"] = "fri"
    assert bench.broken(data) == []


def test_the_lowest_protein_floor_above_30_percent_body_fat_is_of_fat_free_mass(bench: Any) -> None:
    """60 kg at 40 % body fat: 36 kg fat-free, 1.2 g/kg of it is 43.2 g (at 30 % it is still 72 g of body mass)."""
    data = bench.data()
    data["days"][0]["targets"]["protein_g"]["least"] = 44.0
    for percent, holds in ((None, False), (30.0, False), (40.0, True)):
        data["case"]["athlete"]["body_fat_percent"] = percent
        assert (bench.broken(data) == []) is holds
    data["days"][0]["targets"]["protein_g"]["least"] = 42.0
    assert any("protein floor" in says for says in bench.broken(data))
    data["days"][0]["missed"] = ["protein_g"]
    assert bench.broken(data) == []


def test_a_band_of_ones_own_for_another_nutrient_lowers_no_protein_floor(bench: Any) -> None:
    data = bench.data()
    data["days"][0]["targets"]["protein_g"]["least"] = 60.0
    data["case"]["goal"] = {"band": [{"nutrient": "fibre_g", "least": 10}]}
    assert any("protein floor" in says for says in bench.broken(data))


def test_what_a_day_says_it_missed_may_be_missed_in_a_meal_too(bench: Any) -> None:
    data = bench.data()
    data["case"]["goal"] = {"band": [{"nutrient": "iron_mg", "least": 500, "slot": "lunch"}]}
    assert len(bench.broken(data)) == 1
    data["days"][0]["missed"] = ["iron_mg"]
    assert bench.broken(data) == []
