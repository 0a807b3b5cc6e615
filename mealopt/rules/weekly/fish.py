"""Fish for those who eat it."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.rules import weights
from mealopt.rules.weekly.registry import WeekRow, WeekWishes, weekly

#: Grams of fish from which on a day counts as one with fish (project's assumption: half of a 140 g portion and a bit).
PORTION_G = 80.0

SOURCE = "[memory] UK and US dietary guidance: two portions of fish a week, one of them oily"


@weekly("fish")
def fish(week: WeekWishes) -> Iterator[WeekRow]:
    """Have fish on some days and oily fish on one, where it is eaten at all."""
    if not week.fish:
        return
    for name, word, least in (("fish", "fish", week.fish_least), ("oily fish", "oily_fish", week.oily_fish_least)):
        days = week.least(least)
        if days > 0:
            yield WeekRow(
                name,
                f"{name} on at least {days:.0f} day{'s' if days > 1 else ''}, {PORTION_G:g} g or more",
                "days",
                least=days,
                unit="days",
                charge=weights.WEEK_TIME,
                per_gram=lambda food, word=word: float(word in food.counts),  # type: ignore[misc]
                portion=PORTION_G,
                source=SOURCE,
            )
