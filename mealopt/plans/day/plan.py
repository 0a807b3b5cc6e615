"""One day from a case to a rechecked plan document."""

from __future__ import annotations

from mealopt.documents.plan import Plan
from mealopt.people.case import Case
from mealopt.plans.day.document import day_plan
from mealopt.plans.day.explain import explained
from mealopt.plans.day.pose import pose_day
from mealopt.plans.day.solve import NothingFits, Progress, solve_posed
from mealopt.plans.own import own_table
from mealopt.recheck.check import assert_plan


def plan_one_day(
    case: Case, day: str, *, gap: float, seconds: float, solver: str, progress: Progress | None = None
) -> Plan:
    """Plan the day. Raises BadInput, Refused, Unplannable, OutOfTime, BrokenPlan."""
    solved = solve_posed(pose_day(case, day), gap, seconds, solver, progress)
    if isinstance(solved, NothingFits):
        raise explained(solved)
    plan = day_plan(solved)
    menu = solved.posed.larder.menu
    assert_plan(plan, menu.pantry.composition, menu.pantry, own_table(menu))
    return plan
