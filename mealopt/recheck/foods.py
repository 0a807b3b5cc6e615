"""Each food of a plan: tied to the table, measured as a kitchen can, allowed to this athlete, and what is bought."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator

from mealopt.core.nutrients import ENERGY
from mealopt.documents.plan import Item, Meal, PlanDay
from mealopt.recheck.facts import CaseKitchen
from mealopt.recheck.sums import OWN, Books
from mealopt.recheck.tolerances import grams_same, slack, whole_steps
from mealopt.recheck.words import at_meal
from mealopt.table.pantry import Food, Pantry

#: From this energy on a day may hold more of a food than its most, in proportion and at most twice (project's
#: assumption).
BIG_DAY_KCAL = 2800.0

#: What each diet leaves out, by what the pantry counts a food as and by the EU's allergens in it: a second reading
#: beside the pantry's own diet label.
_MEAT = frozenset({"red_meat", "processed_meat", "poultry"})
_FISH = frozenset({"fish", "oily_fish", "crustaceans", "molluscs"})
_LEFT_OUT: dict[str, frozenset[str]] = {
    "omnivore": frozenset(),
    "pescatarian": _MEAT,
    "vegetarian": _MEAT | _FISH,
    "vegan": _MEAT | _FISH | {"dairy", "egg", "milk", "eggs"},
}
_LABELS_ALLOWED: dict[str, frozenset[str]] = {
    "omnivore": frozenset({"omnivore", "pescatarian", "vegetarian", "vegan"}),
    "pescatarian": frozenset({"pescatarian", "vegetarian", "vegan"}),
    "vegetarian": frozenset({"vegetarian", "vegan"}),
    "vegan": frozenset({"vegan"}),
}


SALT = "salt"


def broken_foods(day: PlanDay, books: Books) -> Iterator[str]:
    """Every item of the day by itself, and the day's most of each food."""
    for meal in day.meals:
        place = at_meal(day, meal)
        own = meal.eaten or books.is_settled(day, meal)
        if books.facts is not None and not own and _among(meal.dish_id or "", books.facts.kitchen.never):
            yield f"{place}: {meal.dish} is never to be planned"
        for item in meal.items:
            if books.per_100g(item) is None:
                yield f"{place}: {item.food}: the table has no row {item.source}"
            if books.facts is not None and not own and _among(item.food, books.facts.kitchen.never):
                yield f"{place}: {item.food} is never to be planned"
            if books.pantry is not None and not (meal.eaten and item.food not in books.pantry.foods):
                yield from _held_against_the_pantry(place, meal, item, day, books)
    if books.pantry is not None:
        yield from _most_of_the_day(day, books, books.pantry)


def _held_against_the_pantry(place: str, meal: Meal, item: Item, day: PlanDay, books: Books) -> Iterator[str]:
    food = books.pantry.foods.get(item.food) if books.pantry else None
    if food is None:
        yield f"{place}: the pantry has no {item.food}"
        return
    if item.source != (food.ndb if food.ndb.startswith(OWN) else f"USDA-SR28:{food.ndb}"):
        yield f"{place}: {item.food} is tied to row {food.ndb}, not to {item.source}"
    if item.state != food.state:
        yield f"{place}: {item.food} is weighed {food.state}, not {item.state}"
    step_g = food.measure_g * food.step
    if (
        "salt" not in food.counts
        and not meal.eaten
        and not books.is_settled(day, meal)
        and not whole_steps(item.grams, step_g)
    ):
        yield f"{place}: {item.grams:g} g of {item.food} is not a whole number of kitchen steps of {step_g:g} g"
    bought = item.grams / food.yield_factor / (food.edible_percent / 100.0)
    if not grams_same(item.as_bought_g, bought):
        yield f"{place}: {item.food} says {item.as_bought_g:g} g as bought; {bought:.1f} g are needed"
    if books.facts is not None and not meal.eaten:
        said = books.is_settled(day, meal) and any(item.food in note for note in meal.notes)
        broken = () if said else forbidden(food, books.facts.kitchen)
        yield from (f"{place}: {item.food} {why}" for why in broken)


def forbidden(food: Food, kitchen: CaseKitchen) -> Iterator[str]:
    """Why a food may not be given to this athlete."""
    holds = {*food.counts, *food.allergens}
    if food.diet not in _LABELS_ALLOWED[kitchen.diet] or holds & _LEFT_OUT[kitchen.diet]:
        yield f"is not {kitchen.diet}"
    if kitchen.gluten_free and "gluten" in food.allergens:
        yield "holds gluten"
    for allergen in kitchen.avoid_allergens:
        if allergen in food.allergens:
            yield f"holds {allergen}, which is to be avoided"


def _most_of_the_day(day: PlanDay, books: Books, pantry: Pantry) -> Iterator[str]:
    """No more of a food than makes sense, or than the case itself settles; what was eaten already only counts for
    supplements, whose most of a day is one of safety."""
    eaten: dict[str, list[float]] = defaultdict(list)
    settled: dict[str, list[float]] = defaultdict(list)
    past: dict[str, list[float]] = defaultdict(list)
    for meal in day.meals:
        for item in meal.items:
            if item.food == SALT and meal.slot == "during":
                # Salt for sweat goes by what is drunk, and is held to that in `fuel_drink`.
                continue
            (past if meal.eaten else eaten)[item.food].append(item.grams)
            settled[item.food] += [item.grams] if books.is_settled(day, meal) else []
    energy = day.targets.get(ENERGY)
    aim = energy.aim if energy is not None and energy.aim is not None else BIG_DAY_KCAL
    times = min(max(aim / BIG_DAY_KCAL, 1.0), 2.0)
    for name, grams in eaten.items():
        food = pantry.foods.get(name)
        dosed = food is not None and "supplement" in food.counts
        grams = [*grams, *past[name]] if dosed else grams
        grown = math.inf if food is None else food.most_day_g * (1.0 if dosed else times)
        most = grown if dosed else max(grown, math.fsum(settled[name]))
        if math.fsum(grams) > most + slack(most) + 0.05 * len(grams):
            yield f"{day.day}: {math.fsum(grams):g} g of {name}, at most {most:.0f} g in a day like this"


def _among(name: str, listed: tuple[str, ...]) -> bool:
    return name.strip().casefold() in {entry.strip().casefold() for entry in listed}
