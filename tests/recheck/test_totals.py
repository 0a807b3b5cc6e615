"""Totals and coverage, found again from the table alone."""

from __future__ import annotations

import copy
import csv
import json
from typing import Any

import pytest

from mealopt.documents.plan import Plan
from mealopt.documents.reading import plan_to_text
from mealopt.table.files import foods_folder


def test_anyone_can_recompute_the_totals_with_the_published_table(bench: Any) -> None:
    """`grams` times the table's row is a food's whole contribution, to 0.5 %."""
    plan = json.loads(plan_to_text(Plan.model_validate(bench.data())))

    table = {row["ndb"]: row for row in csv.DictReader((foods_folder() / "composition.csv").open(encoding="utf-8"))}
    for day in plan["days"]:
        for key in set(day["totals"]) - {"fruit_vegetable_g"}:
            items = [item for meal in day["meals"] for item in meal["items"]]
            total = sum(i["grams"] * float(table[i["source"].split(":")[1]][key] or 0) / 100 for i in items)
            assert day["totals"][key] == pytest.approx(total, rel=0.005, abs=1e-6), key


@pytest.mark.parametrize("key", ["energy_kcal", "fibre_g", "copper_mg", "vitamin_b12_ug", "fruit_vegetable_g"])
def test_a_meal_whose_totals_do_not_fit_its_foods(bench: Any, key: str) -> None:
    data = bench.data()
    data["days"][0]["meals"][0]["totals"][key] *= 1.01
    broken = bench.broken(data)
    assert len(broken) == 1
    assert broken[0].startswith("tue, meal 1 (breakfast at 07:00): its totals say")


def test_a_day_whose_totals_do_not_fit_its_meals(bench: Any) -> None:
    data = bench.data()
    data["days"][0]["totals"]["iron_mg"] *= 0.99
    assert [says.split(":")[0] for says in bench.broken(data)] == ["tue, the whole day"]


def test_edited_grams_break_meal_and_day(bench: Any) -> None:
    data = bench.data()
    data["days"][0]["meals"][1]["items"][0] = bench.item("rice, white", 12)
    broken = bench.broken(data)
    assert any("meal 2" in says and "carbohydrate" in says for says in broken)
    assert any("whole day" in says and "carbohydrate" in says for says in broken)


def test_a_total_that_is_left_out(bench: Any) -> None:
    data = bench.data()
    del data["days"][0]["meals"][4]["totals"]["vitamin_d_ug"]
    assert any("leave out" in says and "vitamin D" in says for says in bench.broken(data))


def test_a_total_that_the_table_does_not_know(bench: Any) -> None:
    """USDA SR28 knows no fibre for tempeh (16174): a meal of tempeh alone has no fibre total, not 0 g."""
    data = bench.data()
    data["days"][0]["meals"][1]["items"] = [bench.item("tempeh", 10)]
    bench.aimed(bench.added_up(data))
    assert "fibre_g" not in data["days"][0]["meals"][1]["totals"]
    assert bench.broken(data) == []
    data["days"][0]["meals"][1]["totals"]["fibre_g"] = 0.0
    assert any("knows for none" in says for says in bench.broken(data))


def test_a_blank_lowers_the_coverage(bench: Any) -> None:
    data = bench.data()
    assert "fibre_g" not in data["days"][0]["coverage"]
    data["days"][0]["meals"][1]["items"].append(bench.item("tempeh", 10))
    bench.aimed(bench.added_up(data))
    grams = sum(item["grams"] for meal in data["days"][0]["meals"] for item in meal["items"])
    assert data["days"][0]["coverage"]["fibre_g"] == pytest.approx(1 - 100 / grams, abs=1e-4)
    assert bench.broken(data) == []
    data["days"][0]["coverage"]["fibre_g"] = 0.99
    assert any("coverage of fibre_g" in says for says in bench.broken(data))
    del data["days"][0]["coverage"]["fibre_g"]
    assert any("not given" in says for says in bench.broken(data))


def test_juice_counts_once(bench: Any) -> None:
    """Two kinds of juice, 311 g in the day, count as 150 g; the banana and the broccoli count in full."""
    data = bench.data()
    foods = bench.pantry.foods
    plants = 2 * foods["banana"].step_g + 8 * foods["broccoli"].step_g
    assert data["days"][0]["totals"]["fruit_vegetable_g"] == pytest.approx(150 + plants)
    data["days"][0]["totals"]["fruit_vegetable_g"] += 50
    assert any("fruit and vegetables" in says for says in bench.broken(data))


def test_a_meal_with_nothing_in_it(bench: Any) -> None:
    data = bench.data()
    data["case"]["athlete"]["mass_kg"] = 45.0
    data["days"][0]["meals"][1]["items"] = []
    bench.aimed(bench.added_up(data))
    assert bench.broken(data) == ["tue, meal 2 (lunch at 12:30): there is nothing in it"]


def test_a_meal_that_the_case_settles_by_its_energy(bench: Any) -> None:
    """800 kcal: 17 % protein and 48 % carbohydrate at 4 kcal/g, 35 % fat with 10 % saturated at 9 kcal/g
    [common practice, no source], which the plan says."""
    split = {
        "energy_kcal": 800.0,
        "protein_g": 34.0,
        "carbohydrate_g": 96.0,
        "fat_g": 31.1111,
        "saturated_fat_g": 8.8889,
    }
    data = bench.data()
    data["case"]["kitchen"]["fixed"] = [{"day": "tue", "time": "12:30", "what": "canteen", "energy_kcal": 800}]
    data["case"]["athlete"]["mass_kg"] = 45.0
    data["days"][0]["meals"][1] |= {"items": [], "notes": ["settled by you; only its energy is known"]}
    bench.added_up(data)
    for totals in (data["days"][0]["meals"][1]["totals"], data["days"][0]["totals"]):
        totals |= {key: totals.get(key, 0.0) + amount for key, amount in split.items()}
    bench.aimed(data)
    assert bench.broken(data) == []
    for key in split:
        wrong = copy.deepcopy(data)
        wrong["days"][0]["meals"][1]["totals"][key] *= 0.9
        assert any("meal 2" in says for says in bench.broken(wrong)), key
    for other in ({"day": "fri"}, {"time": "12:00"}):
        moved = copy.deepcopy(data)
        moved["case"]["kitchen"]["fixed"][0] |= other
        assert any("nothing in it" in says for says in bench.broken(moved))
    silent = copy.deepcopy(data)
    silent["days"][0]["meals"][1]["notes"] = []
    assert ["do not say" in says for says in bench.broken(silent)] == [True]
