"""Carbohydrate before a session: one source for the day's meals and for what a session's plan says of them."""

from __future__ import annotations

from collections.abc import Iterable

from mealopt.core.clock import clock
from mealopt.core.slots import RefuelWindow, Slot
from mealopt.targets.fuelling import just_awake_g
from mealopt.targets.mealtimes import Occasion
from mealopt.targets.windows import TimedSession, Window

#: Carbohydrate before an endurance session over 60 min, g/kg over the 1 to 4 h before: the least of the published 1-4.
BEFORE_CARBOHYDRATE, LONG = 1.0, 60

#: A meal counts for it that ends so many minutes before the start, from and to.
COUNTS = (45, 240)

#: A meal may hold so much more than suits it, and so much of its energy may be carbohydrate (project's assumption).
MORE, OF_ENERGY = 1.2, 0.7

#: Minutes after waking in which one is just awake, and to the start in which a meal is a bite.
JUST_AWAKE, BITE = 60, 60


def before_window(session: TimedSession, slots: Iterable[Slot], mass_kg: float) -> RefuelWindow | None:
    """What the meals ahead of a session should hold together, g; None where nothing is asked or no meal stands there.

    1 g/kg, or as much as those meals have room for.
    """
    least, most = COUNTS
    ahead = [slot for slot in slots if slot.kind != "during" and least <= session.start - slot.end <= most]
    if not session.endurance or session.minutes <= LONG or not ahead:
        return None
    room = sum(min(slot.energy_most, slot.energy_aim * MORE) for slot in ahead) * OF_ENERGY / 4.0
    aim = min(BEFORE_CARBOHYDRATE * mass_kg, room)
    says = f"Carbohydrate in the 1 to 4 h before the {session.kind} at {clock(session.start)}"
    number = None if session.next_day else session.number
    return RefuelWindow(tuple(slot.index for slot in ahead), 0.0, round(aim), says, number)


def just_awake_most(meal: Occasion, window: Window, wake: int, mass_kg: float) -> float | None:
    """The most carbohydrate of a bite soon after waking, right before a long session, g; None for any other meal."""
    session, lead = window.session, window.lead_minutes
    if session is None or lead is None or meal.main or not session.endurance or session.minutes <= LONG:
        return None
    return just_awake_g(mass_kg) if lead < BITE and meal.start - wake < JUST_AWAKE else None
