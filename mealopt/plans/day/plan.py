"""One day from a case to a rechecked plan document."""

from __future__ import annotations

from dataclasses import replace

from mealopt.documents.plan import Plan
from mealopt.errors import OutOfTime
from mealopt.milp.answer import Status
from mealopt.milp.stages import Stop
from mealopt.people.case import Case
from mealopt.plans.day.document import day_plan
from mealopt.plans.day.explain import explained, why_none
from mealopt.plans.day.found import NothingFits
from mealopt.plans.day.pose import pose_day
from mealopt.plans.day.solve import Progress, solve_posed
from mealopt.plans.own import own_table
from mealopt.plans.stopping import stop_by_hand
from mealopt.recheck.check import assert_plan


def plan_one_day(
    case: Case,
    day: str,
    *,
    gap: float,
    seconds: float,
    solver: str,
    progress: Progress | None = None,
    stop: Stop | None = None,
) -> Plan:
    """Plan the day. Raises BadInput, Refused, Unplannable, OutOfTime, BrokenPlan.

    Ctrl-C, or stop where it says True, ends the search with the best day so far, whose document says that it was
    stopped; KeyboardInterrupt where there is none yet.
    """
    posed = pose_day(case, day)
    with stop_by_hand() as pressed:

        def stopped() -> bool:
            return pressed() or (stop is not None and stop())

        try:
            solved = solve_posed(posed, gap, seconds, solver, progress, stopped)
        except OutOfTime as out:
            # Where no plan was found, it may be that there is none, or hardly one.
            raise why_none(posed, out, seconds) from None
    if isinstance(solved, NothingFits) and stopped():
        raise KeyboardInterrupt
    if isinstance(solved, NothingFits):
        raise explained(solved, seconds)
    unproven = solved.answer.status is Status.LIMIT
    plan = day_plan(replace(solved, stopped=stopped() and unproven))
    menu = solved.posed.larder.menu
    assert_plan(plan, menu.pantry.composition, menu.pantry, own_table(menu))
    return plan
