"""Pulses on some days."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.rules import weights
from mealopt.rules.weekly.registry import WeekRow, WeekWishes, weekly

#: Grams of cooked pulses from which on a day counts as one with pulses ([memory] UK guidance: 80 g is a portion).
PORTION_G = 80.0


@weekly("pulses")
def pulses(week: WeekWishes) -> Iterator[WeekRow]:
    """Have a portion of pulses on some days."""
    days = week.least(week.pulses_least)
    if days > 0:
        yield WeekRow(
            "pulses",
            f"pulses on at least {days:.0f} day{'s' if days > 1 else ''}, {PORTION_G:g} g or more cooked",
            "days",
            least=days,
            unit="days",
            charge=weights.WEEK_TIME,
            per_gram=lambda food: float("pulse" in food.counts),
            portion=PORTION_G,
            source="common practice, no source",
        )
