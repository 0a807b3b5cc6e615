"""No dish again and again."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.rules import weights
from mealopt.rules.weekly.registry import WeekRow, WeekWishes, weekly

COMMON = "common practice, no source"


@weekly("main dishes that differ")
def main_dishes(week: WeekWishes) -> Iterator[WeekRow]:
    """Serve one dish as lunch or dinner so many times at most."""
    yield _again("main dish", week.main_dish_most, "lunch", "dinner")


@weekly("breakfasts that differ")
def breakfasts(week: WeekWishes) -> Iterator[WeekRow]:
    """Serve one breakfast so many times at most, unless the case wants the same each day."""
    if not week.same_breakfast:
        yield _again("breakfast", week.breakfast_most, "breakfast")


@weekly("snacks that differ")
def snacks(week: WeekWishes) -> Iterator[WeekRow]:
    """Serve one dish as a snack so many times at most."""
    yield _again("snack", week.snack_most, "snack")


def _again(name: str, most: int, *slots: str) -> WeekRow:
    """The row of one dish that comes again in these slots."""
    return WeekRow(
        name,
        f"a {name} at most {times(most)}",
        "times",
        most=float(most),
        unit="times",
        charge=weights.WEEK_TIME,
        meal=lambda slot, dish: dish if slot in slots else None,
        source=COMMON,
    )


def times(count: float) -> str:
    """ "once", "twice", "4 times"."""
    return {1: "once", 2: "twice"}.get(round(count), f"{count:.0f} times")
