"""Bought weight against published cooking yields and refuse.

Yields: cooked mass over raw mass from paired rows of USDA SR28 (dry matter for food boiled in water and lean food,
protein for fatty food). The rows are the release's; the pairs and the method are those of USDA's own yield studies
(USDA Table of Cooking Yields for Meat and Poultry, Release 2, 2014, by weighing; here by a constant marker). Vegetables
lose solids to the water: 0.85 to 1.0 drained weight per raw (Bognar 2002, weight-yield tables [memory]).
Refuse: the release's own column of what is thrown away.
"""

from __future__ import annotations

import pytest

from mealopt.plans.groceries.shop import shop_for
from mealopt.table.composition import shipped_composition
from tests.plans.shelves import MENU, Eaten, plan_of

ROWS = shipped_composition().rows
WITHIN = 0.03

# food of the pantry, raw row, cooked row, marker, yield as rounded for use
PAIRS = [
    ("rice, white", "20044", "20045", "dry matter", 2.8),
    ("rice, brown", "20036", "20037", "dry matter", 2.9),
    ("pasta, white", "20120", "20121", "dry matter", 2.35),
    ("pasta, wholewheat", "20124", "20125", "dry matter", 2.4),
    ("lentils", "16069", "16070", "both", 2.9),
    ("black beans", "16014", "16015", "both", 2.5),
    ("quinoa", "20035", "20137", "dry matter", 3.1),
    ("couscous", "20028", "20029", "dry matter", 3.3),
    ("bulgur", "20012", "20013", "both", 4.0),
    ("chicken breast", "05062", "05064", "protein", 0.73),
    ("cod", "15015", "15016", "dry matter", 0.78),
    ("salmon", "15076", "15209", "dry matter", 0.78),
]


def need_g(food: str, grams: float) -> float:
    (line,) = shop_for(plan_of({"mon": [Eaten([(food, grams)])]}), MENU).lines
    return line.need_g


def marked(raw: str, cooked: str, marker: str) -> float:
    dry = (100 - ROWS[raw].per_100g["water_g"]) / (100 - ROWS[cooked].per_100g["water_g"])
    protein = ROWS[raw].per_100g["protein_g"] / ROWS[cooked].per_100g["protein_g"]
    return {"dry matter": dry, "protein": protein, "both": (dry + protein) / 2}[marker]


@pytest.mark.parametrize(("food", "raw", "cooked", "marker", "use"), PAIRS)
def test_dry_and_raw_weights_follow_the_paired_rows(food: str, raw: str, cooked: str, marker: str, use: float) -> None:
    """What is bought for 1 kg as eaten, against the rounded yield and against the two rows of USDA SR28."""
    yielded = 1000 / need_g(food, 1000)
    assert yielded == pytest.approx(use, rel=WITHIN)
    assert yielded == pytest.approx(marked(raw, cooked, marker), rel=WITHIN)


@pytest.mark.parametrize("food", ["broccoli", "carrot, boiled", "green beans", "spinach, cooked"])
def test_boiled_vegetables_lose_a_little(food: str) -> None:
    """0.85 to 1.0 g drained per gram trimmed (Bognar 2002 [memory])."""
    trimmed = need_g(food, 1000) * MENU.pantry.foods[food].edible_percent / 100
    assert 0.85 - 1e-3 <= 1000 / trimmed <= 1.0 + 1e-3


@pytest.mark.parametrize("food", ["banana", "orange", "avocado", "mango", "melon", "pineapple", "plum", "peach", "egg"])
def test_peel_stones_and_shells_are_bought_too(food: str) -> None:
    """USDA SR28's refuse: a banana is 36 % peel, so 100 g eaten are 156 g bought."""
    row = ROWS[MENU.pantry.foods[food].bought_ndb]
    assert row.refuse_percent > 0
    assert need_g(food, 500) == pytest.approx(500 / (1 - row.refuse_percent / 100), rel=WITHIN)
