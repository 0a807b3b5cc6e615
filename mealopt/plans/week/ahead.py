"""Cooking ahead: which meals of a week come from an earlier day's pot, and which could."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from mealopt.core.slots import Slot
from mealopt.documents.plan import Meal, PlanDay
from mealopt.menu.dishes import Dish, Menu
from mealopt.menu.plates import Plate, plate
from mealopt.people.case import Case
from mealopt.plans.day.card import place_on_card
from mealopt.plans.day.document import SALT
from mealopt.plans.day.pose import PosedDay
from mealopt.rules.weekly.ahead import WARMING, Pot

_MIDDAY, _EVENING, _MAIN = frozenset({"lunch"}), frozenset({"dinner"}), frozenset({"lunch", "dinner"})

#: Beside a meal from an earlier day's pot [common practice, no source].
WARMED = "cooked on {day}: cool it within two hours, keep it in the fridge, and warm it until it steams"
COLD = "cooked on {day}: cool it within two hours, keep it in the fridge, and eat it cold"


@dataclass(frozen=True, slots=True)
class Ahead:
    """What a week may cook ahead. span: days at most; least: meals asked for; keeps: dish -> days in the fridge."""

    span: int = 0
    least: int = 0
    keeps: Mapping[str, int] = field(default_factory=dict)

    @property
    def eaten(self) -> frozenset[str]:
        """Kinds of slots that may come from a pot: of an evening, the next midday only."""
        return _MIDDAY if self.span == 1 else _MAIN

    @property
    def cooked(self) -> frozenset[str]:
        """Kinds of slots that a pot may be cooked for."""
        return _EVENING if self.span == 1 else _MAIN


def ahead_of(case: Case, days: int, menu: Menu) -> Ahead:
    """What the case allows and asks for; nothing where one day is planned."""
    span = case.week.cook_ahead_days if days > 1 else 0
    keeps = {name: dish.fridge_days for name, dish in menu.dishes.items() if _keeps(dish)}
    return Ahead(span, min(int(case.week.cooked_ahead_least * days / 7 + 0.5), days - 1) if span else 0, keeps)


def _keeps(dish: Dish) -> bool:
    return dish.fridge_days > 0 and (dish.reheats or dish.carry or dish.served == "cold")


def foods_of(meal: Meal) -> frozenset[str]:
    """A meal's foods, cooking salt left out."""
    return frozenset(item.food for item in meal.items) - {SALT}


def laid_after(posed: PosedDay, before: PosedDay, ahead: Ahead) -> PosedDay:
    """The day whose midday dishes that keep come in the order of the evening before, with that day's foods: so one pot
    can serve both.
    """
    dinners = [slot for slot in before.slots if slot.kind == "dinner" and slot.settled is None]
    if not dinners:
        return posed
    evening, protein = f"{before.seed}|{dinners[-1].index}", posed.protein_wanted

    def ordered(slot: Slot, plates: Sequence[Plate]) -> tuple[Plate, ...]:
        found = []
        for one in plates:
            keeps = one.dish.id in ahead.keeps and "dinner" in one.dish.slots
            again = plate(one.dish, slot, before.larder) if keeps else None
            seed = evening if again is not None else f"{posed.seed}|{slot.index}"
            chosen = again or one
            found.append((place_on_card(chosen, slot, posed.larder.filter, protein, seed), chosen))
        return tuple(chosen for _, chosen in sorted(found, key=lambda entry: entry[0]))

    laid = tuple(
        ordered(slot, plates) if slot.kind == "lunch" and slot.settled is None else plates
        for slot, plates in zip(posed.slots, posed.card().all, strict=True)
    )
    return replace(posed, laid=laid)


@dataclass(frozen=True, slots=True)
class Pair:
    """Two meals of one pot, by their days' places and their own numbers."""

    cooked: tuple[int, int]
    eaten: tuple[int, int]


def pairs(days: Sequence[PlanDay | None], ahead: Ahead) -> list[Pair]:
    """The meals of these days, in order, that come from an earlier one's pot. None: a day that is not known."""
    found: list[Pair] = []
    from_pot: set[tuple[int, int]] = set()
    for place, day in enumerate(days):
        for meal in day.meals if day is not None else ():
            pot = _pot_of(days, place, meal, ahead, from_pot)
            if pot is not None:
                found.append(Pair(pot, (place, meal.number)))
                from_pot.add((place, meal.number))
    return found


def _pot_of(
    days: Sequence[PlanDay | None], place: int, meal: Meal, ahead: Ahead, from_pot: set[tuple[int, int]]
) -> tuple[int, int] | None:
    if meal.slot not in ahead.eaten or meal.dish_id is None or not meal.items:
        return None
    for earlier in range(max(0, place - min(ahead.span, ahead.keeps.get(meal.dish_id, 0))), place):
        day = days[earlier]
        for other in day.meals if day is not None else ():
            same = other.dish_id == meal.dish_id and foods_of(other) == foods_of(meal)
            if same and other.slot in ahead.cooked and (earlier, other.number) not in from_pot:
                return earlier, other.number
    return None


def pots_for(place: int, days: Sequence[PlanDay | None], ahead: Ahead) -> tuple[Pot, ...]:
    """The meals of the other days that one of this day could share a pot with."""
    return tuple(dict.fromkeys(_pots(place, days, ahead)))


def _pots(place: int, days: Sequence[PlanDay | None], ahead: Ahead) -> Iterator[Pot]:
    taken = {pair.eaten for pair in pairs(days, ahead)}
    for other, day in enumerate(days):
        apart = abs(other - place)
        if day is None or not 0 < apart <= ahead.span:
            continue
        for meal in day.meals:
            if meal.dish_id is None or not meal.items or ahead.keeps.get(meal.dish_id, 0) < apart:
                continue
            if other < place and meal.slot in ahead.cooked and (other, meal.number) not in taken:
                yield Pot(meal.dish_id, foods_of(meal), ahead.eaten, later=True)
            if other > place and meal.slot in ahead.eaten:
                yield Pot(meal.dish_id, foods_of(meal), ahead.cooked, later=False)


def pot_wanted(day: PlanDay, minutes_most: float, ahead: Ahead) -> Pot | None:
    """The pot of the day before with which this day keeps its minutes; None where no single one is enough."""
    over = sum(meal.minutes for meal in day.meals) - minutes_most
    for meal in sorted(day.meals, key=lambda one: one.minutes):
        keeps = meal.dish_id is not None and ahead.keeps.get(meal.dish_id, 0) >= 1
        if keeps and meal.slot in ahead.eaten and meal.minutes - WARMING >= over - 1e-6:
            return Pot(meal.dish_id or "", foods_of(meal), ahead.cooked, later=False, must=True)
    return None


def labelled(days: Sequence[PlanDay], ahead: Ahead) -> tuple[PlanDay, ...]:
    """The days with their meals from an earlier day's pot marked so, and their minutes counted once."""
    cooked = {pair.eaten: days[pair.cooked[0]].day for pair in pairs(days, ahead)}
    return tuple(
        day.model_copy(
            update={
                "meals": tuple(
                    _marked(meal, cooked[place, meal.number]) if (place, meal.number) in cooked else meal
                    for meal in day.meals
                )
            }
        )
        for place, day in enumerate(days)
    )


def _marked(meal: Meal, day: str) -> Meal:
    cold = any("eaten cold" in note for note in meal.notes) or not meal.minutes
    notes = [note for note in meal.notes if not note.startswith("made ahead")]
    words = (COLD if cold else WARMED).format(day=day)
    minutes = min(meal.minutes, WARMING)
    return meal.model_copy(update={"cooked_on": day, "minutes": minutes, "notes": (words, *notes)})
