"""One replacement tried by itself: the asked meal as one dish, all other meals with their own foods, amounts free."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from mealopt.menu.plates import Plate
from mealopt.milp.model import Row
from mealopt.plans.held.plates import kept
from mealopt.plans.swap.level import level
from mealopt.plans.swap.search import A_CHANGE, NEAR_G, NOUGHT_G, Least, Levels, found_at, solved

#: Other foods of the meal that may change where all other meals keep theirs.
NEAR = 3

#: Other dishes that are looked at where the whole dish is swapped, by their place on the card.
DISHES = 60

#: Seconds of work that one replacement gets at least, once it is begun.
BLINK = 0.02

#: The least penalty is looked for among so many dishes that leave all else as it is.
ENOUGH_DISHES = 3


@dataclass(frozen=True, slots=True)
class Tried:
    """A replacement that can be had: the answer, the dish that the meal then is, and what came into it."""

    least: Least
    dish: str
    other_dish: bool
    came: frozenset[str]

    @property
    def rank(self) -> tuple[int, bool, float, float]:
        """Its place among all: fewest foods changed, its own dish, fewest grams moved, lowest penalty."""
        least = self.least
        return least.changes, self.other_dish, round(least.grams, 1), least.level.penalty(least.answer.values)


def candidates(levels: Levels) -> Iterator[tuple[Plate, str | None]]:
    """Plates that the meal may become, each with the one food that is to come, None where that is left open.

    On its own dish every food of the struck one's part, and none; then other dishes, near ones first.
    """
    place = next(place for place, meal in enumerate(levels.nearby) if meal.aim.asked)
    meal, fewest = levels.nearby[place], levels.fewest[place]
    aim = meal.aim
    if aim.whole:
        yield from ((plate, None) for plate in meal.first(fewest, DISHES))
        return
    near = sorted(meal.within(fewest + NEAR), key=lambda entry: (entry[0], entry[1].place or 0))
    own = next((plate for _, plate in near if plate.dish.id == aim.standing.plate.dish.id), None)
    if own is not None:
        roles = {food.role for food in aim.standing.foods if food.choice.name in aim.out}
        parts = [part for part in own.parts if part.role in roles]
        yield from ((own, choice.name) for part in parts for choice in part.choices if choice.name not in aim.stays)
        left = kept(own, lambda part: tuple(one for one in part.choices if one.name in aim.stays or part not in parts))
        yield from [] if left is None else [(left, None)]
    yield from ((plate, None) for _, plate in near if plate is not own)


def another_dish(levels: Levels) -> Least | None:
    """Another dish for a meal with which nothing else of the day changes or moves: no answer changes less.

    Of the first few such dishes on the card the one of the lowest penalty; None where there is none.
    """
    found: list[Tried] = []
    for plate, _ in candidates(levels):
        if levels.left <= 0 or len(found) == ENOUGH_DISHES:
            break
        tried = try_one(levels, plate, None)
        if tried is not None and tried.least.changes == sum(levels.fewest) and tried.least.grams < NOUGHT_G:
            found.append(tried)
    best = min(found, key=lambda one: one.rank, default=None)
    return None if best is None else replace(best.least, fewest_proven=True, grams_proven=True)


def try_one(levels: Levels, plate: Plate, come: str | None) -> Tried | None:
    """The answer with this plate in the asked meal, and with this food on it; None where there is none."""
    options = [
        (plate,) if meal.aim.asked else (meal.aim.standing.held(to_the_gram=meal.aim.held),) for meal in levels.nearby
    ]
    built = level(levels.day, levels.aims, options, sum(levels.fewest) + NEAR, each=A_CHANGE)
    if come is not None:
        index = next(aim.standing.index for aim in levels.aims if aim.asked)
        foods = (food for serving in built.problem.servings[index] for food in serving.foods)
        used = tuple((food.used, 1.0) for food in foods if food.choice.name == come)
        built.problem.model.rows.append(Row("this_food", used, least=1.0, says=f"{come} comes"))
    answer = solved(built, NEAR_G, max(levels.left, BLINK))
    return None if not answer.values else tried_of(levels, found_at(built, answer, sure=False))


def tried_of(levels: Levels, least: Least) -> Tried:
    """An answer with what it brings into the meal that was asked about."""
    aim = next(one for one in levels.aims if one.asked)
    values = least.answer.values
    servings = least.level.problem.servings[aim.standing.index]
    serving = next(one for one in servings if round(values[one.served]) == 1)
    used = {food.choice.name for food in serving.foods if round(values[food.used]) == 1}
    dish = serving.plate.dish.id
    return Tried(least, dish, dish != aim.standing.plate.dish.id, frozenset(used - aim.standing.names))
