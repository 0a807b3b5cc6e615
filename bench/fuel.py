"""Sixty made-up sessions fuelled: how long each takes, and how near its carbohydrate and sodium come."""

from __future__ import annotations

import sys
from statistics import median

from bench.measure import stopwatch
from bench.sessions import made_up
from bench.table import Section, Table, seconds
from bench.whole import Days
from mealopt import api
from mealopt.documents.fuel import FuelPlan
from mealopt.plans.fuel.plan import forget

SESSIONS = 60


def measure(_: Days) -> Section:
    """Every session once, by the public door: its targets, its plan and its recheck."""
    plans: list[FuelPlan] = []
    walls, processor, without = [], [], 0
    for number in range(SESSIONS):
        case = made_up(number)
        forget()
        with stopwatch() as took:
            found = api.fuel(case)
        without += not found
        if found:
            walls.append(took.wall)
            processor.append(took.cpu)
        plans += found
    print(f"fuel: {len(plans)} sessions", file=sys.stderr, flush=True)
    table = Table("Seconds a session, targets and recheck included.", ("what", "median", "least", "worst"))
    for name, values in (("clock", walls), ("processor", processor)):
        table.rows.append((name, *(seconds(value) for value in (median(values), min(values), max(values)))))
    asked = [plan for plan in plans if plan.carbohydrate_g_per_h.aim]
    short = [plan for plan in asked if plan.gives_g_per_h < (plan.carbohydrate_g_per_h.least or 0.0) - 0.5]
    salted = [plan for plan in plans if plan.sodium and plan.sodium.asked and plan.fluid and plan.fluid.litres]
    off = [plan for plan in salted if plan.sodium and not _near(plan)]
    notes = [
        f"{len(plans)} plans, {without} sessions of an hour or less without one",
        f"carbohydrate under its least: {len(short)} of {len(asked)} ({_named(short)})",
        f"sodium outside its band: {len(off)} of {len(salted)} ({_named(off)})",
        f"most carbohydrate in one clock hour: {max(max(plan.by_hour_g) for plan in plans):.0f} g",
    ]
    return Section("Fuel of sessions", [table], notes)


def _near(plan: FuelPlan) -> bool:
    assert plan.sodium is not None
    return plan.sodium.least_mg_per_l - 1 <= plan.sodium.planned_mg_per_l <= plan.sodium.most_mg_per_l + 1


def _named(plans: list[FuelPlan]) -> str:
    return ", ".join(f"{plan.kind} {plan.effort} {plan.minutes} min" for plan in plans) or "none"
