"""A day's bands as they are posed: floors that windows leave no room for sink, and that is said."""

from __future__ import annotations

from mealopt.core.bands import Band
from mealopt.core.nutrients import FIBRE, FRUIT_VEGETABLE
from mealopt.core.slots import Slot
from mealopt.people.case import Case
from mealopt.plans.day.shape import fibre_room, produce_room
from mealopt.rules.problem import OwnLimit
from mealopt.targets.model import DayTargets


def posed_bands(targets: DayTargets, slots: tuple[Slot, ...]) -> tuple[dict[str, Band], tuple[str, ...]]:
    """The bands, and what was said where a floor sank."""
    bands, notes = dict(targets.bands), []
    rooms = ((FIBRE, fibre_room(slots), "fibre"), (FRUIT_VEGETABLE, produce_room(slots), "fruit and vegetables"))
    for key, room, words in rooms:
        band = bands.get(key)
        if band is None or band.least is None or band.least <= room:
            continue
        aim = band.aim if band.aim is None else max(room, min(band.aim, room * 1.3))
        bands[key] = Band(room, aim, band.most)
        unknown = " and meals of which only the energy is known" if any(s.given == "energy" for s in slots) else ""
        notes.append(
            f"{words}: the windows before sessions{unknown} leave room for about {room:.0f} g, so the floor of "
            f"{band.least:.0f} g sinks to that today"
        )
    return bands, tuple(notes)


def own_limits(case: Case, day: str, slots: tuple[Slot, ...]) -> tuple[OwnLimit, ...]:
    """Bands of the case's own for single meals of this day."""
    limits = []
    for own in case.goal.band:
        if own.day not in (None, day) or (own.slot is None and own.meal is None):
            continue
        for slot in slots:
            if slot.settled is not None:
                continue
            if own.meal == slot.index + 1 or (own.slot is not None and own.slot == slot.kind):
                limits.append(OwnLimit(slot.index, own.nutrient, Band(own.least, None, own.most)))
    return tuple(limits)
