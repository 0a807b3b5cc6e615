"""Vitamins and minerals over the week."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.core.nutrients import LABELS, UNITS
from mealopt.rules import weights
from mealopt.rules.weekly.registry import WeekRow, WeekWishes, weekly

SOURCE = "Dietary Reference Intakes, adults"

#: Known for too little of the food, or beyond what ordinary food holds: told, and never paid for with other dishes.
TOLD_ONLY = frozenset({"vitamin_d_ug", "choline_mg"})


@weekly("vitamins and minerals")
def micronutrients(week: WeekWishes) -> Iterator[WeekRow]:
    """Reach the reference intakes in the week's mean; what lacks is charged by the per cent."""
    for key, reference in week.references.items():
        least = reference * week.reach
        if least > 0:
            yield WeekRow(
                key,
                f"{LABELS[key]} at least {least:g} {UNITS[key]} a day in the mean",
                "sum",
                least=least,
                unit=UNITS[key],
                charge=0.0 if key in TOLD_ONLY else weights.WEEK_PERCENT * 100.0 / least,
                per_gram=lambda food, key=key: food.per_gram.get(key, 0.0) / week.days,  # type: ignore[misc]
                key=key,
                source=SOURCE,
            )


@weekly("preformed vitamin A")
def retinol(week: WeekWishes) -> Iterator[WeekRow]:
    """Hold preformed vitamin A under its upper level in the week's mean, so that liver comes seldom."""
    most = week.retinol_most_ug
    yield WeekRow(
        "retinol_ug",
        f"preformed vitamin A at most {most:,.0f} ug a day in the mean",
        "sum",
        most=most,
        unit="ug",
        charge=5.0 * weights.WEEK_PERCENT * 100.0 / most,
        per_gram=lambda food: food.per_gram.get("retinol_ug", 0.0) / week.days,
        key="retinol_ug",
        source=SOURCE,
    )
