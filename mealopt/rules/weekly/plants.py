"""Many different plants."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.rules import weights
from mealopt.rules.weekly.registry import Counted, WeekRow, WeekWishes, weekly

ANIMAL = frozenset({"fish", "oily_fish", "red_meat", "processed_meat", "poultry", "egg", "dairy"})


def plant(food: Counted) -> str | None:
    """The kin of a whole plant food: grain, potato, pulse, vegetable, fruit, nut; white and brown rice are one."""
    return food.kin if "whole_food" in food.counts and not food.counts & ANIMAL else None


@weekly("different plants")
def plants(week: WeekWishes) -> Iterator[WeekRow]:
    """Eat so many different whole plant foods."""
    kinds = week.least(week.plants_least)
    if kinds > 0:
        yield WeekRow(
            "plants",
            f"at least {kinds:.0f} different plant foods",
            "kinds",
            least=kinds,
            unit="kinds",
            charge=weights.WEEK_KIND,
            kind=plant,
            source="common practice, no source",
        )
