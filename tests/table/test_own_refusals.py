"""What an own file cannot say: each mistake gets one sentence with file, entry, key and what was read."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from mealopt.errors import BadInput, Refused
from mealopt.table.own import own_shelf, own_text
from mealopt.table.upper_limits import LIMITS, Dosed, over, over_in_europe
from tests.table.own_files import BAR, TABLET, own, shelf, write

WRONG: list[tuple[dict[str, Any], str, str]] = [
    ({"energy_kcal": 250}, "energy_kcal", "to .* kcal is allowed"),
    ({"energy_kcal": 1700}, "energy_kcal", "was it kJ"),
    ({"energy_kcal": None}, "energy_kcal", "read nothing"),
    ({"energy_kcal": True}, "energy_kcal", "a number is expected"),
    ({"energy_kcal": "408"}, "energy_kcal", "a number is expected"),
    ({"protein_g": None}, "protein_g", "read nothing"),
    ({"protein_g": -1}, "protein_g", "0 or more"),
    ({"protein_g": 40}, "carbohydrate_g", "119.5 g in 100 g"),
    ({"sugars_g": 60}, "sugars_g", "more than the 59 g of carbohydrate_g"),
    ({"saturated_fat_g": 13.5}, "saturated_fat_g", "more than the 13 g of fat_g"),
    ({"polyols_g": 60}, "polyols_g", "more than the 59 g"),
    ({"fibre_g": 67, "carbohydrate_g": 66, "carbohydrate_holds_fibre": True}, "fibre_g", "more than the 66 g"),
    ({"iron_mg": 200_000}, "iron_mg", "no more than 100 g of anything"),
    ({"sodium_mg": 140}, "sodium_mg", "beside salt_g"),
    ({"protien_g": 3}, "protien_g", 'did you mean "protein_g"'),
    ({"allergens": ["soybean"]}, "allergens", 'did you mean "soybeans"'),
    ({"free_of": ["gluten"], "diet": None}, "free_of", "which allergens names too"),
    ({"allergens": ["milk"], "free_of": []}, "diet", "allergens names milk"),
    ({"free_of": ["milk"]}, "diet", "free_of does not name"),
    ({"counts": ["dairy"], "diet": "vegetarian"}, "free_of", 'counts names "dairy"'),
    ({"counts": ["poultry"]}, "diet", "counts as poultry"),
    ({"counts": ["fruits"]}, "counts", 'did you mean "fruit"'),
    ({"counts": ["supplement"]}, "counts", "allowed are|did you mean"),
    ({"aisle": "shelf"}, "aisle", "allowed are|did you mean"),
    ({"diet": "paleo"}, "diet", "vegan"),
    ({"stands_for": ["cereal bars"]}, "stands_for", "nearest: cereal bar"),
    ({"stands_for": ["milk, whole"], "state": "ready"}, "stands_for", "which is weighed liquid"),
    ({"stands_for": None}, "most_meal_g", "stands for no other"),
    ({"measure_g": None}, "measure_g", "it is expected of a food"),
    ({"measure_g": 0}, "measure_g", "greater than 0"),
    ({"most_meal_g": 30}, "", "least_g <= most_meal_g"),
    ({"most_meal_g": 59, "least_g": 41}, "most_meal_g", "at least 80 g"),
    ({"dose": "bar"}, "dose", "other kind"),
    ({"per": "100 ml"}, "grams_per_100ml", "what 100 ml weigh"),
    ({"grams_per_100ml": 103}, "grams_per_100ml", "what 100 ml weigh"),
    ({"pack_g": None}, "pack_g", "read nothing"),
    ({"name": "Banana"}, "name", "the pantry has 'banana' already"),
    ({"name": "oat\nbar"}, "name", "single spaces"),
]


@pytest.mark.parametrize(("changed", "key", "says"), WRONG, ids=[str(row[0])[:50] for row in WRONG])
def test_a_mistake_is_named_with_its_place(changed: dict[str, Any], key: str, says: str) -> None:
    with pytest.raises(BadInput, match=says) as raised:
        shelf(BAR | changed)
    words = str(raised.value)
    assert words.startswith("own.toml, [[food]] 1 (")
    assert f") {key}" in words
    assert "\n" not in words


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"measure": "tablet"}, "measure: read in a supplement"),
        ({"dose_g": None}, "dose_g: read nothing; it is expected of a supplement"),
        ({"doses_a_day": None}, "doses_a_day: read nothing"),
        ({"energy_kcal": None}, "energy_kcal: read nothing.*0 where there is none"),
        ({"iron_mg": -1}, "iron_mg: read -1"),
        ({"protein_g": 2}, "protein_g: read 200 in 100 g"),
    ],
    ids=lambda value: str(value)[:30],
)
def test_a_supplement_is_read_as_strictly(changed: dict[str, Any], says: str) -> None:
    with pytest.raises(BadInput, match=says):
        shelf(TABLET | changed)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "schema: read None"),
        ('schema = "mealopt/own-2"', "mealopt/own-1"),
        ('schema = "mealopt/own-1"', "holds no food and no dish"),
        ('schema = "mealopt/own-1"\n[[foods]]\nname = "x"', 'did you mean "food"'),
        ('schema = "mealopt/own-1"\nfood = 3', "each of which begins with"),
        ('schema = "mealopt/own-1"\n[food]\nname = "x"', "each of which begins with"),
        ('schema = "mealopt/own-1"\n[[food', "broken TOML .*end of document"),
        ("a = " + "[" * 100_000, "broken TOML"),
        ("a = " + "9" * 5_000, "broken TOML"),
        ('schema = "mealopt/own-1"\n' + "[[food]]\n" * 400, "at most 300"),
    ],
    ids=["empty", "form", "nothing", "table", "number", "one table", "broken", "deep", "digits", "crowd"],
)
def test_a_file_of_another_form_is_refused(text: str, says: str) -> None:
    with pytest.raises(BadInput, match=says) as raised:
        own_shelf("own.toml", text)
    assert len(str(raised.value)) < 400


def test_one_name_once() -> None:
    with pytest.raises(BadInput, match=r"\[\[food\]\] 2 \(harbour oat bar\) name: stands twice"):
        shelf(BAR, BAR)


def test_a_file_that_is_not_there_or_no_text(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match="cannot be read"):
        own_text(tmp_path / "none.toml")
    (tmp_path / "bytes.toml").write_bytes(b"\xff\xfe")
    with pytest.raises(BadInput, match="UTF-8"):
        own_text(tmp_path / "bytes.toml")
    with pytest.raises(BadInput, match="at most 1 MB"):
        own_text(write(tmp_path, "#" * 1_100_000))


@pytest.mark.parametrize("missing_fibre", [True, False])
def test_sugar_alcohols_bring_less_energy(missing_fibre: bool) -> None:
    """Regulation (EU) No 1169/2011, Annex XIV: polyols 2.4 kcal/g. 60 g of them for sugar take 96 kcal off."""
    sweet = {**BAR, "carbohydrate_g": 62.0, "sugars_g": 1.0, "energy_kcal": 300, "salt_g": 0}
    sweet["fibre_g"] = None if missing_fibre else 6.0
    with pytest.raises(BadInput, match="energy_kcal"):
        shelf(sweet)
    assert shelf({**sweet, "polyols_g": 60.0}).foods


# Upper levels, Dietary Reference Intakes (elements 2005 and 2011, vitamins 1998 to 2011), adults of 19 to 70.
PUBLISHED = {
    "calcium_mg": 2000, "iron_mg": 45, "magnesium_mg": 350, "zinc_mg": 40, "phosphorus_mg": 4000, "selenium_ug": 400,
    "copper_mg": 10, "manganese_mg": 11, "iodine_ug": 1100, "retinol_ug": 3000, "vitamin_c_mg": 2000,
    "vitamin_d_ug": 100, "vitamin_e_mg": 1000, "niacin_mg": 35, "vitamin_b6_mg": 100, "folic_acid_ug": 1000,
    "choline_mg": 3500,
}  # fmt: skip


@pytest.mark.parametrize(("key", "most"), PUBLISHED.items())
def test_no_dose_passes_its_upper_limit(key: str, most: float) -> None:
    heavy = {**TABLET, "dose_g": 20, "carbohydrate_g": 0, "iron_mg": None}
    assert shelf({**heavy, key: most}).foods
    with pytest.raises(Refused, match=r"upper limit.*doctor or registered dietitian") as raised:
        shelf({**heavy, key: most * 1.01})
    assert raised.value.exit_code == 3
    with pytest.raises(Refused, match="iron tablet"):
        shelf({**heavy, key: most * 0.6, "doses_a_day": 2})


def test_every_limit_is_held_to_a_published_figure() -> None:
    assert {next(iter(limit.keys)) for limit in LIMITS} == set(PUBLISHED)


def test_supplements_are_held_together_too() -> None:
    two = [Dosed("one", {"zinc_mg": 25.0}), Dosed("other", {"zinc_mg": 20.0})]
    (said,) = over(two)
    assert said == "supplements together: one 25 mg zinc, other 20 mg zinc a day; the upper limit is 40 mg"
    assert list(over(two[:1])) == []


def test_a_unit_is_no_way_round_a_limit() -> None:
    """40 IU of vitamin D are 1 ug, so 100 ug are 4000 IU [memory]."""
    assert list(over([Dosed("drops", {"vitamin_d_iu": 4000.0, "vitamin_d_ug": 100.0})])) == []
    assert list(over([Dosed("drops", {"vitamin_d_iu": 5000.0})]))
    assert list(over([Dosed("capsule", {"vitamin_a_ug": 3300.0})])), "unsaid, so taken for retinol"


def test_the_lower_european_level_is_told() -> None:
    """European Food Safety Authority, 2023: vitamin B6 12 mg [memory]."""
    assert list(over_in_europe(Dosed("pill", {"vitamin_b6_mg": 50.0}))) == [("vitamin_b6_mg", 50.0, 12.0)]
    assert list(over_in_europe(Dosed("pill", {"vitamin_b6_mg": 10.0}))) == []


def test_food_is_not_held_to_limits_of_supplements() -> None:
    assert own_shelf("own.toml", own({**BAR, "magnesium_mg": 600})).foods
