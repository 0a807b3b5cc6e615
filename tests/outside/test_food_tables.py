"""The food table, the pantry's yields and its labels against published figures and rules."""

from __future__ import annotations

import pytest

from mealopt.core.filters import ALLERGENS
from mealopt.core.nutrients import ENERGY, FAT, NUTRIENTS, PROTEIN
from mealopt.table.composition import shipped_composition
from mealopt.table.pantry import shipped_pantry
from mealopt.table.pantry_checks import yields
from mealopt.table.table_checks import GENERAL_FACTORS

ROWS = shipped_composition().rows
FOODS = shipped_pantry().foods


@pytest.mark.parametrize(
    ("ndb", "stated", "general"),
    [("20044", 365, 354.3), ("16069", 352, 361.5), ("11090", 34, 41.2), ("09040", 89, 98.7), ("04053", 884, 900.0)],
)
def test_energy_is_the_tables_own(ndb: str, stated: float, general: float) -> None:
    """USDA SR28: energy uses each food's own factors, so 4-4-9 gives something else (olive oil 884, not 900)."""
    amounts = ROWS[ndb].per_100g
    assert amounts[ENERGY] == stated
    keys = (PROTEIN, FAT, "carbohydrate_g")
    assert sum(amounts[key] * factor for key, factor in zip(keys, GENERAL_FACTORS, strict=True)) == pytest.approx(
        general, abs=0.05
    )


@pytest.mark.parametrize(
    ("raw", "cooked", "by_dry_matter", "by_protein"),
    [
        ("20044", "20045", 2.80, 2.65),
        ("20036", "20037", 2.97, 2.75),
        ("20120", "20121", 2.38, 2.25),
        ("20124", "20125", 2.40, 2.32),
        ("08120", "08121", 5.44, 5.18),
        ("16069", "16070", 3.02, 2.73),
        ("16056", "16057", 2.32, 2.31),
        ("16014", "16015", 2.60, 2.44),
        ("16027", "16028", 2.67, 2.72),
        ("20035", "20137", 3.05, 3.21),
        ("20028", "20029", 3.33, 3.37),
        ("20012", "20013", 4.09, 3.99),
        ("05062", "05064", 0.75, 0.73),
        ("23562", "23563", 0.79, 0.77),
        ("23557", "23558", 0.78, 0.81),
        ("15076", "15209", 0.78, 0.78),
        ("15015", "15016", 0.78, 0.78),
    ],
)
def test_yields_of_pairs(raw: str, cooked: str, by_dry_matter: float, by_protein: float) -> None:
    """Cooking yields worked out from USDA SR28 by what stays in the food: dry matter, and protein."""
    assert yields(ROWS[raw], ROWS[cooked]) == pytest.approx(sorted((by_dry_matter, by_protein)), abs=0.006)


def test_yield_of_fatty_meat_goes_by_protein() -> None:
    """USDA SR28, minced beef 80/20, 23572 to 23573: 0.667 by protein; 0.87 by dry matter is refused (fat is lost)."""
    assert yields(ROWS["23572"], ROWS["23573"]) == pytest.approx((0.667, 0.667), abs=0.005)


def test_cooked_rice_holds_the_energy_of_the_raw() -> None:
    """USDA SR28, 20044 to 20045: 100 g raw give 280 g cooked; 365 kcal against 2.80 x 130 = 364."""
    cooked = 2.80 * ROWS["20045"].per_100g[ENERGY]
    assert cooked == pytest.approx(ROWS["20044"].per_100g[ENERGY], rel=0.01)
    assert FOODS["rice, white"].yield_factor == 2.8


@pytest.mark.parametrize(
    ("food", "use"),
    [
        ("rice, white", 2.8),
        ("rice, brown", 2.9),
        ("pasta, white", 2.35),
        ("pasta, wholewheat", 2.4),
        ("lentils", 2.9),
        ("black beans", 2.5),
        ("quinoa", 3.1),
        ("couscous", 3.3),
        ("bulgur", 4.0),
        ("chicken breast", 0.73),
        ("salmon", 0.78),
        ("cod", 0.78),
        ("broccoli", 1.0),
        ("green beans", 0.95),
        ("potato, baked", 0.80),
    ],
)
def test_the_pantry_uses_the_yields(food: str, use: float) -> None:
    """Yield to use, from the pairs above (USDA SR28), within 3 %; vegetables from published tables [memory]."""
    assert FOODS[food].yield_factor == pytest.approx(use, rel=0.03)


def test_a_blank_is_unknown() -> None:
    """USDA SR28 leaves choline blank for 4,016 of all 8,789 foods: missing there, never zero (FAO/INFOODS 2012)."""
    blank = [row for row in ROWS.values() if "choline_mg" not in row.per_100g]
    zero = [row for row in ROWS.values() if row.per_100g.get("choline_mg") == 0.0]
    assert blank
    assert zero
    assert "choline_mg" not in ROWS["20051"].per_100g


def test_energy_and_its_parts_are_never_blank() -> None:
    """USDA SR28: carbohydrate, fat, protein and energy have no blank in the abbreviated file."""
    for row in ROWS.values():
        assert {"carbohydrate_g", FAT, PROTEIN, ENERGY} <= set(row.per_100g), row.ndb


def test_all_columns_of_the_abbreviated_file() -> None:
    """USDA SR28, ABBREV: 46 nutrients, from water to cholesterol."""
    assert len(NUTRIENTS) == 46
    assert (NUTRIENTS[0].source, NUTRIENTS[-1].source) == ("Water", "Cholestrl")


def test_the_allergens_are_the_european_fourteen() -> None:
    """Regulation (EU) No 1169/2011, Annex II."""
    assert len(ALLERGENS) == 14
    assert {"gluten", "celery", "mustard", "lupin", "molluscs", "sulphites"} <= set(ALLERGENS)


@pytest.mark.parametrize("food", ["oats, rolled", "oat bran", "pearl barley", "bread, rye", "spelt", "bulgur"])
def test_oats_count_as_a_gluten_cereal(food: str) -> None:
    """Regulation (EU) No 1169/2011, Annex II: wheat with spelt, rye, barley and oats (the United States list wheat)."""
    assert "gluten" in FOODS[food].allergens


@pytest.mark.parametrize(
    "food", ["almonds", "hazelnuts", "walnuts", "cashews", "pecans", "Brazil nuts", "pistachios", "macadamias"]
)
def test_nuts_of_the_european_list(food: str) -> None:
    """Regulation (EU) No 1169/2011, Annex II, point 8."""
    assert "nuts" in FOODS[food].allergens


@pytest.mark.parametrize("food", ["coconut, desiccated", "pine nuts", "peanuts"])
def test_what_is_called_a_nut_and_is_none_of_the_list(food: str) -> None:
    """Regulation (EU) No 1169/2011, Annex II names eight nuts; pine nuts, coconut and peanuts are not among them."""
    assert "nuts" not in FOODS[food].allergens


@pytest.mark.parametrize(("food", "vegan"), [("honey", False), ("milk, whole", False), ("yeast", True)])
def test_vegan(food: str, vegan: bool) -> None:
    """ISO 23662:2021: honey and milk are allowed to ovo-lacto vegetarians only; yeast is no animal."""
    assert (FOODS[food].diet == "vegan") is vegan
