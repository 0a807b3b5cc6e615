"""Fat over the week."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.core.nutrients import ENERGY, FAT
from mealopt.rules import weights
from mealopt.rules.weekly.registry import Counted, WeekRow, WeekWishes, weekly

#: kcal of a gram of fat (Regulation (EU) 1169/2011, Annex XIV).
KCAL_PER_GRAM = 9.0

#: kcal that count as a unit of the row: one per cent of a day or so.
UNIT_KCAL = 25.0


@weekly("fat of the week")
def fat(week: WeekWishes) -> Iterator[WeekRow]:
    """Keep fat at its least share of the week's energy, told as the kcal of fat above that share."""
    share = week.fat_least_percent / 100.0

    def above(food: Counted) -> float:
        return KCAL_PER_GRAM * food.per_gram.get(FAT, 0.0) - share * food.per_gram.get(ENERGY, 0.0)

    yield WeekRow(
        "fat",
        f"fat at least {week.fat_least_percent:g} % of the energy",
        "sum",
        least=0.0,
        unit="kcal",
        charge=weights.WEEK_PERCENT / UNIT_KCAL,
        per_gram=above,
        source="[memory] acceptable macronutrient distribution range, adults: 20-35 % of energy",
        adds=False,
    )
