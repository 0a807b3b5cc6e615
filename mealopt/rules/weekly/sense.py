"""Eggs, nuts and dairy within sense."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.rules import weights
from mealopt.rules.weekly.registry import WeekRow, WeekWishes, weekly


@weekly("eggs, nuts and dairy")
def within_sense(week: WeekWishes) -> Iterator[WeekRow]:
    """Hold the grams of eggs, of nuts, and of milk, yoghurt and cheese together."""
    for name, word, most in (
        ("eggs", "egg", week.eggs_most_g),
        ("nuts", "nut", week.nuts_most_g),
        ("dairy", "dairy", week.dairy_most_g),
    ):
        grams = week.most(most)
        yield WeekRow(
            name,
            f"{name} at most {grams:,.0f} g",
            "sum",
            most=grams,
            unit="g",
            charge=weights.WEEK_GRAMS,
            per_gram=lambda food, word=word: float(word in food.counts),  # type: ignore[misc]
            source="common practice, no source",
        )
