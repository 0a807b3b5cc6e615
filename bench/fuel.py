"""Made-up sessions fuelled: how long each takes, and whether its carbohydrate, fluid, sodium, fibre and fat hold.

Sixty of usual lengths, and two hundred others of any length.
"""

from __future__ import annotations

import math
import sys
from collections.abc import Callable, Sequence
from statistics import median

from bench.measure import stopwatch
from bench.sessions import made_up
from bench.table import Section, Table, seconds
from bench.whole import Days
from mealopt import api
from mealopt.documents.fuel import FuelPlan
from mealopt.people.case import Case
from mealopt.plans.fuel.plan import forget

#: Name of a set -> numbers of its sessions, and whether they are of any length.
SETS: dict[str, tuple[range, bool]] = {"usual lengths": (range(60), False), "any length": (range(2000, 2200), True)}

Fuelled = tuple[Case, FuelPlan]


def measure(_: Days) -> Section:
    """Every session once, by the public door: its targets, its plan and its recheck."""
    table = Table("Seconds a session, targets and recheck included.", ("what", "median", "least", "worst"))
    notes: list[str] = []
    for name, (numbers, any_minutes) in SETS.items():
        fuelled: list[Fuelled] = []
        took: dict[str, list[float]] = {"clock": [], "processor": []}
        for number in numbers:
            case = made_up(number, any_minutes)
            forget()
            with stopwatch() as watch:
                found = api.fuel(case)
            if found:
                took["clock"].append(watch.wall)
                took["processor"].append(watch.cpu)
            fuelled += [(case, plan) for plan in found]
        print(f"fuel: {len(fuelled)} sessions of {name}", file=sys.stderr, flush=True)
        for what, values in took.items():
            ends = (median(values), min(values), max(values))
            table.rows.append((f"{name}, {what}", *(seconds(value) for value in ends)))
        notes.append(f"{name}: {len(fuelled)} plans, {len(numbers) - len(fuelled)} of an hour or less without one")
        notes += [f"{name}, {what}: {_named(fuelled, broken)}" for what, broken in BROKEN.items()]
    return Section("Fuel of sessions", [table], notes)


def _under(case: Case, plan: FuelPlan) -> bool:
    return plan.gives_g_per_h < (plan.carbohydrate_g_per_h.least or 0.0) - 0.5


def _hour_over(case: Case, plan: FuelPlan) -> bool:
    used = case.athlete.carbohydrate_used_to_g_per_h
    cap = min(60.0 if used is None else 90.0, math.inf if used is None else used + 10.0)
    return max(plan.by_hour_g) > min(cap, plan.carbohydrate_g_per_h.most or 0.0) + 0.1


def _too_much_fluid(case: Case, plan: FuelPlan) -> bool:
    fluid = plan.fluid
    return fluid is not None and fluid.litres + fluid.food_water_l > fluid.ceiling_l_per_h * plan.minutes / 60 + 0.006


def _sodium_off(case: Case, plan: FuelPlan) -> bool:
    sodium, fluid = plan.sodium, plan.fluid
    if sodium is None or fluid is None or not fluid.litres:
        return False
    held = sodium.planned_mg / fluid.litres
    off = sodium.asked and abs(held - sodium.aim_mg_per_l) > 0.15 * sodium.aim_mg_per_l + 1.0
    return off or held > sodium.ceiling_mg_per_l + 1.0


def _fibrous_or_fat(case: Case, plan: FuelPlan) -> bool:
    hours = plan.minutes / 60
    return plan.totals.get("fibre_g", 0.0) > 2 * hours + 0.01 or plan.totals.get("fat_g", 0.0) > 3 * hours + 0.01


BROKEN: dict[str, Callable[[Case, FuelPlan], bool]] = {
    "carbohydrate under its least": _under,
    "an hour over the most of one": _hour_over,
    "fluid over its ceiling": _too_much_fluid,
    "sodium 15 % off its aim, or over its ceiling": _sodium_off,
    "fibre over 2 or fat over 3 g/h": _fibrous_or_fat,
}


def _named(fuelled: Sequence[Fuelled], broken: Callable[[Case, FuelPlan], bool]) -> str:
    found = [f"{plan.kind} {plan.effort} {plan.minutes} min" for case, plan in fuelled if broken(case, plan)]
    return f"{len(found)} of {len(fuelled)}" + (f" ({', '.join(found)})" if found else "")
