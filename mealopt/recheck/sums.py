"""The plan's food added up again, from `source` and `grams` with the table alone."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from mealopt.core.nutrients import FRUIT_VEGETABLE, KEYS
from mealopt.documents.plan import Item, Meal, PlanDay
from mealopt.recheck.facts import CaseFixed, Facts
from mealopt.table.composition import Composition
from mealopt.table.pantry import Pantry

#: Juice counts as fruit or vegetable once a day: one portion of 150 ml at most [common practice, no source].
JUICE_PORTION_G = 150.0

_TABLE = "USDA-SR28:"
OWN = "own:"


@dataclass(frozen=True, slots=True)
class Books:
    """What a plan is held against: the table, the pantry where there is one, the case where it can be read.

    own: source -> what 100 g hold, of the athlete's own foods.
    """

    composition: Composition
    pantry: Pantry | None
    facts: Facts | None
    own: Mapping[str, Mapping[str, float]] = field(default_factory=dict)

    def per_100g(self, item: Item) -> Mapping[str, float] | None:
        """What 100 g of an item hold; None where its source is neither in the table nor among the athlete's own."""
        if item.source.startswith(OWN):
            return self.own.get(item.source)
        row = self.composition.rows.get(item.source.removeprefix(_TABLE)) if item.source.startswith(_TABLE) else None
        return None if row is None else row.per_100g

    def counts(self, item: Item) -> tuple[str, ...]:
        """What the pantry counts an item as."""
        food = self.pantry.foods.get(item.food) if self.pantry else None
        return food.counts if food else ()

    def settled(self, day: PlanDay, meal: Meal) -> CaseFixed | None:
        """What the case itself settles at this meal's time; None where nothing, and for what was eaten."""
        if meal.eaten:
            return None
        fixed = self.facts.kitchen.fixed if self.facts else ()
        return next((entry for entry in fixed if entry.day == day.day and entry.time == meal.time), None)

    def settled_kcal(self, day: PlanDay, meal: Meal) -> float | None:
        """The energy of a meal of which only that is known: as the case settles it, or as it was eaten; None else."""
        if meal.eaten and not meal.items:
            return meal.totals.get("energy_kcal", 0.0)
        entry = self.settled(day, meal)
        return None if entry is None or meal.items else entry.energy_kcal

    def is_settled(self, day: PlanDay, meal: Meal) -> bool:
        """Whether the case itself settles what this meal is."""
        return self.settled(day, meal) is not None


def meal_sums(day: PlanDay, books: Books) -> list[dict[str, float]]:
    """Each meal's nutrients, those that are known for one of its foods at least; fruit and vegetables with a pantry."""
    found = []
    juice_so_far = 0.0
    for meal in day.meals:
        sums = _known(meal.items, books)
        kcal = books.settled_kcal(day, meal)
        if kcal is not None:
            sums |= of_energy_alone(kcal)
        if books.pantry is not None:
            juice = math.fsum(item.grams for item in meal.items if "juice" in books.counts(item))
            counted = min(juice_so_far + juice, JUICE_PORTION_G) - min(juice_so_far, JUICE_PORTION_G)
            juice_so_far += juice
            plants = (item for item in meal.items if {"fruit", "vegetable"}.intersection(books.counts(item)))
            sums[FRUIT_VEGETABLE] = math.fsum([counted, *(item.grams for item in plants)])
        found.append(sums)
    return found


def of_energy_alone(kcal: float) -> dict[str, float]:
    """What a settled meal of which only the energy is known is taken to hold, by the split that the plan states:
    17 % of its energy protein and 48 % carbohydrate at 4 kcal/g, 35 % fat with 10 % saturated at 9 kcal/g
    [common practice, no source]."""
    return {
        "energy_kcal": kcal,
        "protein_g": kcal * 17 / 400,
        "carbohydrate_g": kcal * 48 / 400,
        "fat_g": kcal * 35 / 900,
        "saturated_fat_g": kcal * 10 / 900,
    }


def day_sums(meals: list[dict[str, float]]) -> dict[str, float]:
    """The day's nutrients: of all meals, those in sessions included."""
    keys = {key for sums in meals for key in sums}
    return {key: math.fsum(sums[key] for sums in meals if key in sums) for key in keys}


def known_shares(day: PlanDay, books: Books) -> dict[str, float]:
    """Nutrient -> share of the day's food, by grams, for which the table knows it; those below 1 only."""
    items = [item for meal in day.meals for item in meal.items]
    whole = math.fsum(item.grams for item in items)
    shares = {}
    for key in KEYS:
        blank = [item.grams for item in items if key not in (books.per_100g(item) or {})]
        if blank:
            shares[key] = 1.0 - math.fsum(blank) / whole
    return shares


def _known(items: Iterable[Item], books: Books) -> dict[str, float]:
    parts: dict[str, list[float]] = {}
    for item in items:
        for key, per_100g in (books.per_100g(item) or {}).items():
            parts.setdefault(key, []).append(item.grams * per_100g / 100.0)
    return {key: math.fsum(values) for key, values in parts.items()}
