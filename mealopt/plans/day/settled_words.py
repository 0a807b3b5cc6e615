"""Settled meals in the document: as the case gives them, with what there is to say of them."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.core.nutrients import LABELS, UNITS
from mealopt.core.slots import Slot
from mealopt.documents.plan import Meal
from mealopt.people.kitchen import Fixed
from mealopt.plans.day.pose import PosedDay
from mealopt.plans.day.settled import ASSUMED_WORDS, against, assumed
from mealopt.targets.windows import limits_of_lead


def given_totals(posed: PosedDay) -> dict[int, dict[str, float]]:
    """Index of a slot of which only the energy is known -> what it is taken to hold."""
    found = {}
    for slot in posed.slots:
        fixed = posed.settled.of(slot)
        if fixed is not None and fixed.energy_kcal is not None:
            found[slot.index] = assumed(fixed.energy_kcal)
    return found


def as_settled(meal: Meal, slot: Slot, posed: PosedDay) -> Meal:
    """The meal as the case settles it; one that is not settled as it is."""
    fixed = posed.settled.of(slot)
    if fixed is None:
        return meal
    notes = tuple(_notes(meal, slot, fixed, posed))
    if fixed.dish is not None:
        return meal.model_copy(update={"notes": notes})
    items = tuple(item.model_copy(update={"measure": f"{item.grams:g} g"}) for item in meal.items)
    return meal.model_copy(update={"dish": fixed.what, "dish_id": None, "items": items, "notes": notes, "method": ()})


def _notes(meal: Meal, slot: Slot, fixed: Fixed, posed: PosedDay) -> Iterator[str]:
    if fixed.energy_kcal is not None:
        yield f"settled by you; {ASSUMED_WORDS}"
    elif fixed.dish is not None:
        yield f"{fixed.what}: the dish is settled by you, its amounts are planned"
    else:
        yield "settled by you: these foods, to the gram"
    pantry, wishes = posed.larder.menu.pantry, posed.larder.filter
    for item in meal.items:
        why = against(pantry.foods[item.food], fixed.dish or "", wishes)
        if why is not None:
            yield f"{item.food} {why}: it stands here because you settled this meal"
    if slot.lead_minutes is None:
        return
    for key, most in limits_of_lead(slot.lead_minutes).items():
        held = meal.totals.get(key)
        if held is not None and held > most + 0.05:
            yield (
                f"{slot.lead_minutes} min before a session with {held:.0f} {UNITS[key]} {LABELS[key]}; a planned meal "
                f"there would hold at most {most:g} {UNITS[key]}"
            )
        elif held is None:
            yield f"{slot.lead_minutes} min before a session, and its {LABELS[key]} is unknown"
