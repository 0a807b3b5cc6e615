"""The checks of the food files: the pantry has no fault, and each check can fail."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from mealopt.table.checks import check_foods
from mealopt.table.composition import Composition, CompositionRow
from mealopt.table.finding import Finding
from mealopt.table.pantry import Pantry
from mealopt.table.pantry_checks import CHECKS as PANTRY_CHECKS
from mealopt.table.pantry_checks import check_pantry
from mealopt.table.table_checks import CHECKS as TABLE_CHECKS
from mealopt.table.table_checks import MOST_SODIUM_MG, check_row


@pytest.fixture(scope="module")
def findings() -> list[Finding]:
    return check_foods()


def test_the_pantry_has_no_fault(findings: list[Finding]) -> None:
    assert [finding for finding in findings if finding.severity == "fault"] == []


def test_facts_of_the_table_are_told_with_number_and_name(findings: list[Finding], table: Composition) -> None:
    facts = [finding for finding in findings if finding.where == "foods/composition.csv"]
    assert 200 <= len(facts) <= 250
    assert all(table.rows[fact.food[:5]].name == fact.food[6:] for fact in facts)
    told = {fact.food[:5] for fact in facts}
    assert {"02048", "14096", "42179", "01174"} <= told  # vinegar, wine, a frankfurter, milk


def test_facts_behind_the_pantry_have_a_reason(findings: list[Finding], pantry: Pantry) -> None:
    used = {ndb for food in pantry.foods.values() for ndb in (food.ndb, food.bought_ndb)}
    behind = [finding for finding in findings if finding.food[:5] in used]
    assert behind
    assert [finding for finding in behind if not finding.reason] == []


def test_unknown_fibre_is_told(findings: list[Finding], pantry: Pantry) -> None:
    told = {
        finding.food
        for finding in findings
        if finding.what.startswith("fibre") and finding.where.endswith("pantry.csv")
    }
    assert told == {name for name, food in pantry.foods.items() if "fibre_g" not in pantry.row(food).per_100g}
    assert "tempeh" in told


def rice(table: Composition) -> CompositionRow:
    return table.rows["20444"]


def what_fails(row: CompositionRow) -> str:
    return "; ".join(finding.what for finding in check_row(row))


def test_a_sound_row_passes(table: Composition) -> None:
    assert check_row(rice(table)) == []


@pytest.mark.parametrize(
    ("amounts", "what"),
    [
        ({"water_g": 30.0}, "water + protein + fat + carbohydrate + ash"),
        ({"water_g": 1.0}, "water + protein + fat + carbohydrate + ash"),
        ({"water_g": None}, "parts of the food that are known"),
        ({"energy_kcal": 400.0}, "energy by its own factors"),
        ({"energy_kcal": None}, "energy, protein, fat and carbohydrate that are known"),
        ({"fibre_g": 90.0}, "fibre within carbohydrate"),
        ({"sugars_g": 90.0}, "sugars within carbohydrate"),
        ({"saturated_fat_g": 2.0}, "saturated + monounsaturated + polyunsaturated within fat"),
        ({"sodium_mg": 40_000.0}, "sodium, mg"),
        ({"iron_mg": -0.1}, "iron, mg"),
        ({"calcium_mg": 100_001.0}, "calcium, mg"),
        ({"folate_ug": 1e8 + 1}, "folate, DFE, ug"),
        ({"iron_mg": float("nan")}, "iron, mg"),
        ({"vitamin_d_ug": 5.0, "vitamin_d_iu": 100.0}, "vitamin D, IU"),
    ],
)
def test_each_check_of_a_row_can_fail(table: Composition, amounts: dict[str, float | None], what: str) -> None:
    changed = {key: value for key, value in {**rice(table).per_100g, **amounts}.items() if value is not None}
    assert what in what_fails(replace(rice(table), per_100g=changed))


def test_without_its_own_factors_energy_is_held_to_the_general_ones(table: Composition) -> None:
    staple = replace(rice(table), factors=(None, None, None))
    assert "4, 9 and 4" not in what_fails(staple)
    off = replace(staple, per_100g={**staple.per_100g, "energy_kcal": 330.0})  # 7 % under 354
    assert "energy by 4, 9 and 4 kcal per g" in what_fails(off)
    assert what_fails(replace(off, group="1100")) == ""  # a vegetable may be 20 % off
    near_zero = replace(staple, per_100g={**dict.fromkeys(staple.per_100g, 0.0), "water_g": 100.0, "energy_kcal": 4.0})
    assert what_fails(near_zero) == ""


def test_weights_and_refuse_can_fail(table: Composition) -> None:
    assert "household weight" in what_fails(replace(rice(table), weights=((0.0, "1 cup"),)))
    assert "household weight" in what_fails(replace(rice(table), weights=((158.0, ""),)))
    assert "inedible share" in what_fails(replace(rice(table), refuse_percent=100.0))


def test_nothing_holds_more_sodium_than_salt(table: Composition) -> None:
    """Sodium chloride is 39.34 % sodium (standard atomic weights, IUPAC); table salt holds a little less."""
    assert pytest.approx(39_339, abs=2) == MOST_SODIUM_MG
    assert 0.97 * MOST_SODIUM_MG < table.rows["02047"].per_100g["sodium_mg"] < MOST_SODIUM_MG


def faults(pantry: Pantry, name: str, **changed: Any) -> str:
    """What fails of one shipped food with some of its columns changed."""
    food = pantry.foods[name].model_copy(update=changed)
    found = check_pantry(Pantry([food], pantry.composition))
    return "; ".join(finding.what for finding in found if finding.severity == "fault")


@pytest.mark.parametrize(
    ("name", "changed", "what"),
    [
        ("rice, white", {"yield_factor": 2.4}, "yield"),
        ("beef mince", {"yield_factor": 0.9}, "yield"),
        ("broccoli", {"yield_factor": 1.2}, "yield"),
        ("salmon", {"yield_factor": 0.92}, "yield"),
        ("honey", {"yield_factor": 1.1}, "yield"),
        ("milk, whole", {"measure_g": 150.0}, "weight of one cup"),
        ("honey", {"measure_g": 12.0}, "weight of one tsp"),
        ("egg", {"least_g": 60.0, "most_meal_g": 80.0}, "amount in a meal"),
        ("banana", {"edible_percent": 50.0}, "edible share"),
        ("hoisin sauce", {"diet": "vegan"}, "cholesterol of a vegan food"),
        ("butter", {"diet": "vegan"}, "allergens of a vegan food"),
        ("soya drink", {"counts": ("soy",)}, "of a vegan food"),
        ("crackers, plain", {"diet": "vegan", "allergens": ("gluten",)}, "vitamin B12 of a vegan food"),
        ("corn cakes", {"counts": ("whole_food",)}, "retinol of a vegan food"),
        ("mushrooms, raw", {"ndb": "18228"}, "vitamin B12 of a vegan food"),
        ("worcestershire sauce", {"diet": "vegetarian"}, "allergens of a vegetarian food"),
        ("chicken breast", {"diet": "pescatarian"}, "diet of meat"),
        ("cod", {"diet": "vegetarian"}, "diet of fish"),
        ("cod", {"allergens": ()}, "allergens"),
        ("oats, rolled", {"allergens": ()}, "allergens"),
        ("pearl barley", {"allergens": ()}, "allergens"),
        ("prawns", {"allergens": ("fish",)}, "allergens"),
        ("tahini", {"allergens": ()}, "allergens"),
        ("almond butter", {"allergens": ()}, "allergens"),
        ("peanut butter", {"allergens": ()}, "allergens"),
        ("dried apricots", {"allergens": ()}, "allergens"),
        ("Greek yoghurt", {"allergens": ()}, "allergens"),
        ("tofu, firm", {"allergens": ()}, "allergens"),
        ("almonds", {"allergens": ("peanuts",)}, "allergens"),
    ],
)
def test_each_check_of_a_food_can_fail(pantry: Pantry, name: str, changed: dict[str, Any], what: str) -> None:
    assert faults(pantry, name) == ""
    assert what in faults(pantry, name, **changed)


@pytest.mark.parametrize(
    "name", ["coconut milk", "coconut oil", "rice drink", "bread, gluten-free, vegan", "buckwheat"]
)
def test_words_that_only_look_like_an_allergen_pass(pantry: Pantry, name: str) -> None:
    assert faults(pantry, name) == ""


def test_faults_come_first(pantry: Pantry) -> None:
    wrong = pantry.foods["honey"].model_copy(update={"diet": "vegan", "allergens": ("milk",)})
    found = check_foods(Pantry([pantry.foods["tempeh"], wrong], pantry.composition))
    assert [finding.severity for finding in found[:2]] == ["fault", "fact"]


def test_every_check_has_a_sentence() -> None:
    assert all(check.__doc__ for check in (*TABLE_CHECKS, *PANTRY_CHECKS))
