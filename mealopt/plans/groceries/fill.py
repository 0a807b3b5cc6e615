"""Puts the groceries into a plan document."""

from __future__ import annotations

from typing import Any

from mealopt.documents.plan import Plan
from mealopt.plans.groceries.listing import lines_of
from mealopt.plans.groceries.needs import place_of, things_of
from mealopt.plans.groceries.shops import choose_shops
from mealopt.table.pantry import Pantry
from mealopt.table.prices import shipped_price_list


def kitchen_of(plan: Plan) -> dict[str, Any]:
    """The kitchen of the plan's own copy of its case; empty where there is none."""
    kitchen = plan.case.get("kitchen")
    return kitchen if isinstance(kitchen, dict) else {}


def people_of(plan: Plan) -> int:
    """For how many the case cooks; 1 where it does not say."""
    people = kitchen_of(plan).get("people_at_table")
    return people if isinstance(people, int) and people >= 1 else 1


def with_groceries(plan: Plan, pantry: Pantry) -> Plan:
    """The plan with its groceries: one shop, nothing at home, the prices that ship. pantry: the plan's own."""
    things = things_of(plan, pantry, float(people_of(plan)))
    shops = choose_shops(things, place_of(plan, plan.days[-1].day), 1)
    lines = tuple(line for line, _, _ in lines_of(plan, things, {}, shipped_price_list(), shops))
    return plan.model_copy(update={"groceries": lines})
