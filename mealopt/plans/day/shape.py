"""From a case and a day's targets to the shape of the day and its slots."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

from mealopt.core.clock import DAY_MINUTES
from mealopt.core.nutrients import ENERGY, FIBRE, PROTEIN
from mealopt.core.slots import Slot
from mealopt.people.case import Case, Session
from mealopt.people.days import day_after
from mealopt.targets.model import DayTargets
from mealopt.targets.settled import SettledMeal
from mealopt.targets.timing import DayShape, Layout, lay_slots
from mealopt.targets.windows import TimedSession

#: Main meals of the eve of a long event may be this large, kcal (project's assumption).
EVE_MAIN_MOST = 1600.0

#: What a meal of that day holds on average, kcal, and how many there are at most (project's assumption).
EVE_MEAL, EVE_MEALS_MOST = 520.0, 9


def _timed(session: Session, number: int, during: tuple[float, float], later: int = 0) -> TimedSession:
    return TimedSession(
        number=number,
        start=session.start_minute + later,
        end=session.end_minute + later,
        kind=session.kind,
        effort=session.effort,
        endurance=session.endurance,
        during_g=during,
        next_day=later > 0,
    )


def day_shape(
    case: Case,
    day: str,
    targets: DayTargets,
    settled: tuple[SettledMeal, ...] = (),
    eaten: Mapping[int, tuple[float, float]] | None = None,
) -> DayShape:
    """What the slots of this plan day follow from. eaten: number of a session -> carbohydrate that is packed for it."""
    packed = eaten or {}
    kitchen = case.kitchen_on(day)
    today = tuple(
        _timed(entry.session, number, packed.get(number, entry.during_g))
        for number, entry in enumerate(targets.sessions, start=1)
    )
    tomorrow = tuple(
        _timed(session, number, (0.0, 0.0), DAY_MINUTES)
        for number, session in enumerate(case.sessions_on(day_after(day)), start=1)
    )
    shape = DayShape(
        wake=kitchen.wake,
        sleep=kitchen.sleep,
        sessions=today,
        ahead=tomorrow,
        energy_aim=targets.bands[ENERGY].aim or 0.0,
        mass_kg=case.athlete.mass_kg,
        meals_per_day=kitchen.meals_per_day,
        can_cook=kitchen.can_cook,
        away=kitchen.away,
        away_from=kitchen.away_from,
        away_to=kitchen.away_to,
        cook_minutes=kitchen.cook_minutes,
        settled=settled,
        protein_least=targets.bands[PROTEIN].least or 0.0,
    )
    if not targets.eve:
        return shape
    # Food with little fat and fibre fills small plates: the stores fill by more meals, not by larger ones.
    meals = max(kitchen.meals_per_day, min(EVE_MEALS_MOST, math.ceil(shape.energy_aim / EVE_MEAL)))
    return replace(shape, main_most=EVE_MAIN_MOST, meals_per_day=meals)


def day_layout(
    case: Case,
    day: str,
    targets: DayTargets,
    settled: tuple[SettledMeal, ...] = (),
    eaten: Mapping[int, tuple[float, float]] | None = None,
) -> Layout:
    """The day's slots, refuelling windows and notes. eaten: as in `day_shape`."""
    return lay_slots(day_shape(case, day, targets, settled, eaten))


#: Fibre that a meal without a window holds with ease, g: a main meal, any other (project's assumption).
FREE_FIBRE_MAIN, FREE_FIBRE_OTHER = 12.0, 5.0
FREE_PRODUCE_MAIN, FREE_PRODUCE_OTHER = 220.0, 110.0

#: Share of a window's limit that food can be expected to reach.
REACHED = 0.75

#: Grams of fruit and vegetables that bring a gram of fibre, where a window holds them.
PRODUCE_PER_FIBRE = 30.0


def fibre_room(slots: tuple[Slot, ...]) -> float:
    """Grams of fibre that the day's windows leave room for."""
    room = 0.0
    for slot in slots:
        if slot.kind == "during" or slot.given == "energy":
            continue
        free = FREE_FIBRE_MAIN if slot.main else FREE_FIBRE_OTHER
        room += min(free, REACHED * slot.limits[FIBRE]) if FIBRE in slot.limits else free
    return room


def produce_room(slots: tuple[Slot, ...]) -> float:
    """Grams of fruit and vegetables that the day's windows leave room for."""
    room = 0.0
    for slot in slots:
        if slot.kind == "during" or slot.given == "energy":
            continue
        free = FREE_PRODUCE_MAIN if slot.main else FREE_PRODUCE_OTHER
        room += min(free, PRODUCE_PER_FIBRE * slot.limits[FIBRE]) if FIBRE in slot.limits else free
    return room
