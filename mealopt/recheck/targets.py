"""What a day was planned to, against what its food holds."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.core.nutrients import ENERGY, FRUIT_VEGETABLE, PROTEIN, TARGETED
from mealopt.documents.plan import Meal, PlanDay
from mealopt.recheck.facts import Facts
from mealopt.recheck.sums import Books, day_sums, meal_sums
from mealopt.recheck.tolerances import ENERGY_SHARE, slack
from mealopt.recheck.words import amount, at_meal

#: No day's protein floor lies lower: g per kg of body mass (README, the case file: protein_g_per_kg from 1.2; and,
#: 1.2 g/kg on the eve of a long event), or above 30 % body fat 1.2 g per kg of fat-free mass.
PROTEIN_LEAST_G_PER_KG = 1.2
HIGH_BODY_FAT_PERCENT = 30.0


def broken_targets(day: PlanDay, books: Books) -> Iterator[str]:
    """Every band of the day, the energy's nearness to its aim, the protein floor, and bands of the athlete's own."""
    meals = meal_sums(day, books)
    sums = day_sums(meals)
    for key, band in day.targets.items():
        if key in day.missed or _unknown(key, books):
            continue
        least, most = band.least, band.most
        if key == ENERGY and band.aim is not None:
            least = band.aim * (1 - ENERGY_SHARE) if least is None else least
            most = band.aim * (1 + ENERGY_SHARE) if most is None else most
        yield from _outside(f"{day.day}, the whole day", key, sums.get(key, 0.0), least, most)
    for key in TARGETED:
        if key not in day.targets:
            yield f"{day.day}: there is no target for {key}"
    if books.facts is not None:
        yield from _protein_floor(day, books.facts)
        yield from _own_bands(day, meals, books)


def _outside(place: str, key: str, value: float, least: float | None, most: float | None) -> Iterator[str]:
    if least is not None and value < least - slack(least):
        yield f"{place}: {amount(key, value)}, at least {least:.6g} promised"
    if most is not None and value > most + slack(most):
        yield f"{place}: {amount(key, value)}, at most {most:.6g} promised"


def _protein_floor(day: PlanDay, facts: Facts) -> Iterator[str]:
    band = day.targets.get(PROTEIN)
    if band is None or PROTEIN in day.missed:
        return
    fat = facts.athlete.body_fat_percent
    share = 1.0 - fat / 100.0 if fat is not None and fat > HIGH_BODY_FAT_PERCENT else 1.0
    own = [entry.least for entry in facts.goal.band if entry.nutrient == PROTEIN and entry.least is not None]
    floor = min([PROTEIN_LEAST_G_PER_KG * facts.athlete.mass_kg * share, *own])
    if band.least is None or band.least < floor - slack(floor):
        said = "none" if band.least is None else f"{band.least:.6g} g"
        yield f"{day.day}: its protein floor is {said}, at least {floor:.6g} g for this athlete"


def _own_bands(day: PlanDay, meals: list[dict[str, float]], books: Books) -> Iterator[str]:
    """Bands that the case sets for one kind of slot, or for one meal by its number."""
    assert books.facts is not None
    for band in books.facts.goal.band:
        if band.day not in (None, day.day) or not (band.slot or band.meal):
            continue
        if band.nutrient in day.missed or _unknown(band.nutrient, books):
            continue
        for meal, sums in zip(day.meals, meals, strict=True):
            meant = meal.slot == band.slot if band.slot else _case_number(day, meal) == band.meal
            if meant and not meal.eaten and not books.is_settled(day, meal):
                place = f"{at_meal(day, meal)}, a band of your own"
                yield from _outside(place, band.nutrient, sums.get(band.nutrient, 0.0), band.least, band.most)


def _case_number(day: PlanDay, meal: Meal) -> int | None:
    """The meal's number by the case: a day that was planned anew counts its meals otherwise."""
    return meal.number if day.now is None else meal.case_number


def _unknown(key: str, books: Books) -> bool:
    """Whether it cannot be told: only the pantry knows what counts as fruit or vegetable."""
    return key == FRUIT_VEGETABLE and books.pantry is None
