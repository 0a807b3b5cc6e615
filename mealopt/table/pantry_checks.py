"""Checks of our own pantry against the table that it is tied to. What fails here is a fault of ours."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator

from mealopt.core.nutrients import BY_KEY, FAT, FIBRE, PROTEIN
from mealopt.table.composition import CompositionRow
from mealopt.table.finding import Finding
from mealopt.table.pantry import Food, Pantry

FILE = "foods/pantry.csv"

#: A yield may leave the two that the tied rows give (by dry matter, by protein) by this share.
YIELD_SHARE = 0.03
#: Above this fat content of the raw food, g per 100 g, fat is lost in cooking and dry matter no longer marks the yield.
FATTY_G = 15.0
#: Boiled vegetables lose solids to the water, so their rows give no yield: 0.85 to 1.0 (Bognar [memory]), widened.
VEGETABLE_YIELD = (0.80, 1.05)
_VEGETABLE_COUNTS = {"vegetable", "starchy"}
#: Rows whose raw and cooked samples are different animals: yield of the paired rows that stand in (raw, cooked).
STAND_IN = {"15237": ("15076", "15209")}

#: Kitchen measures of volume, in ml (US customary, as the table uses them).
VOLUMES_ML = {"cup": 236.6, "tbsp": 14.79, "tablespoon": 14.79, "tsp": 4.93, "teaspoon": 4.93, "fl oz": 29.57}
_VOLUME_WEIGHT = re.compile(r"(\d*\.?\d+) (cup|tbsp|tablespoon|tsp|teaspoon|fl oz)\b(?!.*\b(?:hulls|dry)\b)")
#: A cook's measure may be this much lighter or heavier than those that the table weighed [common practice, no source].
MEASURE_LEAST, MEASURE_MOST = 0.80, 1.25

#: Food that is thrown away may fall short of the table's refuse by this much, in percent of the bought food.
REFUSE_MARGIN = 3.0

#: Vitamin B12 without any animal: rows that hold it by fungi, bacteria or soil, ug per 100 g at most
#: [common practice, no source].
PLANT_B12_UG = {"11260": 0.05, "16174": 0.15, "16112": 0.10, "18375": 0.10}
ANIMAL_ALLERGENS = {"milk", "eggs", "fish", "crustaceans", "molluscs"}
SEA_ALLERGENS = {"fish", "crustaceans", "molluscs"}

#: Words of the table's row that show an allergen of the EU list, and words that only look like it.
EVIDENCE: tuple[tuple[str, str], ...] = (
    ("gluten", r"\b(wheat|barley|rye|oats?|spelt|bulgur|couscous|semolina|pasta|bread|bagels?|crackers|pita)\b"),
    ("crustaceans", r"\b(crustaceans|shrimp|crab)\b"),
    ("eggs", r"\b(eggs?|omelet|mayonnaise)\b"),
    ("fish", r"\bfish\b"),
    ("peanuts", r"\bpeanuts?\b"),
    ("soybeans", r"\b(soy|soymilk|soybeans?|tofu|tempeh|miso|edamame)\b"),
    ("milk", r"\b(milk|cheese|cream|yogurts?|butter|whey)\b"),
    ("nuts", r"\b(almonds?|hazelnuts?|walnuts|cashew|pecans|brazilnuts|pistachio|macadamia)\b"),
    ("celery", r"\bcelery\b"),
    ("mustard", r"\bmustard\b"),
    ("sesame", r"\bsesame\b"),
    ("sulphites", r"\bsulfured\b"),
    ("lupin", r"\blupins?\b"),
    ("molluscs", r"\b(mollusks|oyster|squid|mussel|scallop)\b"),
)
_LOOKALIKE = re.compile(
    r"^.*gluten-free.*$|tofu yogurt|oyster, soda|cream of tartar|includes [^)]*buttermilk|lowfat milk|soup\)"
)
#: Butters and milks of plants: the plant counts, the butter or milk does not.
_OF_PLANTS = re.compile(r"(peanut|almond|cashew|sesame|seed|coconut|rice) (butter|milk)")


def _finding(food: Food, what: str, value: object, allowed: str) -> Finding:
    return Finding(FILE, food.name, what, str(value), allowed, "fault")


def yields(raw: CompositionRow, cooked: CompositionRow) -> tuple[float, float]:
    """Least and most grams of cooked food per gram of raw food, by what stays in it.

    Dry matter and protein are taken to stay whole; of fatty food protein alone, because fat is lost with the dry
    matter (USDA SR28, worked out from the two rows). Raises ZeroDivisionError where the cooked food has none.
    """
    protein = raw.per_100g[PROTEIN] / cooked.per_100g[PROTEIN]
    if raw.per_100g[FAT] >= FATTY_G:
        return protein, protein
    dry_matter = (100.0 - raw.per_100g["water_g"]) / (100.0 - cooked.per_100g["water_g"])
    return min(dry_matter, protein), max(dry_matter, protein)


def yield_fits(food: Food, pantry: Pantry) -> Iterator[Finding]:
    """Grams cooked per gram bought agree with the rows that the food is tied to."""
    rows = pantry.composition.rows
    what = "yield, g as weighed per g as bought"
    if food.bought_ndb == food.ndb:
        if food.yield_factor != 1.0:
            yield _finding(food, what, food.yield_factor, "1, for it is bought as it is weighed")
        return
    if _VEGETABLE_COUNTS & set(food.counts):
        least, most = VEGETABLE_YIELD
    else:
        raw, cooked = STAND_IN.get(food.ndb, (food.bought_ndb, food.ndb))
        least, most = yields(rows[raw], rows[cooked])
        least, most = least * (1 - YIELD_SHARE), most * (1 + YIELD_SHARE)
    if not least <= food.yield_factor <= most:
        yield _finding(food, what, food.yield_factor, f"{least:.2f} to {most:.2f}")


def measure_fits(food: Food, pantry: Pantry) -> Iterator[Finding]:
    """A cup or a spoon weighs about what the table's own cups and spoons of that food weigh."""
    if food.measure not in VOLUMES_ML:
        return
    other = "whole" if "ground" in food.name else "ground"
    weights = [weight for weight in pantry.row(food).weights if other not in weight[1]]
    found = [(grams, _VOLUME_WEIGHT.match(words)) for grams, words in weights]
    densities = [grams / (float(match[1]) * VOLUMES_ML[match[2]]) for grams, match in found if match]
    if densities:
        volume = VOLUMES_ML[food.measure]
        least, most = min(densities) * volume * MEASURE_LEAST, max(densities) * volume * MEASURE_MOST
        if not least <= food.measure_g <= most:
            yield _finding(food, f"weight of one {food.measure}, g", food.measure_g, f"{least:.3g} to {most:.3g}")


def steps_fit(food: Food, pantry: Pantry) -> Iterator[Finding]:
    """Some whole number of steps lies between the least and the most of a meal."""
    fewest = math.ceil(max(food.least_g, 1e-9) / food.step_g - 0.02)
    if fewest * food.step_g > food.most_meal_g + 0.02 * food.step_g:
        allowed = f"a multiple of {food.step_g:g} within {food.least_g:g} to {food.most_meal_g:g}"
        yield _finding(food, "amount in a meal, g", f"{fewest * food.step_g:g}", allowed)


def edible_fits(food: Food, pantry: Pantry) -> Iterator[Finding]:
    """No more is thrown away than the table's refuse, but for the liquid of what is drained."""
    refuse = pantry.composition.rows[food.bought_ndb].refuse_percent
    least = 100.0 - refuse - REFUSE_MARGIN
    if food.state != "drained" and food.edible_percent < least:
        yield _finding(food, "edible share, percent", food.edible_percent, f"at least {least:g}")


def diet_fits(food: Food, pantry: Pantry) -> Iterator[Finding]:
    """What is labelled vegan or vegetarian shows no sign of an animal, in the table or in its own labels."""
    amounts, counts, allergens = pantry.row(food).per_100g, set(food.counts), set(food.allergens)
    if food.diet == "vegan":
        if amounts.get("cholesterol_mg", 0.0) > 0.0:
            yield _finding(food, "cholesterol of a vegan food, mg per 100 g", amounts["cholesterol_mg"], "0")
        for key in () if "fortified" in counts else ("vitamin_b12_ug", "retinol_ug"):
            most = PLANT_B12_UG.get(food.ndb, 0.0) if key == "vitamin_b12_ug" else 0.0
            if amounts.get(key, 0.0) > max(most, 1.0 if key == "retinol_ug" else 0.0):
                yield _finding(food, f"{BY_KEY[key].label} of a vegan food, ug per 100 g", amounts[key], f"{most:g}")
        if allergens & ANIMAL_ALLERGENS:
            yield _finding(
                food, "allergens of a vegan food", ", ".join(allergens & ANIMAL_ALLERGENS), "none of animals"
            )
    if food.diet == "vegetarian" and allergens & SEA_ALLERGENS:
        yield _finding(food, "allergens of a vegetarian food", ", ".join(allergens & SEA_ALLERGENS), "none of the sea")
    flesh = counts & {"red_meat", "processed_meat", "poultry"}
    if flesh and food.diet != "omnivore":
        yield _finding(food, "diet of meat", food.diet, "omnivore")
    if "fish" in counts and food.diet != "pescatarian":
        yield _finding(food, "diet of fish", food.diet, "pescatarian")
    if "fish" in counts and not allergens & SEA_ALLERGENS:
        yield _finding(food, "allergens of fish", food.allergens, "one of " + ", ".join(sorted(SEA_ALLERGENS)))


def allergens_fit(food: Food, pantry: Pantry) -> Iterator[Finding]:
    """An allergen that the table's name or the food's own kind shows stands in its list."""
    name = _OF_PLANTS.sub(r"\1", _LOOKALIKE.sub("", pantry.row(food).name.lower()))
    shown = {allergen for allergen, words in EVIDENCE if re.search(words, name)}
    counts = {"egg": "eggs", "dairy": "milk", "soy": "soybeans"}
    shown |= {allergen for count, allergen in counts.items() if count in food.counts}
    missing = sorted(shown - set(food.allergens))
    refined = "oil" in food.counts and set(missing) <= {"soybeans"}
    if missing and not refined:
        yield _finding(food, "allergens", ", ".join(food.allergens) or "none", f"{', '.join(missing)} too")


CHECKS = (yield_fits, measure_fits, steps_fit, edible_fits, diet_fits, allergens_fit)


def unknown_fibre(food: Food, pantry: Pantry) -> Iterator[Finding]:
    """A fact to tell: the table does not know the fibre, so that the food cannot stand before a session."""
    if FIBRE not in pantry.row(food).per_100g:
        reason = "the table leaves it blank; the food stays out of meals that limit fibre"
        yield Finding(FILE, food.name, "fibre, g per 100 g", "unknown", "known", "fact", reason)


def check_pantry(pantry: Pantry) -> list[Finding]:
    """All checks of all foods of a pantry."""
    checks = (*CHECKS, unknown_fibre)
    return [finding for food in pantry.foods.values() for check in checks for finding in check(food, pantry)]
