"""Meals before sessions: the limits that the day's clock asks for, found again, and whether each meal keeps them.

Before a session, the project's steps: fibre at most 2 / 4 / 6 / 8 g and fat at most 5 / 10 / 15 / 20 g in a meal that
ends 0-1 / 1-2 / 2-3 / 3-4 h before; at most 300 kcal under 1 h and 500 under 2 h; all steps for runs, hard work and
races, the first two for other kinds, none for easy work under 45 min. The step values are the project's assumption.
"""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.core.clock import minutes_of
from mealopt.core.nutrients import ENERGY, FAT, FIBRE
from mealopt.documents.plan import Meal, PlanDay
from mealopt.recheck.facts import Ahead, sessions_ahead
from mealopt.recheck.sums import Books, meal_sums
from mealopt.recheck.tolerances import slack
from mealopt.recheck.words import amount, at_meal


def hours_limited(session: Ahead) -> int:
    """For how many hours before a session its meals are limited."""
    if session.effort == "easy" and session.ends - session.begins < 45:
        return 0
    if session.kind == "run" or session.effort in ("hard", "race"):
        return 4
    return 2


def limits_before(session: Ahead, meal_ends: int) -> dict[str, float]:
    """What a meal that ends at this minute may hold because of this session; empty where it is free."""
    minutes = session.begins - meal_ends
    if minutes < 0 or minutes >= 60 * hours_limited(session):
        return {}
    whole_hours = minutes // 60
    found = {FIBRE: 2.0 + 2.0 * whole_hours, FAT: 5.0 + 5.0 * whole_hours}
    if minutes < 120:
        found[ENERGY] = 300.0 if minutes < 60 else 500.0
    return found


def broken_windows(day: PlanDay, books: Books) -> Iterator[str]:
    """Each meal within the limits that it carries and those that its hour asks for."""
    ahead = sessions_ahead(books.facts, day.day) if books.facts else []
    for meal, sums in zip(day.meals, meal_sums(day, books), strict=True):
        if meal.eaten or books.is_settled(day, meal):
            continue
        place = at_meal(day, meal)
        for key, most in meal.limits.items():
            if sums.get(key, 0.0) > most + slack(most):
                yield f"{place}: {amount(key, sums[key])}, at most {most:g} promised"
        if meal.slot != "during":
            yield from _asked_by_the_clock(place, meal, sums, ahead)
        yield from _foods_out_of_place(place, meal, books)


def _asked_by_the_clock(place: str, meal: Meal, sums: dict[str, float], ahead: list[Ahead]) -> Iterator[str]:
    for session in ahead:
        for key, most in limits_before(session, minutes_of(meal.ends)).items():
            carried = meal.limits.get(key)
            # The energy limit may stand in the meal's own room instead; what counts is the energy itself.
            if key != ENERGY and (carried is None or carried > most + slack(most)):
                said = "no limit" if carried is None else f"a limit of {carried:g}"
                yield f"{place}: {said} for {key}; {most:g} is the most before {session.words}"
            if sums.get(key, 0.0) > most + slack(most):
                yield f"{place}: {amount(key, sums[key])}, at most {most:g} before {session.words}"


def _foods_out_of_place(place: str, meal: Meal, books: Books) -> Iterator[str]:
    """What may not stand in a limited meal: foods whose value is unknown, and those that settle badly."""
    for item in meal.items:
        per_100g = books.per_100g(item)
        for key in meal.limits:
            if per_100g is not None and key not in per_100g:
                yield f"{place}: {item.food} is of unknown {key}, which is limited here"
        food = books.pantry.foods.get(item.food) if books.pantry else None
        if meal.limits and food is not None and food.settles == "badly":
            yield f"{place}: {item.food} settles badly before a session"
