"""The arithmetic of a food label: from what is printed to what 100 g hold as the table counts them, and its checks.

A label of the European Union leaves fibre out of carbohydrate, while the table's carbohydrate is what remains of 100 g,
fibre within: the two are made alike here. What a label leaves out stays unknown.
"""

from __future__ import annotations

from collections.abc import Mapping

from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FAT, FIBRE, KEYS, PROTEIN, SATURATED, SODIUM, UNITS

SALT, POLYOLS, IODINE, SUGARS = "salt_g", "polyols_g", "iodine_ug", "sugars_g"

#: What a label may say that is no column of the table.
LABEL_ONLY = (SALT, POLYOLS, IODINE)
LABEL_KEYS: tuple[str, ...] = (*KEYS, *LABEL_ONLY)
#: What every entry must say.
ASKED = (ENERGY, PROTEIN, CARBOHYDRATE, FAT)

#: Sodium = salt / 2.5 (Regulation (EU) No 1169/2011, Annex I).
SALT_PER_SODIUM = 2.5

#: kcal in a gram (Regulation (EU) No 1169/2011, Annex XIV); erythritol has none of a polyol's 2.4.
KCAL = {CARBOHYDRATE: 4.0, PROTEIN: 4.0, FAT: 9.0, FIBRE: 2.0}
POLYOL_KCAL = 2.4

#: Grams of fibre per 100 g that a label may be silent about, for the check of energy (project's assumption).
SILENT_FIBRE_G = 15.0

#: Protein, carbohydrate, fat, fibre, water and ash of 100 g, g at most: FAO/INFOODS 2012 calls 97 to 103 good.
SUM_MOST_G = 103.0

#: A smaller dose is printed with too few digits for a check of its energy, g (project's assumption).
SMALL_DOSE_G = 10.0

_GRAMS = {"g": 1.0, "mg": 1e-3, "ug": 1e-6}


class Impossible(ValueError):
    """What a label cannot say. key: where; the message: what was read and what is allowed."""

    def __init__(self, key: str, says: str) -> None:
        super().__init__(says)
        self.key = key


def tolerance(key: str, grams: float) -> float:
    """How far 100 g may truly hold more or less than a label says, g (European Commission guidance 2012 [memory])."""
    if key == FAT:
        return 1.5 if grams < 10.0 else 0.2 * grams if grams <= 40.0 else 8.0
    return 2.0 if grams < 10.0 else 0.2 * grams if grams <= 40.0 else 8.0


def per_100g(label: Mapping[str, float], holds_fibre: bool, check_energy: bool = True) -> dict[str, float]:
    """Nutrient key -> amount in 100 g as the table counts it, of what a label says of 100 g.

    label: by LABEL_KEYS, in the unit of the key. holds_fibre: its carbohydrate has the fibre in it, as outside the
    European Union. Raises Impossible.
    """
    for key in ASKED:
        if key not in label:
            raise Impossible(key, "read nothing; a number is expected, 0 where there is none of it")
    _amounts_fit(label)
    _parts_fit(label, holds_fibre)
    if check_energy:
        _energy_fits(label, holds_fibre)
    held = {key: value for key, value in label.items() if key not in LABEL_ONLY}
    if SALT in label:
        if SODIUM in label:
            raise Impossible(SODIUM, "read beside salt_g; one of the two is expected")
        held[SODIUM] = label[SALT] / SALT_PER_SODIUM * 1000.0
    if not holds_fibre:
        held[CARBOHYDRATE] += label.get(FIBRE, 0.0)
    return held


def _amounts_fit(label: Mapping[str, float]) -> None:
    for key, value in label.items():
        unit = _GRAMS.get(UNITS.get(key, key.rsplit("_", 1)[-1]))
        if value < 0:
            raise Impossible(key, f"read {value:g}; 0 or more is expected")
        if unit is not None and value * unit > 100.0:
            raise Impossible(key, f"read {value:g} in 100 g; 100 g hold no more than 100 g of anything")


def _parts_fit(label: Mapping[str, float], holds_fibre: bool) -> None:
    wholes = [(SUGARS, CARBOHYDRATE), (POLYOLS, CARBOHYDRATE), (SATURATED, FAT), ("monounsaturated_fat_g", FAT)]
    wholes += [("polyunsaturated_fat_g", FAT), *([(FIBRE, CARBOHYDRATE)] if holds_fibre else [])]
    for part, whole in wholes:
        if label.get(part, 0.0) > label[whole] + 1e-9:
            raise Impossible(part, f"read {label[part]:.4g} g, more than the {label[whole]:.4g} g of {whole}")
    counted = [PROTEIN, CARBOHYDRATE, FAT, "water_g", "ash_g", *([] if holds_fibre else [FIBRE])]
    there = {key: label[key] for key in counted if key in label}
    if sum(there.values()) > SUM_MOST_G:
        names = ", ".join(f"{key} {value:.4g}" for key, value in there.items())
        largest = max(there, key=lambda key: there[key])
        raise Impossible(
            largest, f"read {names}: {sum(there.values()):.4g} g in 100 g; at most {SUM_MOST_G:g} g is allowed"
        )


def energy_range(label: Mapping[str, float], holds_fibre: bool) -> tuple[float, float, float]:
    """kcal that the factors make of a label, and the least and most that the tolerances allow."""
    fibre = label.get(FIBRE, 0.0)
    amounts = {key: label[key] for key in (CARBOHYDRATE, PROTEIN, FAT)} | {FIBRE: fibre}
    if holds_fibre:
        amounts[CARBOHYDRATE] -= fibre
    polyols = label.get(POLYOLS, 0.0)
    kcal = sum(KCAL[key] * amounts[key] for key in amounts) - (KCAL[CARBOHYDRATE] - POLYOL_KCAL) * polyols
    slack = 1.0 + sum(KCAL[key] * tolerance(key, amounts[key]) for key in amounts if amounts[key] > 0)
    least, most = kcal - slack - POLYOL_KCAL * polyols, kcal + slack
    if holds_fibre:
        # Outside the European Union a gram of fibre may be printed as anything from none to carbohydrate's own 4 kcal.
        least, most = least - KCAL[FIBRE] * fibre, most + KCAL[FIBRE] * fibre
    if FIBRE not in label:
        left = max(0.0, 100.0 - sum(amounts.values()))
        most += KCAL[FIBRE] * min(left, SILENT_FIBRE_G) * (0.0 if holds_fibre else 1.0)
    return kcal, max(0.0, least), most


def _energy_fits(label: Mapping[str, float], holds_fibre: bool) -> None:
    kcal, least, most = energy_range(label, holds_fibre)
    if not least <= label[ENERGY] <= most:
        names = {CARBOHYDRATE: "carbohydrate", PROTEIN: "protein", FAT: "fat", FIBRE: "fibre"}
        there = ", ".join(f"{label[key]:.4g} g {name}" for key, name in names.items() if key in label)
        kj = label[ENERGY] / 4.184
        doubt = ": was it kJ?" if least <= kj <= most else ""
        raise Impossible(
            ENERGY,
            f"read {label[ENERGY]:.4g} kcal in 100 g, but {there} make about {kcal:.0f} kcal; "
            f"{least:.0f} to {most:.0f} kcal is allowed{doubt}",
        )
