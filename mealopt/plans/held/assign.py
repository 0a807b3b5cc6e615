"""Which part of its dish each food of a written meal fills."""

from __future__ import annotations

from collections.abc import Sequence

from mealopt.documents.plan import Item
from mealopt.errors import BadInput
from mealopt.menu.plates import Choice, Part, Plate
from mealopt.plans.held.plates import StandingFood

SALT = "salt"


def foods_of(items: Sequence[Item], plate: Plate, where: str) -> tuple[StandingFood, ...]:
    """The foods of a meal on their plate, but the salt that it is cooked with.

    where: the words that a refusal begins with. Raises BadInput where a food or its grams cannot stand on the plate.
    """
    weighed = [item for item in items if item.food != SALT or _parts_for(item.food, plate)]
    for item in weighed:
        _check(item, plate, where)
    found = _assigned(weighed, plate, {part.role: [] for part in plate.parts})
    if found is None:
        named = ", ".join(item.food for item in weighed)
        raise BadInput(f"{where}: read {named}; foods of each part of the dish {plate.dish.id} are expected")
    return found


def check_given(items: Sequence[Item], plate: Plate, where: str) -> None:
    """Raise BadInput where a meal that leaves nothing to choose does not hold what its case gives."""
    written = {item.food: item.grams for item in items}
    given = {choice.name: choice.least_g for part in plate.parts for choice in part.choices}
    for food, grams in written.items():
        if food not in given or abs(grams - given[food]) > 0.1 + 0.001 * grams:
            told = ", ".join(f"{name} {amount:g} g" for name, amount in given.items())
            raise BadInput(
                f"{where}: read {grams:g} g of {food}; its case gives {told}: a plan of this version is expected"
            )


def _parts_for(food: str, plate: Plate) -> list[tuple[Part, Choice]]:
    return [(part, choice) for part in plate.parts for choice in part.choices if choice.name == food]


def _check(item: Item, plate: Plate, where: str) -> None:
    fitting = _parts_for(item.food, plate)
    if not fitting:
        raise BadInput(f"{where}: read {item.food}, which cannot stand in the dish {plate.dish.id} of this meal")
    if not any(_steps(item, choice) is not None for _, choice in fitting):
        least, most = min(one.least_g for _, one in fitting), max(one.most_g for _, one in fitting)
        raise BadInput(
            f"{where}: read {item.grams:g} g of {item.food}; the dish {plate.dish.id} takes "
            f"{least:g} to {most:g} g here"
        )


def _steps(item: Item, choice: Choice) -> int | None:
    """The item's kitchen steps, where the choice allows them."""
    steps = round(item.grams / choice.step_g)
    return steps if choice.steps[0] <= steps <= choice.steps[1] else None


def _assigned(
    items: Sequence[Item], plate: Plate, taken: dict[str, list[StandingFood]]
) -> tuple[StandingFood, ...] | None:
    """Each item in a part such that every part has as many foods and grams as it asks for; None where none is so."""
    if not items:
        whole = all(_full(part, taken[part.role]) for part in plate.parts)
        return tuple(food for part in plate.parts for food in taken[part.role]) if whole else None
    first, rest = items[0], items[1:]
    for part, choice in _parts_for(first.food, plate):
        if _steps(first, choice) is None or len(taken[part.role]) >= part.pick[1]:
            continue
        with_it = {**taken, part.role: [*taken[part.role], StandingFood(part.role, choice, first.grams)]}
        found = _assigned(rest, plate, with_it)
        if found is not None:
            return found
    return None


def _full(part: Part, foods: Sequence[StandingFood]) -> bool:
    if not foods:
        return part.pick[0] == 0
    grams = sum(food.steps * food.choice.step_g for food in foods)
    within = part.grams[0] - 0.01 <= grams <= part.grams[1] + 0.01
    return within and part.pick[0] <= len(foods) <= part.pick[1]
