"""Food and drink in sessions, and the sheet for the day of an event."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from mealopt.documents.fuel import FuelPlan
    from mealopt.people.case import Case


def fuel(
    case: Case, *, day: str | None = None, session: int | None = None, seconds: float = 5.0
) -> tuple[FuelPlan, ...]:
    """What to carry, eat and drink in each endurance session of more than an hour, by the clock, in order of time.

    day: that day's alone. session: one alone, by its number in the day, or without a day in the week, counted from 1
    in order of time. seconds: to solve a session in. The day's meals hold the same food: it is counted once, there.
    Raises BadInput for a session that is none or is not fuelled, Refused with cautions that forbid such a plan,
    OutOfTime; BrokenPlan where the recheck finds a fault of ours.
    """
    from mealopt.plans.fuel.asked import fuel_asked

    return fuel_asked(case, day, session, seconds)
