"""A day that was planned anew: what is past is marked as eaten, and what it says it misses is really missed."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.core.clock import minutes_of
from mealopt.core.nutrients import ENERGY, PROTEIN
from mealopt.documents.plan import PlanDay
from mealopt.recheck.facts import sessions_ahead
from mealopt.recheck.sums import Books, day_sums, meal_sums
from mealopt.recheck.tolerances import ENERGY_SHARE, slack
from mealopt.recheck.windows import limits_before
from mealopt.recheck.words import amount, at_meal

#: Share of the energy first planned that a meal keeps (README, replan).
KEPT_ENERGY = 0.75


def broken_past(day: PlanDay, books: Books) -> Iterator[str]:
    """Each meal on its side of now, and each target that the day misses outside its band."""
    if day.now is None:
        yield from (f"{at_meal(day, meal)}: it is eaten, but the day says no time of now" for meal in day.meals
                    if meal.eaten)  # fmt: skip
        return
    now = minutes_of(day.now)
    for meal in day.meals:
        past = minutes_of(meal.time) < now
        if meal.eaten and not past:
            yield f"{at_meal(day, meal)}: it is eaten, and begins after {day.now}"
        if past and not meal.eaten:
            yield f"{at_meal(day, meal)}: it lies before {day.now}, and is not eaten"
    meals = meal_sums(day, books)
    yield from _kept(day, meals, books)
    sums = day_sums(meals)
    for key in day.missed:
        if key in day.targets and key in sums and _within(day, key, sums[key]) and not _own(day, key, books):
            yield f"{day.day}: it says that {key} is missed, and {sums[key]:.6g} lies within its band"


def _kept(day: PlanDay, meals: list[dict[str, float]], books: Books) -> Iterator[str]:
    """A meal that remains keeps three quarters of the energy that it was first planned with, and its protein, but
    where a session ahead limits it."""
    ahead = sessions_ahead(books.facts, day.day) if books.facts else []
    for meal, sums in zip(day.meals, meals, strict=True):
        if meal.eaten or any(limits_before(session, minutes_of(meal.ends)) for session in ahead):
            continue
        for key, share in ((ENERGY, KEPT_ENERGY), (PROTEIN, 1.0)):
            least = share * meal.planned.get(key, 0.0)
            if sums.get(key, 0.0) < least - 0.002 * least - slack(least):
                yield f"{at_meal(day, meal)}: {amount(key, sums.get(key, 0.0))}, at least {least:.6g} was to remain"


def _within(day: PlanDay, key: str, value: float) -> bool:
    band = day.targets[key]
    least, most = band.least, band.most
    if key == ENERGY and band.aim is not None:
        least = band.aim * (1 - ENERGY_SHARE) if least is None else least
        most = band.aim * (1 + ENERGY_SHARE) if most is None else most
    # Nearer to a limit than rounding can tell, either may be said.
    above = least is None or value >= least + slack(least)
    below = most is None or value <= most - slack(most)
    return above and below


def _own(day: PlanDay, key: str, books: Books) -> bool:
    """Whether the case sets a band of its own for it in some meal, which may be what is missed."""
    own = books.facts.goal.band if books.facts else ()
    return any(band.nutrient == key and (band.slot or band.meal) and band.day in (None, day.day) for band in own)
