"""No dish again and again."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.rules import weights
from mealopt.rules.weekly.registry import WeekRow, WeekWishes, weekly

COMMON = "common practice, no source"


@weekly("main dishes that differ")
def main_dishes(week: WeekWishes) -> Iterator[WeekRow]:
    """Serve one dish as lunch or dinner so many times at most."""
    yield WeekRow(
        "main dish",
        f"a main dish at most {times(week.main_dish_most)}",
        "times",
        most=float(week.main_dish_most),
        unit="times",
        charge=weights.WEEK_TIME,
        meal=lambda slot, dish: dish if slot in ("lunch", "dinner") else None,
        source=COMMON,
    )


@weekly("breakfasts that differ")
def breakfasts(week: WeekWishes) -> Iterator[WeekRow]:
    """Serve one breakfast so many times at most, unless the case wants the same each day."""
    if week.same_breakfast:
        return
    yield WeekRow(
        "breakfast",
        f"a breakfast at most {times(week.breakfast_most)}",
        "times",
        most=float(week.breakfast_most),
        unit="times",
        charge=weights.WEEK_TIME,
        meal=lambda slot, dish: dish if slot == "breakfast" else None,
        source=COMMON,
    )


@weekly("snacks that differ")
def snacks(week: WeekWishes) -> Iterator[WeekRow]:
    """Serve one dish as a snack so many times at most."""
    yield WeekRow(
        "snack",
        f"a snack at most {times(week.snack_most)}",
        "times",
        most=float(week.snack_most),
        unit="times",
        charge=weights.WEEK_TIME,
        meal=lambda slot, dish: dish if slot == "snack" else None,
        source=COMMON,
    )


def times(count: float) -> str:
    """ "once", "twice", "4 times"."""
    return {1: "once", 2: "twice"}.get(round(count), f"{count:.0f} times")
