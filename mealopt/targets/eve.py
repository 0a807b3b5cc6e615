"""The eve of a long event: the days within 48 h before it that fill the stores of carbohydrate."""

from __future__ import annotations

from mealopt.core.clock import DAY_MINUTES, DAYS, clock
from mealopt.people.case import Case, Session
from mealopt.targets.coefficients import (
    CARBOHYDRATE_KCAL,
    ENERGY_BAND,
    EVE_EVENT_OVER,
    EVE_HEAVY,
    EVE_HOURS,
    EVE_LEAST,
    EVE_LEAST_HEAVY,
    EVE_PROTEIN,
    FAT_EVE_SHARE,
    FAT_KCAL,
    FAT_LEAST,
    PROTEIN_KCAL,
    ROOM,
)

#: A plan day is an eve where at least this share of it lies in the 48 h before the start: 36 h at the least.
SHARE_OF_DAY = 0.5


def long_events(case: Case) -> tuple[Session, ...]:
    """Endurance races of over 90 minutes."""
    return tuple(
        session
        for session in case.session
        if session.endurance and session.effort == "race" and session.minutes > EVE_EVENT_OVER
    )


def eve_days(case: Case) -> tuple[dict[str, Session], tuple[str, ...]]:
    """The week's eves, each with the event that it is for, and notes on eves that lie in the week before.

    A day with a race of its own is no eve. The nearest event counts.
    """
    found: dict[str, Session] = {}
    notes = []
    racing = {session.day for session in case.session if session.effort == "race"}
    for event in long_events(case):
        start = DAYS.index(event.day) * DAY_MINUTES + event.start_minute
        for place, day in enumerate(DAYS[: DAYS.index(event.day)]):
            kitchen = case.kitchen_on(day)
            first, last = place * DAY_MINUTES + kitchen.wake, place * DAY_MINUTES + kitchen.next_wake
            inside = min(last, start) - max(first, start - 60 * EVE_HOURS)
            if day not in racing and inside >= SHARE_OF_DAY * (last - first):
                found.setdefault(day, event)
        if start - 60 * EVE_HOURS < 0:
            notes.append(f"Part of the 48 h before the race on {event.day} lies in the week before this one")
    return found, tuple(notes)


def eve_carbohydrate_per_kg(mass_kg: float) -> float:
    """Least carbohydrate of an eve, g/kg: 10, and 8 above 85 kg."""
    return float(EVE_LEAST_HEAVY if mass_kg > EVE_HEAVY else EVE_LEAST)


def eve_energy(mass_kg: float) -> float:
    """Energy, kcal, that holds the eve's least carbohydrate, 1.2 g/kg protein and the least fat, with room for food.

    The leasts together take what the split lets them take: 3 % less than the least of the energy band.
    """
    held = (1 - ROOM) * (1 - ENERGY_BAND)
    lean = mass_kg * (CARBOHYDRATE_KCAL * eve_carbohydrate_per_kg(mass_kg) + PROTEIN_KCAL * EVE_PROTEIN)
    return max(lean / (held - FAT_EVE_SHARE), (lean + FAT_KCAL * FAT_LEAST * mass_kg) / held)


def eve_words(event: Session, mass_kg: float) -> str:
    """How an eve's energy came about."""
    return (
        f"{event.kind} of {event.minutes} min at {clock(event.start_minute)} on {event.day}: room for "
        f"{eve_carbohydrate_per_kg(mass_kg):g} g/kg carbohydrate, {EVE_PROTEIN:g} g/kg protein and the least fat; "
        "outside the week's balance"
    )


def eve_notes(mass_kg: float) -> tuple[str, ...]:
    """What is said on an eve."""
    notes = [
        "On the eve of a long event the scale may rise by 1-2 kg: stored carbohydrate and its water",
        "Fruit and vegetables, the fibre floor and whole foods are not asked for on this day",
    ]
    if mass_kg > EVE_HEAVY:
        notes.append(f"Above {EVE_HEAVY:g} kg it is {EVE_LEAST_HEAVY:g} g/kg carbohydrate at least, not {EVE_LEAST:g}")
    return tuple(notes)
