"""A day's bands as they are posed: floors that windows leave no room for sink, and that is said."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from mealopt.core.bands import Band
from mealopt.core.nutrients import CARBOHYDRATE, FIBRE, FRUIT_VEGETABLE, PROTEIN
from mealopt.core.slots import Slot
from mealopt.people.case import Case
from mealopt.people.goal import OwnBand
from mealopt.plans.day.shape import fibre_room, produce_room
from mealopt.rules.problem import OwnLimit
from mealopt.targets.model import DayTargets

#: The leasts that a slot has itself: nutrient -> its field.
LEASTS: dict[str, str] = {PROTEIN: "protein_least", CARBOHYDRATE: "carbohydrate_least"}

#: The least energy of what is eaten in a session, kcal for each gram of carbohydrate that is asked for, as timing has
#: it.
KCAL_PER_G_IN_SESSION = 3.5


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


def is_of(own: OwnBand, slot: Slot, day: str) -> bool:
    """Whether a band of the case's own holds for this meal: not for a day, and not for one that is settled."""
    return is_of_number(own, slot, day, slot.index + 1)


def is_of_number(own: OwnBand, slot: Slot, day: str, number: int | None) -> bool:
    """The same for a meal that has this number by the case; None where it has none."""
    if own.day not in (None, day) or slot.settled is not None:
        return False
    if own.slot is not None:
        return own.slot == slot.kind
    return own.meal is not None and own.meal == number


def with_own_limits(
    case: Case, day: str, slots: tuple[Slot, ...], numbers: Mapping[int, int | None] | None = None
) -> tuple[tuple[Slot, ...], tuple[OwnLimit, ...]]:
    """The slots with the case's own bands for single meals in place of their own, and what those ask beyond them.

    A side of protein or carbohydrate that a slot has itself gives way to the case's; of two bands for one meal the
    tighter one holds. numbers: index of a slot -> its meal's number by the case; None: they are counted from 1.
    """
    counted = numbers if numbers is not None else {slot.index: slot.index + 1 for slot in slots}
    found: list[Slot] = []
    limits: list[OwnLimit] = []
    for slot in slots:
        bands = [own for own in case.goal.band if is_of_number(own, slot, day, counted.get(slot.index))]
        found.append(replace(slot, **_replaced(slot, bands)))
        for own in bands:
            least, most = _left(own)
            if least is not None or most is not None:
                limits.append(OwnLimit(slot.index, own.nutrient, Band(least, None, most)))
    return tuple(found), tuple(limits)


def _replaced(slot: Slot, bands: list[OwnBand]) -> dict[str, Any]:
    """The slot's fields that the bands replace, with their values."""
    fields: dict[str, Any] = {}
    for key, name in LEASTS.items():
        leasts = [own.least for own in bands if own.nutrient == key and own.least is not None]
        if leasts:
            fields[name] = max(leasts)
    mosts = [own.most for own in bands if own.nutrient == CARBOHYDRATE and own.most is not None]
    if mosts:
        fields["carbohydrate_most"] = min(mosts)
    if slot.kind == "during" and "carbohydrate_least" in fields:
        # What is eaten in a session is carbohydrate: where less of it is asked for, less energy is.
        fields["energy_least"] = min(slot.energy_least, KCAL_PER_G_IN_SESSION * fields["carbohydrate_least"])
    return fields


def _left(own: OwnBand) -> tuple[float | None, float | None]:
    """The sides of a band that no field of a slot carries."""
    least = None if own.nutrient in LEASTS else own.least
    return least, None if own.nutrient == CARBOHYDRATE else own.most
