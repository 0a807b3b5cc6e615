"""The week: what its search takes on ten cases, beside other ways to the same and the naive program of the whole week.

Each way gets the same processor time for a case, counted in one process: that of two cores in the limit of the clock.
"""

from __future__ import annotations

import sys
import time
from dataclasses import dataclass
from statistics import median
from typing import Any

from bench.table import Section, Table, points, seconds
from bench.whole import Days, Options
from mealopt.core.clock import DAYS
from mealopt.milp.highs import Highs
from mealopt.people.reading import case_from_dict
from mealopt.plans.day.solve import first_places
from mealopt.plans.week.crew import Crew
from mealopt.plans.week.day import Days as WeekDays
from mealopt.plans.week.job import Ask, task_of
from mealopt.plans.week.search import Search
from mealopt.plans.week.state import WeekState
from mealopt.rules.weekly.joined import joined, prices_of
from tests.plans.random_weeks import make_week

#: The ten weeks: kind of eater and seed of `tests/plans/random_weeks.py`.
WEEKS = (
    ("omnivore", 0), ("vegan", 15), ("gluten_free", 4), ("vegetarian", 1), ("pescatarian", 2),
    ("omnivore", 6), ("vegan", 9), ("gluten_free", 10), ("allergens", 5), ("omnivore", 12),
)  # fmt: skip

#: The naive program is given the first so many only: it never ends before its time.
NAIVE = 3

#: Clock seconds that a week may take on two cores, and the gap that is to be proven.
CLOCK, GAP = 40.0, 0.02


@dataclass(frozen=True, slots=True)
class Way:
    """How one way ended. reached: processor seconds until the gap was proven, None where it was not."""

    value: float
    bound: float
    gap: float
    took: float
    reached: float | None


def searched(case: Any, limit: float) -> Way:
    """The search as it is, in one process."""
    start = time.process_time()
    task = task_of(case, DAYS, {})
    days = WeekDays(task)
    state = WeekState(DAYS, days.rows, days.ahead, {day: float(case.kitchen_on(day).cook_minutes) for day in DAYS})
    reached: list[float] = []

    def tell(_: str) -> None:
        if state.whole and state.gap <= GAP and not reached:
            reached.append(time.process_time() - start)

    crew = Crew(task, 1)
    crew._here = days
    Search(crew, state, GAP, limit, progress=tell, clock=time.process_time, start=start).run()
    return Way(state.value, state.bound, state.gap, time.process_time() - start, reached[0] if reached else None)


def priced(case: Any, limit: float) -> Way:
    """Prices from one linear program of the whole week, days solved with them, then mended: the other decomposition."""
    start = time.process_time()
    days = WeekDays(task_of(case, DAYS, {}))
    problems = [_problem(days, day) for day in DAYS]
    whole, _ = joined(problems, days.rows)
    duals = Highs(whole).relax().duals
    if not duals:
        # The first cards hold no week at all, so there are no prices to be had from them.
        return Way(float("inf"), 0.0, float("inf"), time.process_time() - start, None)
    prices = prices_of(days.rows, whole, duals)
    state = WeekState(DAYS, days.rows)
    bounds = []
    for day in DAYS:
        left = limit - (time.process_time() - start)
        answer = days.answer(Ask("priced", day, GAP / 3, max(1.0, left / (len(DAYS) - len(bounds))), prices=prices))
        bounds.append(answer.bound)
        if answer.entry is None:
            answer = days.answer(Ask("first", day, seconds=max(1.0, left)))
        state.keep(answer)
    state.bound_by_prices(prices, bounds)
    rounds = 0
    while time.process_time() - start < limit and state.charge > 0.05 and rounds < 2:
        for day in DAYS:
            left = limit - (time.process_time() - start)
            if left > 0:
                state.keep(days.answer(Ask("within", day, 0.008, min(6.0, left), state.others(day))))
        rounds += 1
    took = time.process_time() - start
    return Way(state.value, state.bound, state.gap, took, took if state.gap <= GAP else None)


def naive(case: Any, limit: float) -> Way:
    """One program of the whole week, given to the engine as it is: the first card of each day only, so less work."""
    start = time.process_time()
    days = WeekDays(task_of(case, DAYS, {}))
    whole, _ = joined([_problem(days, day) for day in DAYS], days.rows)
    answer = Highs(whole).solve(gap=1e-9, seconds=limit, gap_absolute=GAP * 350.0)
    value = answer.objective if answer.status.solved else float("inf")
    gap = (value - answer.bound) / max(value, 350.0) if answer.status.solved else float("inf")
    took = time.process_time() - start
    return Way(value, answer.bound, gap, took, took if gap <= GAP else None)


def _problem(days: WeekDays, day: str) -> Any:
    posed = days.posed(day)
    card = posed.card()
    card.deal(first_places(len(posed.slots)))
    return posed.problem(card)


def measure(days: Days) -> Section:
    """The part of the bench; `--cases` limits the weeks too."""
    options: Options = days.options
    limit = 2 * (options.limit if options.limit != 20.0 else CLOCK)
    ways = {
        "search": lambda case: searched(case, limit),
        "prices from one linear program": lambda case: priced(case, limit),
        "naive": lambda case: naive(case, limit),
    }
    table = Table(
        f"Processor seconds to a proven gap of {100 * GAP:g} %, at most {limit:g} in one process.",
        ("week", "way", "to the gap", "in all", "value", "bound", "gap, %"),
    )
    reached: dict[str, list[float]] = {name: [] for name in ways}
    weeks = WEEKS[: len(days.cases)]
    for place, (kind, seed) in enumerate(weeks):
        case = case_from_dict(make_week(seed, kind), "bench week")
        for name, way in ways.items():
            if name == "naive" and place >= NAIVE:
                continue
            found = way(case)
            print(f"{kind} {seed}, {name}: {found}", file=sys.stderr, flush=True)
            cells = ("-" if found.reached is None else seconds(found.reached), seconds(found.took))
            gap = "-" if found.gap == float("inf") else f"{100 * found.gap:.2f}"
            table.rows.append((f"{kind} {seed}", name, *cells, points(found.value), points(found.bound), gap))
            if found.reached is not None:
                reached[name].append(found.reached)
    notes = [
        f"{name}: proven in {len(took)} of {len(weeks)}"
        + (f", median {seconds(median(took))} s, worst {seconds(max(took))} s of processor time" if took else "")
        for name, took in reached.items()
    ]
    return Section("The week", [table], notes)
