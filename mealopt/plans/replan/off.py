"""How far a day planned anew is from its numbers: over the whole day, and in the meals for which its case has bands."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from mealopt.core.bands import Band
from mealopt.core.clock import on_the_clock
from mealopt.documents.plan import Meal
from mealopt.people.case import Case, OwnBand

#: What rounding may change in a total, as a recheck allows it: a share of the limit, and in the nutrient's unit.
SHARE, LEAST = 4e-4, 1e-4


@dataclass(frozen=True, slots=True)
class Off:
    """How far a total is from its band, in the nutrient's unit. short: below its least; otherwise over its most.

    at: the meal, in words, where it is a band for one; "" for the whole day.
    """

    key: str
    by: float
    short: bool
    at: str = ""


def off_bands(totals: Mapping[str, float], bands: Mapping[str, Band]) -> tuple[Off, ...]:
    """The totals that lie outside their bands."""
    return tuple(one for key, band in bands.items() for one in _off(key, totals.get(key, 0.0), band.least, band.most))


def off_own(case: Case, day: str, meals: Sequence[Meal]) -> tuple[Off, ...]:
    """Meals to come that lie outside the bands that the case has for them."""
    settled = {fixed.time for fixed in case.kitchen_on(day).fixed}
    found = []
    for meal in meals:
        if meal.eaten or (meal.time in settled and meal.slot != "during"):
            continue
        at = f"{meal.slot} at {on_the_clock(meal.time)}"
        for own in case.goal.band:
            if own.day in (None, day) and _is_for(own, meal):
                found += list(_off(own.nutrient, meal.totals.get(own.nutrient, 0.0), own.least, own.most, at))
    return tuple(found)


def _is_for(own: OwnBand, meal: Meal) -> bool:
    return own.slot == meal.slot if own.slot is not None else own.meal is not None and own.meal == meal.case_number


def _off(key: str, value: float, least: float | None, most: float | None, at: str = "") -> Iterator[Off]:
    if least is not None and value < least * (1 - SHARE) - LEAST:
        yield Off(key, least - value, True, at)
    if most is not None and value > most * (1 + SHARE) + LEAST:
        yield Off(key, value - most, False, at)
