"""The bands of one day, from its energy: protein, carbohydrate, fat, fibre, saturated fat, fruit and vegetables."""

from __future__ import annotations

from mealopt.core.bands import Band
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FAT, FIBRE, FRUIT_VEGETABLE, PROTEIN, SATURATED
from mealopt.people.case import Case
from mealopt.targets.body import Body
from mealopt.targets.coefficients import (
    COMMON,
    DAY_CLASS_SOURCE,
    ENERGY_BAND,
    FAT_AIM,
    FAT_AIM_SHARE,
    FAT_KCAL,
    FAT_LEAST,
    FAT_MOST_SHARE,
    FRUIT_VEGETABLE_LEAST,
    PROJECT,
    PROTEIN_MAIN_MEAL,
    SATURATED_SHARE,
)
from mealopt.targets.fibre import fibre_band
from mealopt.targets.fuelling import class_minutes, day_class
from mealopt.targets.macros import Split, limits_of, split
from mealopt.targets.model import Step, percent
from mealopt.targets.wishes import Kind, protein_wish, wishes

#: Least protein of a main meal is at most this share of the day's floor, so that three fit into it: [project].
MAIN_MEAL_SHARE = 0.25


def day_bands(
    case: Case, body: Body, day: str, energy: Band, kind: Kind
) -> tuple[dict[str, Band], tuple[Step, ...], tuple[str, ...]]:
    """All bands of a day (keys of core.nutrients.TARGETED, in order), steps and notes. energy: kcal, all three."""
    _, aim, _ = limits_of(energy)
    floor, protein_how, notes = protein_wish(case, body, kind)
    parts = split(energy, wishes(case, body, aim, floor, kind))
    fibre, fibre_step = fibre_band(aim, body.sex, body.age, eve=kind.eve)
    saturated = Band(None, None, SATURATED_SHARE * aim / FAT_KCAL)
    plants = Band() if kind.eve else Band(float(FRUIT_VEGETABLE_LEAST), None, None)
    bands = {
        ENERGY: energy,
        PROTEIN: parts.protein,
        CARBOHYDRATE: parts.carbohydrate,
        FAT: parts.fat,
        FIBRE: fibre,
        SATURATED: saturated,
        FRUIT_VEGETABLE: plants,
    }
    steps = [
        Step("energy", aim, "kcal", f"the sum of the above; {percent(ENERGY_BAND)} either way is met", PROJECT),
        *_split_steps(case, body, day, aim, parts, protein_how, kind),
        fibre_step,
        Step("saturated fat", saturated.most or 0.0, "g",
             f"at most {percent(SATURATED_SHARE)} of {aim:,.0f} kcal / {FAT_KCAL:g}", SATURATED_SHARE.source),
    ]  # fmt: skip
    if not kind.eve:
        how = "at least, of three kinds or more; potatoes not counted, juice once"
        value = float(FRUIT_VEGETABLE_LEAST)
        steps.append(Step("fruit and vegetables", value, "g", how, FRUIT_VEGETABLE_LEAST.source))
    return bands, tuple(steps), (*notes, *parts.notes)


def protein_main_least(body: Body, protein: Band) -> float:
    """Least protein in each main meal, g: 0.25 g/kg, and no more than a quarter of the day's floor."""
    return min(PROTEIN_MAIN_MEAL * body.mass_kg, MAIN_MEAL_SHARE * (protein.least or 0.0))


def class_of_day(case: Case, day: str) -> str:
    """The published carbohydrate class of the day, in words."""
    return day_class(class_minutes(case.sessions_on(day)))[2]


def _split_steps(
    case: Case, body: Body, day: str, aim: float, parts: Split, protein_how: str, kind: Kind
) -> list[Step]:
    protein, fat, carbohydrate = parts.protein.aim or 0.0, parts.fat.aim or 0.0, parts.carbohydrate.aim or 0.0
    fat_how = f"the larger of {FAT_AIM:g} g/kg and {percent(FAT_AIM_SHARE)} of energy"
    if kind.eve:
        fat_how = "the least fat before a long event"
    elif case.goal.fat_g_per_kg is not None:
        fat_how = f"{case.goal.fat_g_per_kg:g} g/kg by the case"
    least, most, words = day_class(class_minutes(case.sessions_on(day)))
    return [
        Step("protein", protein, "g", f"floor: {protein_how}; most {parts.protein.most:.0f} g", COMMON),
        Step("fat", fat, "g",
             f"{fat_how}, within {parts.fat.least:.0f} and {parts.fat.most:.0f} g (most: {percent(FAT_MOST_SHARE)} of "
             f"energy); here {percent(fat * FAT_KCAL / aim)}", FAT_AIM.source + "; least: " + FAT_LEAST.source),
        Step("carbohydrate", carbohydrate, "g",
             f"what remains: ({aim:,.0f} - 4 x {protein:.0f} - 9 x {fat:.0f}) / 4, fibre included; "
             f"{carbohydrate / body.mass_kg:.1f} g/kg", COMMON),
        Step("carbohydrate class", carbohydrate / body.mass_kg, "g/kg",
             f"published for such a day: {words}, {least * body.mass_kg:.0f} to {most * body.mass_kg:.0f} g",
             DAY_CLASS_SOURCE),
    ]  # fmt: skip
