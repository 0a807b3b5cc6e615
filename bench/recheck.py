"""What it takes to check a plan again: as the program does after each solve, and from a document's text."""

from __future__ import annotations

import sys

from bench.measure import Took, stopwatch
from bench.table import Section, Table, seconds, spread
from bench.whole import Days
from mealopt.documents.reading import plan_to_text
from mealopt.recheck.check import recheck_plan, recheck_text
from mealopt.table.composition import shipped_composition
from mealopt.table.pantry import shipped_pantry

#: Times that each plan is checked; the median counts.
TIMES = 5


def _median(runs: list[Took]) -> Took:
    return sorted(runs, key=lambda took: took.wall)[len(runs) // 2]


def measure(days: Days) -> Section:
    """Every plan of this run checked again, beside what planning it took."""
    kinds: dict[str, list[Took]] = {"a plan in memory": [], "a document's text": []}
    shares, broken, without = [], 0, []
    composition, pantry = shipped_composition(), shipped_pantry()
    for case in days.cases:
        planned = days.planned(case)
        if planned.plan is None:
            without.append(case.name)
            continue
        text = plan_to_text(planned.plan)
        memory, document = [], []
        for _ in range(TIMES):
            with stopwatch() as took:
                said = recheck_plan(planned.plan, composition, pantry)
            memory.append(took)
            with stopwatch() as took:
                recheck_text(text, case.name, composition, pantry)
            document.append(took)
        broken += bool(said)
        kinds["a plan in memory"].append(_median(memory))
        kinds["a document's text"].append(_median(document))
        shares.append(_median(memory).wall / planned.whole.wall)
        print(f"recheck: {case.name}", file=sys.stderr, flush=True)
    table = Table(f"Seconds a check, the median of {TIMES}.", ("what", "median", "least", "worst", "median, processor"))
    for name, runs in kinds.items():
        if runs:
            walls = sorted(run.wall for run in runs)
            cells = (_median(runs).wall, walls[0], walls[-1], _median(runs).cpu)
            table.rows.append((name, *(seconds(value) for value in cells)))
    middle, least, most = spread(shares, "{:.1%}")
    notes = [f"share of the whole: median {middle}, least {least}, most {most}"]
    if broken:
        notes.append(f"**{broken} plans fail their recheck**")
    if without:
        notes.append(f"no plan to check for: {', '.join(without)}")
    return Section("Checking a plan again", [table], notes)
