"""What may stand in each slot of a day posed anew: its planned dish first, then what else suits it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from mealopt.core.slots import Slot
from mealopt.documents.plan import Meal
from mealopt.errors import BadInput
from mealopt.menu.plates import Larder, Plate, plate
from mealopt.plans.day.settled import dish_plate
from mealopt.plans.held.assign import foods_of
from mealopt.plans.held.plates import StandingFood, same_foods, without
from mealopt.plans.replan.anew import DayAnew

#: Other dishes that each slot may have.
OTHERS = 14


@dataclass(frozen=True, slots=True)
class Held:
    """A planned meal as it may stand in its slot of now. plate: with every food that may fill its parts."""

    meal: Meal
    plate: Plate
    foods: tuple[StandingFood, ...]


@dataclass(frozen=True, slots=True)
class Options:
    """For each slot: its planned meal, where that may still stand, and every plate that may stand there."""

    held: Mapping[int, Held]
    plates: tuple[tuple[Plate, ...], ...]
    beyond: frozenset[str]

    def just_held(self) -> tuple[tuple[Plate, ...], ...]:
        """The same, with only the planned dish and its foods where there is a planned one."""
        return tuple(
            (same_foods(self.held[index].plate, self.held[index].foods),) if index in self.held else plates
            for index, plates in enumerate(self.plates)
        )

    def planned_dishes(self) -> tuple[tuple[Plate, ...], ...]:
        """The same, with only the planned dish and whatever may stand in it where there is a planned one."""
        return tuple(
            (self.held[index].plate,) if index in self.held else plates for index, plates in enumerate(self.plates)
        )


def options_of(day: DayAnew, struck: frozenset[str] = frozenset(), pots: frozenset[str] = frozenset()) -> Options:
    """What may stand where. struck: foods and dishes that were struck out of the day: nothing of them comes back.
    pots: times of meals that share a pot with another day, so that only their amounts are open."""
    posed = day.posed
    wide = Larder(posed.larder.menu, posed.larder.filter, posed.larder.prices)
    held: dict[int, Held] = {}
    closed: set[int] = set()
    for slot, one in zip(posed.slots, day.meals, strict=True):
        if one.given is None and one.coming is not None and one.coming.planned is not None:
            meal = one.coming.planned
            fixed, shared = _fixed_dish(day, meal), meal.time in pots
            found = _held(meal, slot, wide, struck, fixed=fixed)
            if found is not None and shared:
                found = replace(found, plate=same_foods(found.plate, found.foods))
            if found is not None:
                held[slot.index] = found
                closed |= {slot.index} if fixed or shared else set()
    card = posed.card()
    card.deal(OTHERS)
    plates = tuple(
        _first(held[index].plate, () if index in closed else _left(others, struck))
        if index in held
        else others
        if index in posed.settled_plates
        else _left(others, struck)
        for index, others in enumerate(card.plates)
    )
    return Options(held, plates, card.beyond)


def _fixed_dish(day: DayAnew, meal: Meal) -> bool:
    """Whether the case settles the meal's dish."""
    fixed = day.posed.case.kitchen_on(day.posed.day).fixed
    return meal.slot != "during" and any(one.time == meal.time and one.dish == meal.dish_id for one in fixed)


def _held(meal: Meal, slot: Slot, wide: Larder, struck: frozenset[str], *, fixed: bool) -> Held | None:
    """The planned meal in its slot; None where its hour, its window or its session no longer allow it."""
    dish = wide.menu.dishes.get(meal.dish_id or "")
    if dish is None:
        return None
    if meal.cooked_on is not None:
        # It is made already, and takes what the plan says to warm it.
        dish = dish.model_copy(update={"minutes": meal.minutes, "heat": "none"})
    suited = slot if slot.suits(dish.slots) else replace(slot, kind=dish.slots[0])
    found = dish_plate(dish, slot, wide) if fixed else plate(dish, suited, wide)
    if found is None:
        return None
    found = replace(found, place=0)
    try:
        foods = foods_of(meal.items, found, "the plan")
    except BadInput:
        return None
    wanted = struck - {food.choice.name for food in foods}
    return Held(meal, without(found, wanted) or found, foods)


def _left(plates: tuple[Plate, ...], struck: frozenset[str]) -> tuple[Plate, ...]:
    """The plates without what was struck out."""
    kept = (without(one, struck) for one in plates if one.dish.id not in struck)
    return tuple(one for one in kept if one is not None)


def _first(held: Plate, others: tuple[Plate, ...]) -> tuple[Plate, ...]:
    return (held, *(one for one in others if one.dish.id != held.dish.id))
