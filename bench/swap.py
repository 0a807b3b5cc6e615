"""The swap: foods struck out of random plans of all diets, one after the other, and what may come instead.

From document to document, tables loaded: reading the document's case, posing its day, the search by levels, writing
and rechecking. The plans are those of tests/plans/random_cases.py; the foods are drawn by a fixed seed.
"""

from __future__ import annotations

import random
import sys
from collections import Counter
from dataclasses import dataclass, field
from statistics import mean

from bench.cases import CASES
from bench.measure import Took, stopwatch
from bench.table import Section, Table, seconds
from bench.whole import Days
from mealopt import api
from mealopt.documents.plan import Meal, Plan
from mealopt.errors import MealoptError
from mealopt.people.reading import case_from_dict
from tests.plans.random_cases import KINDS, make

#: Random plans, foods struck out of each by itself, swaps in a row, plans that those and the offers begin with.
PLANS, FOODS, IN_A_ROW, LONG = 50, 2, 10, 8

#: The aims: seconds of a swap at the median and at the 95th percentile, and of all offers; share of foods that stay.
MEDIAN, MOST, OFFERS, KEPT = 0.5, 1.0, 2.0, 0.8


@dataclass(slots=True)
class Figures:
    """What was measured. ends: how the swaps ended; kept: share of the other foods that stayed, of each."""

    took: list[Took] = field(default_factory=list)
    ends: Counter[str] = field(default_factory=Counter)
    kept: list[float] = field(default_factory=list)
    changes: Counter[str] = field(default_factory=Counter)
    broken: int = 0
    penalties: list[tuple[float, float]] = field(default_factory=list)


def _planned(count: int) -> list[Plan]:
    """So many random plans, of all kinds in turn."""
    found: list[Plan] = []
    for seed in range(count):
        for kind in KINDS:
            if len(found) == count:
                return found
            try:
                found.append(api.plan_day(case_from_dict(make(seed, kind), f"{kind} {seed}"), "tue"))
            except MealoptError as error:
                print(f"swap: {kind} {seed}: {type(error).__name__}", file=sys.stderr, flush=True)
    return found


def _foods(meal: Meal) -> set[str]:
    return {item.food for item in meal.items} - {"salt"}


def _struck(plan: Plan, draw: random.Random) -> tuple[int, str]:
    meal = draw.choice([meal for meal in plan.days[0].meals if meal.dish_id is not None and _foods(meal)])
    return meal.number, draw.choice(sorted(_foods(meal)))


def _kept(before: Plan, after: Plan, number: int, out: str) -> float:
    """Share of the other foods that keep their place: the same food in the same meal."""
    left = {meal.number: _foods(meal) for meal in after.days[0].meals}
    others = [
        (meal.number, food)
        for meal in before.days[0].meals
        for food in _foods(meal)
        if (meal.number, food) != (number, out)
    ]
    return sum(food in left.get(at, set()) for at, food in others) / len(others)


def _swap(plan: Plan, draw: random.Random, figures: Figures) -> Plan:
    """One swap; the plan after it, or the same where there is none."""
    number, food = _struck(plan, draw)
    done = None
    with stopwatch() as took:
        try:
            done = api.swap(plan, number, food)
        except MealoptError as error:
            figures.ends[type(error).__name__] += 1
    figures.took.append(took)
    if done is None:
        return plan
    figures.ends["proven" if done.proven else "not proven" if done.foods_changed is not None else "planned anew"] += 1
    figures.changes["planned anew" if done.foods_changed is None else str(done.foods_changed)] += 1
    figures.kept.append(_kept(plan, done.plan, number, food))
    figures.broken += bool(api.recheck(done.plan))
    figures.penalties.append((done.penalty_after, done.fresh_at_best or 0.0))
    print(f"swap: {number} {food}: {done.says}, {took.cpu:.2f} s", file=sys.stderr, flush=True)
    return done.plan


def measure(days: Days) -> Section:
    """The figures: as many random plans as the share of the bench's own cases that this run looks at."""
    days.warm()
    share = len(days.cases) / len(CASES)
    plans = _planned(max(1, round(PLANS * share)))
    once, row = Figures(), Figures()
    draw = random.Random(4)
    for plan in plans:
        for _ in range(FOODS):
            _swap(plan, draw, once)
    for plan in plans[: max(1, round(LONG * share))]:
        for _ in range(IN_A_ROW):
            plan = _swap(plan, draw, row)
    table = Table(
        "Seconds from document to document.",
        ("what", "median", "95th", "worst", "median, processor", "95th, processor"),
    )
    table.rows.append(_times("a food struck out", once.took))
    table.rows.append(_times(f"the same, {IN_A_ROW} in a row", row.took))
    offered = [_offers(plan, draw) for plan in plans[: max(1, round(LONG * share))]]
    table.rows.append(_times("offers", [took for took, _ in offered]))
    notes = [_said("struck out", once), _said("in a row", row), _worn(row)]
    counts = [count for _, count in offered]
    notes.append(f"offers found in {OFFERS:g} s: {', '.join(map(str, counts))}")
    notes.append(f"aims: {MEDIAN:g} s at the median, {MOST:g} s at the 95th percentile, {KEPT:.0%} of other foods kept")
    return Section(f"A swap, on {len(plans)} random plans of all diets", [table], notes)


def _offers(plan: Plan, draw: random.Random) -> tuple[Took, int]:
    number, food = _struck(plan, draw)
    with stopwatch() as took:
        found = api.offers(plan, number, food, seconds=OFFERS)
    return took, len(found)


def _times(name: str, runs: list[Took]) -> tuple[str, ...]:
    walls, cpus = sorted(run.wall for run in runs), sorted(run.cpu for run in runs)
    high = min(len(runs) - 1, int(0.95 * len(runs)))
    middle = len(runs) // 2
    return (name, *(seconds(value) for value in (walls[middle], walls[high], walls[-1], cpus[middle], cpus[high])))


def _said(what: str, figures: Figures) -> str:
    ends = ", ".join(f"{count} {end}" for end, count in figures.ends.most_common())
    changes = ", ".join(f"{changed}: {count}" for changed, count in sorted(figures.changes.items()))
    kept = f"{mean(figures.kept):.1%}" if figures.kept else "-"
    said = f"{what}: {len(figures.took)} swaps: {ends}; other foods kept: {kept}; other foods changed: {changes}"
    return f"{said}; {figures.broken} fail their recheck"


def _worn(figures: Figures) -> str:
    """How far the penalty is above what a fresh plan could be at best, after so many in a row."""
    above = sorted(after - best for after, best in figures.penalties)
    return (
        f"points above a fresh plan's bound: median {above[len(above) // 2]:.1f}, most {above[-1]:.1f}"
        if above
        else "-"
    )
