"""The week as a person waits for it: two processes side by side, by the clock and by their processor seconds.

On a machine that others use the clock says little; half of the processor seconds is what two idle cores would take, for
both processes are busy until the end.
"""

from __future__ import annotations

import os
import sys
import time
from pathlib import Path
from statistics import median
from typing import Any

from bench.measure import load
from bench.table import Section, Table, points, seconds
from bench.week import CLOCK, GAP, WEEKS
from bench.whole import Days
from mealopt.core.clock import DAYS
from mealopt.errors import MealoptError
from mealopt.people.reading import case_from_dict
from mealopt.plans.own import case_menu
from mealopt.plans.week.ahead import ahead_of
from mealopt.plans.week.crew import Crew
from mealopt.plans.week.job import task_of
from mealopt.plans.week.pose import case_rows
from mealopt.plans.week.search import Search
from mealopt.plans.week.state import WeekState
from tests.plans.random_weeks import make_week

#: Processes, and clock seconds for one week: more than one waits, for others use the machine too.
PROCESSES, LIMIT = 2, 2 * CLOCK


def spent(crew: Crew) -> float:
    """Processor seconds of this process and the crew's so far (Linux)."""
    total, ticks = time.process_time(), os.sysconf("SC_CLK_TCK")
    for process in crew._processes:
        fields = Path(f"/proc/{process._process.pid}/stat").read_text(encoding="ascii").rsplit(")", 1)[1].split()
        total += (int(fields[11]) + int(fields[12])) / ticks
    return total


def side_by_side(case: Any) -> tuple[WeekState, tuple[float, float] | None, float, float]:
    """The week, clock and processor seconds to the gap (None where it was not proven), and both in all."""
    start, before = time.perf_counter(), time.process_time()
    menu = case_menu(case)
    minutes = {day: float(case.kitchen_on(day).cook_minutes) for day in DAYS}
    state = WeekState(DAYS, case_rows(case, len(DAYS), menu), ahead_of(case, len(DAYS), menu), minutes)
    reached: list[tuple[float, float]] = []
    with Crew(task_of(case, DAYS, {}), PROCESSES) as crew:

        def tell(_: str) -> None:
            if state.whole and state.gap <= GAP and not reached:
                reached.append((time.perf_counter() - start, spent(crew) - before))

        Search(crew, state, GAP, LIMIT, progress=tell, start=start).run()
        used = spent(crew) - before
    return state, reached[0] if reached else None, time.perf_counter() - start, used


def measure(days: Days) -> Section:
    """The part of the bench; `--cases` limits the weeks too."""
    table = Table(
        f"Seconds to a proven gap of {100 * GAP:g} % in {PROCESSES} processes, at most {LIMIT:g} by the clock.",
        ("week", "clock", "processor", "processor / 2", "in all, processor", "value", "bound", "gap, %", "load"),
    )
    halves = []
    weeks = WEEKS[: len(days.cases)]
    for kind, seed in weeks:
        case = case_from_dict(make_week(seed, kind), "bench week")
        try:
            state, reached, _, used = side_by_side(case)
        except MealoptError as error:
            table.rows.append((f"{kind} {seed}", type(error).__name__, *["-"] * 7))
            continue
        cells: tuple[str, ...] = ("-", "-", "-")
        if reached is not None:
            halves.append(reached[1] / PROCESSES)
            cells = tuple(seconds(one) for one in (*reached, halves[-1]))
        found = (points(state.value), points(state.bound), f"{100 * state.gap:.2f}", f"{load():.1f}")
        table.rows.append((f"{kind} {seed}", *cells, seconds(used), *found))
        print(table.rows[-1], file=sys.stderr, flush=True)
    notes = [f"proven in {len(halves)} of {len(weeks)}"]
    if halves:
        notes[0] += f"; half of the processor seconds: median {seconds(median(halves))}, worst {seconds(max(halves))}"
    return Section("The week by the clock", [table], notes)
