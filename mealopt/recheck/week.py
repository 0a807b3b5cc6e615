"""The week's rules counted again from the plan's food, and what is cooked ahead held against days and fridge.

The rules are read off the checks that the plan itself carries: which foods each one counts is written here anew.
"""

from __future__ import annotations

import math
import re
import tomllib
from collections import Counter
from collections.abc import Callable, Iterator
from functools import cache

from mealopt.core.clock import DAYS
from mealopt.core.nutrients import ENERGY, FAT, LABELS, UNITS
from mealopt.documents.plan import Item, Plan, PlanDay, WeekCheck
from mealopt.recheck.sums import Books, day_sums, meal_sums
from mealopt.recheck.tolerances import same, slack
from mealopt.recheck.words import at_meal
from mealopt.table.files import foods_folder

#: Grams from which on a day counts as one with fish or with pulses.
PORTION_G = 80.0

#: What no whole plant food counts as.
_OF_ANIMALS = frozenset({"fish", "oily_fish", "red_meat", "processed_meat", "poultry", "egg", "dairy"})

#: (words, unit) -> nutrient key: some nutrients stand in two columns of two units.
_BY_LABEL = {(label, UNITS[key]): key for key, label in LABELS.items()}

#: Rule's words -> what the pantry counts the food as whose grams are added, or whose days are counted.
_GRAMS = {"red meat": "red_meat", "eggs": "egg", "nuts": "nut", "dairy": "dairy"}
_DAYS = {"fish": "fish", "oily fish": "oily_fish", "pulses": "pulse"}


def broken_week(plan: Plan, books: Books) -> Iterator[str]:
    """Each of the week's checks, its energy, and meals that were cooked on an earlier day."""
    for check in plan.week.checks:
        yield from _check(check, plan, books)
    yield from _broken_cooking_ahead(plan)
    energy = plan.week.energy
    if energy is not None:
        aims = math.fsum(energy.aims.values())
        if abs(aims - energy.aims_kcal) > 0.5 or abs(energy.aims_kcal - energy.expected_kcal) > 0.5:
            yield (
                f"the week's energy does not balance: its days' aims are {aims:.1f} kcal, it says "
                f"{energy.aims_kcal:.1f} and {energy.expected_kcal:.1f}"
            )
        eaten = math.fsum(day_sums(meal_sums(day, books)).get(ENERGY, 0.0) for day in plan.days)
        if not same(energy.eaten_kcal, eaten):
            yield f"the week says {energy.eaten_kcal:.0f} kcal eaten, its foods hold {eaten:.0f}"


#: Words of a rule on dishes that come again -> the slots that it counts.
_SLOTS: dict[str, tuple[str, ...]] = {
    "a main dish": ("lunch", "dinner"),
    "a breakfast": ("breakfast",),
    "a snack": ("snack",),
}


def _check(check: WeekCheck, plan: Plan, books: Books) -> Iterator[str]:
    # What is met but for rounding may be told either way; what is met as it is written may not be told as missed.
    let = 0.0 if not check.met else 1.0
    above = check.least is None or check.value >= check.least - let * slack(check.least)
    below = check.most is None or check.value <= check.most + let * slack(check.most)
    if check.met != (above and below):
        yield f"the week's check {check.rule!r} says met = {str(check.met).lower()}, its numbers say otherwise"
    found = _found(check, plan, books)
    if found is not None and not same(check.value, found):
        yield f"the week's check {check.rule!r} says {check.value:g}; counted again it is {found:g}"


def _found(check: WeekCheck, plan: Plan, books: Books) -> float | None:
    """The number of a rule counted again; None where the pantry is needed and not there, or the rule is another's."""
    rule = check.rule
    words = re.split(r" (?:at most|on at least|at least) |: ", rule)[0]
    if words in _SLOTS:
        return float(max(_times(plan, _SLOTS[words]).values(), default=0))
    if words == "fat":
        fat, energy = (
            math.fsum(day_sums(meal_sums(day, books)).get(key, 0.0) for day in plan.days) for key in (FAT, ENERGY)
        )
        return 100.0 * 9.0 * fat / energy if energy else 0.0
    key = "retinol_ug" if words == "preformed vitamin A" else _BY_LABEL.get((words, check.unit), "")
    if key and rule.endswith("in the mean"):
        return math.fsum(_of_foods(day, key, books) for day in plan.days) / len(plan.days)
    return None if books.pantry is None else _of_pantry(rule, words, plan, books)


def _of_pantry(rule: str, words: str, plan: Plan, books: Books) -> float | None:
    if words in _GRAMS and rule.startswith(f"{words} at most "):
        return math.fsum(_grams(day, _counted(_GRAMS[words], books)) for day in plan.days)
    if words in _DAYS and rule.startswith(f"{words} on at least "):
        counted = _counted(_DAYS[words], books)
        return float(sum(_grams(day, counted) >= PORTION_G - 1e-6 for day in plan.days))
    if rule.endswith("different plant foods"):
        return float(len({kin for day in plan.days for item in _items(day) if (kin := _plant(item, books))}))
    if rule.endswith("g to use up"):
        return math.fsum(
            item.grams / food.yield_factor / (food.edible_percent / 100.0)
            for day in plan.days
            for item in _items(day)
            if books.pantry is not None
            and (food := books.pantry.foods.get(item.food)) is not None
            and (words in (food.name, food.kin) or (food.name.split(words)[0] == "" and food.name[len(words)] in ", "))
        )
    return None


def _times(plan: Plan, slots: tuple[str, ...]) -> Counter[str]:
    return Counter(meal.dish_id or "" for day in plan.days for meal in day.meals if meal.slot in slots)


def _items(day: PlanDay) -> Iterator[Item]:
    return (item for meal in day.meals for item in meal.items)


def _counted(word: str, books: Books) -> Callable[[Item], bool]:
    return lambda item: word in books.counts(item)


def _grams(day: PlanDay, counted: Callable[[Item], bool]) -> float:
    return math.fsum(item.grams for item in _items(day) if counted(item))


def _of_foods(day: PlanDay, key: str, books: Books) -> float:
    """A nutrient of the day's foods; meals of which only the energy is known hold none of it."""
    return math.fsum(item.grams * (books.per_100g(item) or {}).get(key, 0.0) / 100.0 for item in _items(day))


def _plant(item: Item, books: Books) -> str:
    food = books.pantry.foods.get(item.food) if books.pantry else None
    counts = frozenset(food.counts) if food else frozenset()
    return food.kin if food and "whole_food" in counts and not counts & _OF_ANIMALS else ""


@cache
def _fridge_days() -> dict[str, int]:
    """Dish -> days that it keeps, read straight from the dishes' files."""
    files = sorted((foods_folder() / "dishes").glob("*.toml"))
    dishes = (dish for file in files for dish in tomllib.loads(file.read_text(encoding="utf-8")).get("dish", ()))
    return {dish["id"]: int(dish["fridge_days"]) for dish in dishes}


def _broken_cooking_ahead(plan: Plan) -> Iterator[str]:
    """Meals from an earlier day's pot: cooked on a day of the plan before, the same dish and foods, still good."""
    for place, day in enumerate(plan.days):
        for meal in day.meals:
            if meal.cooked_on is None:
                continue
            age = (DAYS.index(day.day) - DAYS.index(meal.cooked_on)) % len(DAYS)
            pots = [
                other
                for earlier in plan.days[:place]
                if earlier.day == meal.cooked_on
                for other in earlier.meals
                if other.dish_id == meal.dish_id and other.cooked_on is None
            ]
            if not pots:
                yield f"{at_meal(day, meal)}: cooked on {meal.cooked_on}, on which {meal.dish} is not cooked"
                continue
            if age > _fridge_days().get(meal.dish_id or "", age):
                yield f"{at_meal(day, meal)}: {meal.dish} is {age} days old, and does not keep so long"
            foods = {item.food for item in meal.items}
            if not any(foods == {item.food for item in pot.items} for pot in pots):
                yield f"{at_meal(day, meal)}: its foods are not those of the dish cooked on {meal.cooked_on}"
