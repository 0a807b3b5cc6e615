"""A week from a case to a rechecked plan document."""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping

from mealopt.documents.plan import Plan
from mealopt.people.case import Case
from mealopt.plans.groceries.shop import with_groceries
from mealopt.plans.own import case_menu, own_table
from mealopt.plans.stopping import stop_by_hand
from mealopt.plans.week.ahead import ahead_of
from mealopt.plans.week.crew import Crew, cores
from mealopt.plans.week.document import week_plan
from mealopt.plans.week.job import task_of
from mealopt.plans.week.pose import case_rows
from mealopt.plans.week.search import Search
from mealopt.plans.week.state import WeekState
from mealopt.plans.week.use_up import checked_use_up
from mealopt.plans.week.words import reasons_for
from mealopt.recheck.check import assert_plan
from mealopt.targets.day import week_targets


def plan_one_week(
    case: Case,
    days: tuple[str, ...],
    *,
    gap: float,
    seconds: float,
    solver: str,
    progress: Callable[[str], None] | None = None,
    use_up: Mapping[str, float] | None = None,
    stop: Callable[[], bool] | None = None,
    processes: int | None = None,
) -> Plan:
    """Plan these days together. Raises BadInput, Refused, Unplannable, OutOfTime, BrokenPlan, KeyboardInterrupt."""
    start = time.perf_counter()
    targets = week_targets(case)
    menu = case_menu(case, targets.maintenance_only)
    wanted = checked_use_up(case, menu, use_up or {})
    minutes = {day: float(case.kitchen_on(day).cook_minutes) for day in days}
    state = WeekState(days, case_rows(case, len(days), menu, wanted), ahead_of(case, len(days), menu), minutes)
    with stop_by_hand() as pressed:

        def stopped() -> bool:
            return pressed() or (stop is not None and stop())

        with Crew(task_of(case, days, wanted), processes or cores(), stopped) as crew:
            search = Search(crew, state, gap, seconds, solver, progress, stopped, start=start)
            search.run()
            taken = time.perf_counter() - start
            by_hand = stopped() and not search.proven()
            reasons = reasons_for(state.rows, search.reach(), search.proven())
    plan = with_groceries(week_plan(case, state, targets, gap, taken, by_hand, menu, reasons), menu)
    assert_plan(plan, menu.pantry.composition, menu.pantry, own_table(menu))
    return plan
