"""Trying all: whether a day has an answer with just these foods in each meal, asked of the day's own rules.

Shares nothing with the search by levels: each set of foods is one small program over plates that hold just them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from itertools import combinations, product

from mealopt.menu.plates import Plate
from mealopt.milp.highs import Highs
from mealopt.plans.held.standing import StandingDay


@dataclass(frozen=True, eq=False)
class Day:
    """A day that is looked up by itself, so that what was made for it is kept."""

    of: StandingDay


@cache
def _served(day: Day, index: int) -> tuple[tuple[Plate, frozenset[str]], ...]:
    """Every plate of the menu that may be served in a slot, with all of its foods."""
    slot = day.of.posed.slots[index]
    plates = (day.of.plate(index, dish.id) for dish in day.of.wide.menu.for_slot(slot))
    return tuple(
        (plate, frozenset(choice.name for part in plate.parts for choice in part.choices)) for plate in plates if plate
    )


@cache
def plates_of(day: Day, index: int, foods: frozenset[str]) -> tuple[Plate, ...]:
    """Every plate of every dish of the menu on which just these foods stand in this slot, amounts free."""
    found = []
    for plate, listed in _served(day, index):
        if not foods <= listed:
            continue
        roles = [[part for part in plate.parts if any(c.name == food for c in part.choices)] for food in sorted(foods)]
        for places in product(*roles):
            held = dict(zip(sorted(foods), (part.role for part in places), strict=True))
            if made := _just(plate, held):
                found.append(made)
    return tuple(found)


def _just(plate: Plate, held: dict[str, str]) -> Plate | None:
    parts = []
    for part in plate.parts:
        choices = tuple(choice for choice in part.choices if held.get(choice.name) == part.role)
        if not part.pick[0] <= len(choices) <= part.pick[1]:
            return None
        if choices:
            parts.append(replace(part, pick=(len(choices), len(choices)), choices=choices))
    return replace(plate, parts=tuple(parts))


def possible(day: Day, sets: list[frozenset[str]]) -> bool:
    """Whether the day can be met with these foods in its meals, in whole kitchen steps."""
    options = []
    for standing, foods in zip(day.of.meals, sets, strict=True):
        plates = plates_of(day, standing.index, foods) if standing.foods else (standing.plate,)
        if not plates:
            return False
        options.append(plates)
    problem = day.of.problem(options)
    problem.model.cost = [0.0] * problem.model.columns
    return bool(Highs(problem.model).solve(seconds=60).values)


def sets_with(whole: Day, number: int, out: str, changes: int) -> Iterator[list[frozenset[str]]]:
    """All foods of all meals with the food out of one, a stand-in or none for it, and so many other foods changed."""
    day = whole.of
    stands = [meal.names for meal in day.meals]
    place = next(meal.index for meal in day.meals if meal.meal.number == number)
    stands[place] -= {out}
    foods = [_foods(whole, meal.index) - ({out} if meal.index == place else set()) for meal in day.meals]
    toggles = [(index, food) for index in range(len(stands)) for food in sorted(foods[index])]
    coming: list[str | None] = [None, *sorted(foods[place] - stands[place])]
    for stand_in in coming:
        for chosen in combinations(toggles, changes):
            if (place, stand_in) in chosen:
                continue
            sets = [set(foods) for foods in stands]
            if stand_in is not None:
                sets[place].add(stand_in)
            for index, food in chosen:
                sets[index] ^= {food}
            yield [frozenset(foods) for foods in sets]


def _foods(day: Day, index: int) -> set[str]:
    return set().union(*(listed for _, listed in _served(day, index))) if day.of.meals[index].foods else set()
