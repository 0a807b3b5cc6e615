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
    """DESIGN section 8: energy band +/- 2 % of the aim."""
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
    """DESIGN section 5: protein_g_per_kg is at least 1.2; 60 kg x 1.2 = 72 g."""
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
