"""What a day's split is asked to hold: protein, fat and carbohydrate by the case, the body and safety."""

from __future__ import annotations

from dataclasses import dataclass

from mealopt.people.case import Case
from mealopt.targets.body import Body
from mealopt.targets.coefficients import (
    CARBOHYDRATE_LEAST,
    CARBOHYDRATE_MOST,
    CARBOHYDRATE_REFERENCE,
    EVE_PROTEIN,
    FAT_AIM,
    FAT_AIM_SHARE,
    FAT_EVE_SHARE,
    FAT_KCAL,
    FAT_LEAST,
    FAT_LEAST_SHARE,
    PROTEIN_DEFICIT_LEAST,
    PROTEIN_DEFICIT_MOST,
    PROTEIN_LEAN_ABOVE,
    PROTEIN_LEAST,
    PROTEIN_MAINTENANCE,
    PROTEIN_MAINTENANCE_MOST,
    PROTEIN_MOST,
    PROTEIN_PER_LEAN,
)
from mealopt.targets.eve import eve_carbohydrate_per_kg
from mealopt.targets.macros import Wishes


@dataclass(frozen=True, slots=True)
class Kind:
    """What kind of day it is, as far as the split cares."""

    deficit: bool = False
    eve: bool = False
    maintenance_only: bool = False


def protein_wish(case: Case, body: Body, kind: Kind) -> tuple[float, str, tuple[str, ...]]:
    """The day's protein floor, g, how it came about, and notes."""
    asked = case.goal.protein_g_per_kg
    per_kg, notes = asked, []
    if kind.eve:
        return EVE_PROTEIN * body.mass_kg, f"{EVE_PROTEIN:g} g/kg before a long event x {body.mass_kg:g} kg", ()
    if kind.maintenance_only and per_kg > PROTEIN_MAINTENANCE:
        per_kg = float(PROTEIN_MAINTENANCE)
        notes.append(f"Protein is {per_kg:g} g/kg, not {asked:g}: no high-protein plan with these cautions")
    if kind.deficit:
        per_kg = min(max(per_kg, float(PROTEIN_DEFICIT_LEAST)), float(PROTEIN_DEFICIT_MOST))
        if per_kg != asked:
            notes.append(f"Protein is {per_kg:g} g/kg, not {asked:g}: in a deficit it is 1.8 to 2.2")
    floor, how = per_kg * body.mass_kg, f"{per_kg:g} g/kg x {body.mass_kg:g} kg"
    by_lean = PROTEIN_PER_LEAN * body.fat_free_kg
    if body.fat_percent > PROTEIN_LEAN_ABOVE and by_lean < floor:
        mark = "" if body.fat_given else " (estimated)"
        floor, how = by_lean, f"{PROTEIN_PER_LEAN:g} g/kg x {body.fat_free_kg:.1f} kg fat-free mass{mark}"
        notes.append(f"Protein goes by fat-free mass, because body fat is over {PROTEIN_LEAN_ABOVE:g} %{mark}")
    return floor, how, tuple(notes)


def wishes(case: Case, body: Body, energy_kcal: float, protein_floor: float, kind: Kind) -> Wishes:
    """The split's wishes of one day, g."""
    mass = body.mass_kg
    share = FAT_EVE_SHARE if kind.eve else FAT_LEAST_SHARE
    fat_least = FAT_LEAST * mass
    if kind.eve:
        fat_aim = max(fat_least, share * energy_kcal / FAT_KCAL)
    elif case.goal.fat_g_per_kg is not None:
        fat_aim = case.goal.fat_g_per_kg * mass
    else:
        fat_aim = max(FAT_AIM * mass, FAT_AIM_SHARE * energy_kcal / FAT_KCAL)
    least = max(CARBOHYDRATE_LEAST * mass, float(CARBOHYDRATE_REFERENCE))
    if kind.eve:
        least = eve_carbohydrate_per_kg(mass) * mass
    return Wishes(
        protein_least=protein_floor,
        protein_most=(PROTEIN_MAINTENANCE_MOST if kind.maintenance_only else PROTEIN_MOST) * mass,
        protein_give=PROTEIN_LEAST * mass,
        fat_aim=fat_aim,
        fat_least=fat_least,
        fat_least_share=float(share),
        carbohydrate_least=least,
        carbohydrate_most=max(CARBOHYDRATE_MOST * mass, least),
    )
