"""A week's document after a change: its rules, cooking sheet, cautions, energy and groceries found again."""

from __future__ import annotations

import math

from mealopt.core.nutrients import ENERGY
from mealopt.documents.plan import Plan
from mealopt.menu.dishes import Menu
from mealopt.people.reading import case_from_dict
from mealopt.plans.groceries.shop import with_groceries
from mealopt.plans.week.ahead import ahead_of
from mealopt.plans.week.checks import all_checks
from mealopt.plans.week.cooking import cooking_sheet
from mealopt.plans.week.pose import case_rows
from mealopt.plans.week.words import generic_reason, week_cautions


def refreshed(plan: Plan, menu: Menu) -> Plan:
    """The plan with what hangs on all its days together worked out again from them. menu: the plan's own.

    A plan of the kind day gets its groceries only. The week's notes stay, for they tell how it was found.
    """
    if plan.kind == "day":
        return with_groceries(plan, menu)
    case = case_from_dict(plan.case, "the case of the plan")
    rows = case_rows(case, len(plan.days), menu, plan.week.use_up)
    reasons = {row.name: generic_reason(row) for row in rows}
    ahead = ahead_of(case, len(plan.days), menu)
    checks = all_checks(plan.days, rows, ahead, menu.pantry, reasons)
    eaten = round(math.fsum(day.totals.get(ENERGY, 0.0) for day in plan.days), 2)
    energy = plan.week.energy
    week = plan.week.model_copy(
        update={
            "checks": checks,
            "cooking": cooking_sheet(plan.days, menu),
            "cautions": week_cautions(case, checks),
            "energy": None if energy is None else energy.model_copy(update={"eaten_kcal": eaten}),
        }
    )
    return with_groceries(plan.model_copy(update={"week": week}), menu)
