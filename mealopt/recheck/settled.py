"""Meals that the case settles: each stands at its time, with just the foods, dish or energy that the case asks for."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.documents.plan import Meal, PlanDay
from mealopt.recheck.facts import CaseFixed
from mealopt.recheck.sums import Books
from mealopt.recheck.tolerances import grams_same
from mealopt.recheck.words import at_meal


def broken_settled(day: PlanDay, books: Books) -> Iterator[str]:
    """Every settled meal of the day against what the case says of it."""
    fixed = books.facts.kitchen.fixed if books.facts else ()
    times = {meal.time for meal in day.meals if meal.slot != "during"} | {entry.time for entry in day.skipped}
    for entry in fixed:
        if entry.day == day.day and entry.time not in times:
            yield f"{day.day}: the meal that is settled for {entry.time} is not there"
    for meal in day.meals:
        settled = books.settled(day, meal)
        if settled is not None and meal.slot != "during":
            yield from (f"{at_meal(day, meal)}, which is settled: {says}" for says in _differs(meal, settled))


def _differs(meal: Meal, settled: CaseFixed) -> Iterator[str]:
    if settled.dish is not None and meal.dish_id != settled.dish:
        yield f"the dish is {meal.dish_id}, not {settled.dish}"
    if settled.energy_kcal is not None and meal.items:
        yield "only its energy is known, but foods stand in it"
    if settled.energy_kcal is not None and not any("only its energy is known" in note for note in meal.notes):
        yield "its notes do not say that only its energy is known"
    if settled.foods is None:
        return
    asked = settled.grams
    written: dict[str, float] = {}
    for item in meal.items:
        written[item.food] = written.get(item.food, 0.0) + item.grams
    for food in dict.fromkeys((*asked, *written)):
        if not grams_same(written.get(food, 0.0), asked.get(food, 0.0)):
            yield f"{written.get(food, 0.0):g} g of {food}, not {asked.get(food, 0.0):g} g"
