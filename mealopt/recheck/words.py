"""How the recheck speaks of what it finds."""

from __future__ import annotations

from mealopt.core.nutrients import LABELS, UNITS
from mealopt.documents.plan import Meal, PlanDay


def at_meal(day: PlanDay, meal: Meal) -> str:
    """ "tue, meal 3 (lunch at 12:30)"."""
    return f"{day.day}, meal {meal.number} ({meal.slot} at {meal.time})"


def amount(key: str, value: float) -> str:
    """ "12.5 g fibre"."""
    return f"{value:.6g} {UNITS.get(key, '')} {LABELS.get(key, key)}"
