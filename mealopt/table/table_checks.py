"""Checks of the published table, by the practice of food-composition tables.

What fails here is a fact of the published release: it is told, with the reason where that is known, and not mended.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from mealopt.core.nutrients import BY_KEY, CARBOHYDRATE, ENERGY, FAT, FIBRE, PROTEIN, SODIUM
from mealopt.table.composition import CompositionRow
from mealopt.table.finding import Finding

FILE = "foods/composition.csv"

#: The five parts into which a food is taken apart; their sum, g per 100 g.
PROXIMATES = ("water_g", PROTEIN, FAT, CARBOHYDRATE, "ash_g")
PROXIMATE_LEAST, PROXIMATE_MOST = 95.0, 105.0  # FAO/INFOODS 2012 [memory]

#: Largest difference between stated and worked-out energy, as a share; small amounts may differ by NEAR_ZERO_KCAL.
#: 5 % for staples, 20 % for vegetables: measured on SR28 itself. The other groups of plants and drinks, which are rich
#: in fibre or acids too, take the vegetables' value [common practice, no source].
ENERGY_SHARE = 0.05
ENERGY_SHARE_PLANTS = 0.20
PLANT_GROUPS = {"0200", "0900", "1100", "1200", "1400", "1600"}
NEAR_ZERO_KCAL = 5.0

#: A part may pass the whole by this much, g per 100 g, because the table rounds each by itself.
ROUNDING_G = 0.1

#: kcal per g of protein, fat and carbohydrate, Regulation (EU) No 1169/2011, Annex XIV.
GENERAL_FACTORS = (4.0, 9.0, 4.0)

#: Pure salt is 22.99 / 58.44 sodium (standard atomic weights, IUPAC); nothing eaten holds more.
MOST_SODIUM_MG = 100_000 * 22.99 / 58.44
#: Pure fat, with the highest factor that the table uses (9.02 kcal per g).
MOST_ENERGY_KCAL = 902.0
_GRAMS = {"g": 1.0, "mg": 1e-3, "ug": 1e-6}

#: IU in a microgram of vitamin D (definition: 1 IU = 0.025 ug of cholecalciferol).
IU_PER_UG_VITAMIN_D = 40.0

_ALCOHOL = re.compile(r"alcoholic|wine|beer|liquor|sake|vanilla extract|daiquiri|whiskey", re.IGNORECASE)
ALCOHOL = "holds alcohol, for which this file of the table has no column"
ACID = "its acid counts as energy and weight, and is in none of the five parts"
OWN_SUGARS = "probably: sugars were analysed, carbohydrate worked out by difference, on other samples"
OWN_FATTY_ACIDS = "probably: fatty acids and fat come from other samples"
FIBRE_RICH = "probably: its energy was worked out with less than 4 kcal per g of fibre"
SUBSTITUTE = "probably: a sugar alcohol, sweetener or fat substitute gives less energy than its weight suggests"
FLESH = "probably: carbohydrate of flesh is set to zero, so the errors of the other parts do not cancel"
OILS = "probably: its volatile oils leave with the water and are counted in neither"
MUCH_FIBRE_G = 5.0
_FLESH_GROUPS = {"0500", "0700", "1000", "1300", "1500", "1700"}
_FIBRE_WORDS = ("bran", "peel", "pectin", "carob", "fiber", "cocoa")
_SUBSTITUTE_WORDS = ("sugarless", "olestra", "sweetener", "reduced-calorie", "low calorie", "no sugar")


def _finding(row: CompositionRow, what: str, value: float, allowed: str, reason: str = "") -> Finding:
    return Finding(FILE, f"{row.ndb} {row.name}", what, f"{value:.4g}", allowed, "fact", reason)


def _reason(row: CompositionRow) -> str:
    """Why the parts or the energy of a row do not add up, as far as its name and group tell; "" where they do not."""
    name = row.name.lower()
    if _ALCOHOL.search(name) and "non-alcoholic" not in name:
        return ALCOHOL
    if "vinegar" in name:
        return ACID
    if name.startswith("spices, pepper"):
        return OILS
    if any(word in name for word in _SUBSTITUTE_WORDS):
        return SUBSTITUTE
    if any(word in name for word in _FIBRE_WORDS) or row.per_100g.get(FIBRE, 0.0) >= MUCH_FIBRE_G:
        return FIBRE_RICH
    return FLESH if row.group in _FLESH_GROUPS else ""


def proximates(row: CompositionRow) -> Iterator[Finding]:
    """Water, protein, fat, carbohydrate and ash add up to about 100 g per 100 g."""
    parts = [row.per_100g.get(key) for key in PROXIMATES]
    known = [part for part in parts if part is not None]
    if len(known) < len(parts):
        yield _finding(row, "parts of the food that are known", len(known), f"{len(parts)}")
        return
    total = sum(known)
    if not PROXIMATE_LEAST <= total <= PROXIMATE_MOST:
        allowed = f"{PROXIMATE_LEAST:g} to {PROXIMATE_MOST:g}"
        what = "water + protein + fat + carbohydrate + ash, g per 100 g"
        yield _finding(row, what, total, allowed, _reason(row))


def energy(row: CompositionRow) -> Iterator[Finding]:
    """Stated energy agrees with protein, fat and carbohydrate: by the row's own factors, else by 4, 9 and 4."""
    stated = row.per_100g.get(ENERGY)
    parts = [row.per_100g.get(key) for key in (PROTEIN, FAT, CARBOHYDRATE)]
    if stated is None or None in parts:
        yield _finding(row, "energy, protein, fat and carbohydrate that are known", 0.0, "all")
        return
    own = [factor for factor in row.factors if factor is not None]
    factors = own if len(own) == len(parts) else list(GENERAL_FACTORS)
    share = ENERGY_SHARE_PLANTS if row.group in PLANT_GROUPS and len(own) < len(parts) else ENERGY_SHARE
    worked_out = sum((part or 0.0) * factor for part, factor in zip(parts, factors, strict=True))
    margin = max(share * stated, NEAR_ZERO_KCAL)
    if abs(worked_out - stated) > margin:
        which = "its own factors" if len(own) == len(parts) else "4, 9 and 4 kcal per g"
        allowed = f"{worked_out - margin:.0f} to {worked_out + margin:.0f}"
        yield _finding(row, f"energy by {which}, kcal per 100 g", stated, allowed, _reason(row))


def parts(row: CompositionRow) -> Iterator[Finding]:
    """No part is more than its whole: fibre and sugars of carbohydrate, three kinds of fatty acids of fat."""
    amounts = row.per_100g
    for key, reason in ((FIBRE, ""), ("sugars_g", OWN_SUGARS)):
        most = amounts.get(CARBOHYDRATE, 0.0) + ROUNDING_G
        if amounts.get(key, 0.0) > most:
            what = f"{BY_KEY[key].label} within carbohydrate, g per 100 g"
            yield _finding(row, what, amounts[key], f"at most {most:.4g}", reason)
    acids = ("saturated_fat_g", "monounsaturated_fat_g", "polyunsaturated_fat_g")
    total = sum(amounts.get(key, 0.0) for key in acids)
    most = amounts.get(FAT, 0.0) + ROUNDING_G
    if total > most:
        what = "saturated + monounsaturated + polyunsaturated within fat, g per 100 g"
        yield _finding(row, what, total, f"at most {most:.4g}", OWN_FATTY_ACIDS)


def limits(row: CompositionRow) -> Iterator[Finding]:
    """No negative number, and nothing above what 100 g of anything can hold."""
    for key, value in row.per_100g.items():
        unit = BY_KEY[key].unit
        most = 100.0 / _GRAMS[unit] if unit in _GRAMS else float("inf")
        most = {ENERGY: MOST_ENERGY_KCAL, SODIUM: MOST_SODIUM_MG}.get(key, most)
        if not 0.0 <= value <= most:
            yield _finding(row, f"{BY_KEY[key].label}, {unit} per 100 g", value, f"0 to {most:.6g}")
    micrograms, units = row.per_100g.get("vitamin_d_ug"), row.per_100g.get("vitamin_d_iu")
    if micrograms is not None and units is not None:
        wide = 0.05 * IU_PER_UG_VITAMIN_D + 0.5 + 0.02 * units
        if abs(units - IU_PER_UG_VITAMIN_D * micrograms) > wide:
            allowed = f"{IU_PER_UG_VITAMIN_D * micrograms:.4g} (40 IU in a microgram)"
            yield _finding(row, "vitamin D, IU per 100 g", units, allowed)
    if not 0.0 <= row.refuse_percent < 100.0:
        yield _finding(row, "inedible share, percent", row.refuse_percent, "0 to under 100")


def weights(row: CompositionRow) -> Iterator[Finding]:
    """Household weights are more than nothing and have words."""
    for grams, words in row.weights:
        if not (grams > 0.0 and words):
            yield _finding(row, f"household weight {words!r}, g", grams, "more than 0, with words")


CHECKS = (proximates, energy, parts, limits, weights)


def check_row(row: CompositionRow) -> list[Finding]:
    """All checks of one row of the table."""
    return [finding for check in CHECKS for finding in check(row)]
