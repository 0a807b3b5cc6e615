"""Random days planned anew at a random minute after random things: what holds, what is said, and how long it takes."""

from __future__ import annotations

import sys
from collections import Counter

from bench.measure import stopwatch
from bench.table import Section, Table, seconds, spread
from bench.whole import Days
from mealopt import api
from mealopt.documents.plan import Plan
from mealopt.errors import MealoptError
from mealopt.people.reading import case_from_dict
from tests.plans.random_cases import KINDS, make
from tests.plans.random_events import broken, happening

#: Days that are planned anew, the first seed of their cases, and the gap that they are planned with beforehand.
DAYS, FIRST_SEED, GAP = 50, 100, 0.1


def _plans(wanted: int, limit: float) -> list[tuple[str, Plan]]:
    """So many random days; a case that no plan or safety allows is passed over."""
    found: list[tuple[str, Plan]] = []
    seed = FIRST_SEED
    while len(found) < wanted:
        for kind in KINDS:
            case = case_from_dict(make(seed, kind), f"{kind} {seed}")
            try:
                found.append((f"{kind} {seed}", api.plan_day(case, "tue", gap=GAP, seconds=2 * limit)))
            except MealoptError as error:
                print(f"replan: {kind} {seed}: {type(error).__name__}", file=sys.stderr, flush=True)
        seed += 1
    return found[:wanted]


def measure(days: Days) -> Section:
    """Fifty random days, fewer where fewer cases are asked for."""
    wanted = min(DAYS, DAYS * len(days.cases) // 20 or 1)
    walls, processor, faults = [], [], []
    ends: Counter[str] = Counter()
    kept = meals = 0
    for number, (name, plan) in enumerate(_plans(wanted, days.options.limit)):
        happened = happening(number, plan)
        with stopwatch() as took:
            try:
                found = api.replan(plan, happened.now, seconds=days.options.limit, **happened.keys)
            except MealoptError as error:
                ends[type(error).__name__] += 1
                faults.append(f"{name}, {happened.now}, {happened.keys}: {error}")
                continue
        walls.append(took.wall)
        processor.append(took.cpu)
        wrong = broken(plan, found, happened)
        faults += [f"{name}, {happened.now}, {happened.keys}: {says}" for says in wrong]
        ends["met" if not found.short and not found.over else "said to the gram"] += 1
        coming = [pair for pair in found.meals if pair.before and pair.after and not pair.after.eaten]
        meals += len(coming)
        kept += sum(not pair.changed for pair in coming)
        print(f"replan: {name}", file=sys.stderr, flush=True)
    table = Table("Seconds from document to document.", ("what", "median", "least", "worst"))
    for what, values in (("clock", walls), ("processor", processor)):
        if values:
            middle = sorted(values)[len(values) // 2]
            table.rows.append((what, seconds(middle), seconds(min(values)), seconds(max(values))))
    share = spread([kept / meals] if meals else [], "{:.0%}")[0]
    notes = [
        f"{wanted} random days of all diets, each after one to three random things; ends: "
        + ", ".join(f"{count} {end}" for end, count in ends.most_common()),
        f"of {meals} planned meals that were still to come, {share} stayed as they were",
        "held for each: its recheck, nothing before now changed, what was eaten counts, protein and 75 % of energy of "
        f"meals to come, every miss said: {len(faults)} faults",
    ]
    notes += [f"**{fault}**" for fault in faults]
    return Section("A day planned anew", [table], notes)
