"""Food and drink in sessions, and the sheet for the day of an event."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from mealopt.documents.fuel import FuelPlan
    from mealopt.documents.plan import Plan
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


def event_sheet(case: Case, *, plan: Plan | None = None, seconds: float = 5.0, where: str = "the plan") -> str:
    """The sheet for the day of an event: plain text, 80 characters wide, a page for each race of the case.

    The days before it, the morning, what to pack, the race by the clock and by distance, the hours after. Several
    races: their pages follow one another, a form feed between them. plan: a plan of the case's days, whose meals are
    then named. where: the words that its refusal begins with. Raises as `fuel` does, BadInput where the case has no
    race, and where the plan is of another athlete or another week.
    """
    from mealopt.plans.fuel.asked import fuel_asked
    from mealopt.plans.fuel.event import check_plan_of, event_sheets

    if plan is not None:
        check_plan_of(case, plan, where)
    return "\n\f\n".join(event_sheets(case, fuel_asked(case, None, None, seconds), plan)) + "\n"
