"""A person's own foods: what a label says, as the table counts it, and what is unknown, unsaid or taken over."""

from __future__ import annotations

from pathlib import Path

import pytest

from mealopt.core.filters import ALLERGENS, FoodFilter
from mealopt.errors import BadInput
from mealopt.table.composition import shipped_composition
from mealopt.table.own import OwnPantry, own_shelf, own_text
from mealopt.table.own_checks import own_cautions, own_findings, own_notes
from mealopt.table.own_label import energy_range, per_100g, tolerance
from mealopt.table.pantry import shipped_pantry
from tests.table.own_files import BAR, TABLET, own, shelf, write

SOURCE = "own:own.toml#harbour oat bar"
EXAMPLE = Path(__file__).parents[2] / "examples" / "own" / "own_foods.toml"


def test_a_label_becomes_what_100_g_hold() -> None:
    held = shelf(BAR).rows[SOURCE].per_100g
    assert held["energy_kcal"] == 408
    assert held["saturated_fat_g"] == 2.4


def test_sodium_is_salt_over_two_and_a_half() -> None:
    """Regulation (EU) No 1169/2011, Annex I: salt = sodium x 2.5. So 0.35 g salt are 140 mg sodium."""
    assert shelf(BAR).rows[SOURCE].per_100g["sodium_mg"] == pytest.approx(140.0)


def test_carbohydrate_takes_in_the_fibre_that_a_european_label_leaves_out() -> None:
    """USDA SR28 gives carbohydrate by difference, fibre within."""
    assert shelf(BAR).rows[SOURCE].per_100g["carbohydrate_g"] == pytest.approx(59.0 + 7.5)
    within = {**BAR, "carbohydrate_g": 66.5, "carbohydrate_holds_fibre": True}
    assert shelf(within).rows[SOURCE].per_100g["carbohydrate_g"] == pytest.approx(66.5)
    assert shelf({**BAR, "fibre_g": None}).rows[SOURCE].per_100g["carbohydrate_g"] == pytest.approx(59.0)


def test_what_the_label_leaves_out_is_unknown_and_never_zero() -> None:
    held = shelf({**BAR, "fibre_g": None, "salt_g": None, "saturated_fat_g": None}).rows[SOURCE].per_100g
    assert not {"fibre_g", "sodium_mg", "saturated_fat_g", "iron_mg", "salt_g"} & set(held)
    assert shelf({**BAR, "fibre_g": 0}).rows[SOURCE].per_100g["fibre_g"] == 0


def test_amounts_of_100_ml_are_divided_by_what_they_weigh() -> None:
    drink = {**BAR, "stands_for": None, "per": "100 ml", "grams_per_100ml": 125, "state": "liquid", "aisle": "drinks",
             "most_meal_g": 400, "most_day_g": 400, "keeps_days": 9}  # fmt: skip
    held = shelf({**drink, "energy_kcal": 50, "carbohydrate_g": 12.5, "sugars_g": 10, "fibre_g": 0, "protein_g": 0,
                  "fat_g": 0, "saturated_fat_g": 0}).rows[SOURCE].per_100g  # fmt: skip
    assert held["energy_kcal"] == pytest.approx(40.0)
    assert held["carbohydrate_g"] == pytest.approx(10.0)


def test_amounts_of_a_dose_become_those_of_100_g() -> None:
    held = shelf(TABLET).rows["own:own.toml#iron tablet"].per_100g
    assert held["iron_mg"] == pytest.approx(1400.0)
    food = shelf({**TABLET, "doses_a_day": 2}).foods["iron tablet"]
    assert (food.measure, food.measure_g, food.most_day_g, "supplement" in food.counts) == ("tablet", 1, 2, True)


def test_the_energy_of_the_published_worked_example() -> None:
    """Regulation (EU) No 1169/2011, Annex XIV: 25 g carbohydrate, 10 g fat, 20 g protein and 5 g fibre are 280 kcal."""
    label = {"carbohydrate_g": 25.0, "fat_g": 10.0, "protein_g": 20.0, "fibre_g": 5.0, "energy_kcal": 280.0}
    kcal, least, most = energy_range(label, holds_fibre=False)
    assert kcal == pytest.approx(280.0)
    assert least < 280 < most
    assert per_100g(label, holds_fibre=False)["energy_kcal"] == 280.0


def test_tolerances_of_the_european_guidance() -> None:
    """European Commission guidance on tolerances, December 2012 [memory]."""
    assert [tolerance("protein_g", grams) for grams in (9.0, 20.0, 50.0)] == [2.0, 4.0, 8.0]
    assert [tolerance("fat_g", grams) for grams in (9.0, 20.0, 50.0)] == [1.5, 4.0, 8.0]


def test_common_foods_of_the_table_pass_as_labels() -> None:
    """Rows of USDA SR28, their carbohydrate made like a European label's, are labels that could be printed."""
    rows = shipped_composition().rows
    for ndb in ("20044", "16069", "09040", "04053", "01116", "12061", "18069", "19296", "08120", "05062"):
        row = rows[ndb].per_100g
        label = {key: row[key] for key in ("energy_kcal", "protein_g", "fat_g", "fibre_g")}
        label["carbohydrate_g"] = max(0.0, row["carbohydrate_g"] - row["fibre_g"])
        assert per_100g(label, holds_fibre=False)["carbohydrate_g"] == pytest.approx(row["carbohydrate_g"], abs=0.01)


def test_an_allergen_that_neither_list_names_counts_as_present() -> None:
    food = shelf({**BAR, "diet": "omnivore", "free_of": ["milk"]}).foods["harbour oat bar"]
    assert set(food.allergens) == set(ALLERGENS) - {"milk"}
    assert "peanuts" in food.unsaid
    assert "gluten" not in food.unsaid
    eater = FoodFilter(avoid_allergens=frozenset({"peanuts"}))
    assert eater.refuses(food.diet, frozenset(food.allergens)) == "holds peanuts"
    assert eater.refuses(food.diet, frozenset(shelf(BAR).foods["harbour oat bar"].allergens)) is None


def test_what_is_left_unsaid_is_taken_the_careful_way() -> None:
    food = shelf({**BAR, "diet": None}).foods["harbour oat bar"]
    assert (food.diet, food.settles) == ("omnivore", "slowly")
    assert food.counts == ("added_sugar",), "what limits a cereal bar limits what stands for it"
    assert shelf({**BAR, "stands_for": ["yoghurt, plain"], "state": "ready"}).foods["harbour oat bar"].counts == (), (
        "what speaks for a yoghurt is not taken over"
    )
    cereal_bar = shipped_pantry().foods["cereal bar"]
    assert (food.kin, food.state, food.most_day_g) == (cereal_bar.kin, cereal_bar.state, cereal_bar.most_day_g)


def test_the_shipped_pantry_stays_as_it_is() -> None:
    before = dict(shipped_pantry().foods)
    pantry = OwnPantry(shipped_pantry(), shelf(BAR))
    food = pantry.foods["harbour oat bar"]
    assert food.source == SOURCE
    assert pantry.row(food).per_100g["energy_kcal"] == 408
    assert pantry.row(pantry.foods["banana"]) is shipped_pantry().row(shipped_pantry().foods["banana"])
    assert shipped_pantry().foods == before
    assert pantry.composition is shipped_composition()


def test_what_a_person_should_hear() -> None:
    read = shelf({**BAR, "fibre_g": None, "diet": "omnivore", "free_of": []}, TABLET)
    said = " ".join(own_notes(read) + own_cautions(read))
    for words in ("unknown", "counts as present", "with the fibre", "doctor or registered dietitian", "iron tablet"):
        assert words in said
    found = {(finding.food, finding.what) for finding in own_findings(OwnPantry(shipped_pantry(), read))}
    assert ("harbour oat bar", "fibre, g per 100 g") in found
    assert ("harbour oat bar", "allergens in neither list") in found
    assert own_cautions(shelf(BAR)) == ()


def test_a_name_that_speaks_of_an_allergen_is_told() -> None:
    quiet = {**BAR, "allergens": ["nuts"], "free_of": [name for name in ALLERGENS if name != "nuts"]}
    found = own_findings(OwnPantry(shipped_pantry(), shelf(quiet)))
    assert [finding.allowed for finding in found if finding.what == "allergens"] == ["gluten too"]


def test_the_example_is_read() -> None:
    read = own_shelf(str(EXAMPLE), own_text(EXAMPLE))
    assert [food.name for food in read.supplements] == ["club whey powder", "iron tablet"]
    assert read.rows["own:own_foods.toml#barley drink"].per_100g["energy_kcal"] == pytest.approx(46 * 100 / 103)


def test_a_byte_order_mark_is_no_fault(tmp_path: Path) -> None:
    assert own_shelf("own.toml", own_text(write(tmp_path, "\ufeff" + own(BAR)))).foods


def test_a_name_with_the_mark_of_sources_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match="without #"):
        own_text(write(tmp_path, own(BAR), "own#1.toml"))
