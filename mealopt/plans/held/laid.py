"""The meals of a document laid on the slots of its day posed again; skipped meals are left out of both."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from mealopt.core.clock import clock
from mealopt.core.slots import RefuelWindow, Slot
from mealopt.documents.plan import PlanDay
from mealopt.errors import BadInput
from mealopt.plans.day.pose import PosedDay


def check_laid(entry: PlanDay, slots: Sequence[Slot], where: str) -> None:
    """Raise BadInput where the document's meals, skipped ones among them, are not those of the day's slots."""
    written = {meal.number: (meal.slot, meal.time, meal.ends) for meal in entry.meals}
    written |= {meal.number: (meal.slot, meal.time, meal.ends) for meal in entry.skipped}
    expected = {slot.index + 1: (slot.kind, clock(slot.start), clock(slot.end)) for slot in slots}
    for number in sorted({*written, *expected}):
        if written.get(number) != expected.get(number):
            raise BadInput(
                f"{where}, {entry.day}, meal {number}: read {_said(written.get(number))}; its case gives "
                f"{_said(expected.get(number))}: a plan that nobody changed, of this version, is expected"
            )


def _said(meal: tuple[str, str, str] | None) -> str:
    return "no such meal" if meal is None else f"{meal[0]} from {meal[1]} to {meal[2]}"


def without_slots(posed: PosedDay, numbers: frozenset[int]) -> tuple[PosedDay, tuple[int, ...]]:
    """The day without the meals of these numbers, its slots counted anew; and the number that each slot's meal has.

    The day's bands stay: the other meals are to meet them.
    """
    left = [slot for slot in posed.slots if slot.index + 1 not in numbers]
    places = {slot.index: place for place, slot in enumerate(left)}
    refuel = tuple(
        RefuelWindow(kept, window.least, window.aim, window.says, window.before)
        for window in posed.refuel
        if (kept := tuple(places[index] for index in window.slots if index in places))
    )
    own = tuple(replace(limit, slot=places[limit.slot]) for limit in posed.own if limit.slot in places)
    settled = {places[index]: plate for index, plate in posed.settled_plates.items() if index in places}
    slots = tuple(replace(slot, index=places[slot.index]) for slot in left)
    day = replace(posed, slots=slots, refuel=refuel, own=own, settled_plates=settled)
    return day, tuple(slot.index + 1 for slot in left)
