"""Made-up weeks: days eaten by hand, and what a family of the week says of them."""

from __future__ import annotations

from typing import Any

from mealopt.menu.plates import Choice
from mealopt.rules.weekly.registry import WeekRow, WeekWishes, week_families
from mealopt.rules.weekly.shares import EatenMeal, charged, day_shares, lacking, value
from tests.rules import tiny

Day = list[EatenMeal]


def meal(slot: str, dish: str, **grams: float) -> EatenMeal:
    """A meal without foods of its own, or with foods by name that count as nothing."""
    return EatenMeal(slot, dish, tuple((tiny.food(name), amount) for name, amount in grams.items()))


def eaten(*foods: tuple[Choice, float], slot: str = "lunch", dish: str = "dish") -> Day:
    """A day of one meal of these foods and grams."""
    return [EatenMeal(slot, dish, foods)]


def rows(name: str, **wishes: Any) -> list[WeekRow]:
    """The rows of one family of the week."""
    (family,) = [entry for entry in week_families() if entry.name == name]
    return list(family.make(WeekWishes(**wishes)))


def missed(name: str, days: list[Day], /, **wishes: Any) -> dict[str, float]:
    """Row -> units by which it is missed, of the rows that are."""
    found = rows(name, **({"days": len(days)} | wishes))
    shares = [day_shares(found, day) for day in days]
    return {row.name: short for row in found if (short := lacking(row, shares)) > 0}


def points(name: str, days: list[Day], /, **wishes: Any) -> float:
    """Points that the family charges."""
    found = rows(name, **({"days": len(days)} | wishes))
    return charged(found, [day_shares(found, day) for day in days])


def comes_out(name: str, days: list[Day], /, **wishes: Any) -> float:
    """The number of the family's first row."""
    row = rows(name, **({"days": len(days)} | wishes))[0]
    return value(row, [day_shares([row], day) for day in days])
