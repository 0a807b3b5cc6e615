"""Carbohydrate over several meals: before a long session, and between sessions that are close together."""

from __future__ import annotations

from itertools import pairwise

from mealopt.core.slots import RefuelWindow, Slot
from mealopt.targets.before import before_window
from mealopt.targets.windows import TimedSession

#: Refuelling where the next session is less than 8 h away: g/kg/h for up to 4 h (ACSM/AND/DC 2016; 1.0-1.2).
REFUEL_PER_HOUR, REFUEL_HOURS, REFUEL_WITHIN = 1.0, 4.0, 8 * 60


def refuel_windows(
    sessions: tuple[TimedSession, ...], later: tuple[TimedSession, ...], mass_kg: float, slots: tuple[Slot, ...]
) -> tuple[RefuelWindow, ...]:
    """The windows of a day: before each long endurance session, and between sessions that are close together.

    sessions: the day's, in order of time; later: the next day's first ones.
    """
    windows = []
    eaten = [slot for slot in slots if slot.kind != "during"]
    for session in (*sessions, *later):
        before = before_window(session, slots, mass_kg)
        windows += [before] if before else []
    everything = (*sessions, *later)
    for first, second in pairwise(everything):
        if not first.next_day and first.endurance and second.start - first.end < REFUEL_WITHIN:
            window = _between(mass_kg, eaten, first, second)
            windows += [window] if window else []
    return tuple(windows)


def _between(mass_kg: float, eaten: list[Slot], first: TimedSession, second: TimedSession) -> RefuelWindow | None:
    """1.0 g/kg/h for up to 4 h after the first session, or as much as its meals hold before the second."""
    until = min(first.end + REFUEL_HOURS * 60, second.start)
    meals = [slot for slot in eaten if first.end <= slot.start <= until]
    if not meals:
        return None
    hours = (until - first.end) / 60.0
    room = sum(min(slot.energy_most, slot.energy_aim * 1.3) for slot in meals) * 0.7 / 4.0
    aim = min(REFUEL_PER_HOUR * mass_kg * hours, room)
    says = f"Carbohydrate between the {first.kind} and the {second.kind}"
    return RefuelWindow(tuple(slot.index for slot in meals), 0.0, round(aim), says)
