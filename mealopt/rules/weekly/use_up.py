"""Food that is in the house and wants to be eaten."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.rules import weights
from mealopt.rules.weekly.registry import WeekRow, WeekWishes, weekly


def is_of(word: str, name: str, kin: str) -> bool:
    """Whether a food is meant by a word: its name, the beginning of it, or its kin."""
    return word in (name, kin) or name.startswith((f"{word},", f"{word} "))


@weekly("food to use up")
def use_up(week: WeekWishes) -> Iterator[WeekRow]:
    """Eat what the case asks to be used up, in grams as bought."""
    for word, grams in week.use_up.items():
        yield WeekRow(
            f"use up {word}",
            f"{word}: {grams:g} g to use up",
            "sum",
            least=grams,
            unit="g",
            charge=weights.WEEK_USE_UP * 100.0 / grams,
            per_gram=lambda food, word=word: (  # type: ignore[misc]
                week.bought.get(food.name, 1.0) if is_of(word, food.name, food.kin) else 0.0
            ),
            source="the case",
        )
