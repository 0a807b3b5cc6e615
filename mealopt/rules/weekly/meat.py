"""Red meat within what guidance holds."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.rules import weights
from mealopt.rules.weekly.registry import WeekRow, WeekWishes, weekly

SOURCE = "[memory] World Cancer Research Fund: red meat at most about 350-500 g cooked a week"


@weekly("red meat")
def red_meat(week: WeekWishes) -> Iterator[WeekRow]:
    """Hold the grams of red meat as eaten."""
    most = week.most(week.red_meat_most_g)
    yield WeekRow(
        "red meat",
        f"red meat at most {most:.0f} g cooked",
        "sum",
        most=most,
        unit="g",
        charge=weights.WEEK_GRAMS,
        per_gram=lambda food: float("red_meat" in food.counts),
        source=SOURCE,
    )
