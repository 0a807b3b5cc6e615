"""The naive peer: every dish that fits, no card, one raw solve; and whether it agrees with what the cards prove."""

from __future__ import annotations

import sys
from math import isfinite
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from bench.engines import End, Run, contradiction, export, raw_highs
from bench.measure import Took, stopwatch
from bench.table import Section, Table, points, seconds, spread
from bench.whole import Days, Options, Planned
from mealopt.milp.search import tolerance
from mealopt.plans.day.pose import PosedDay
from mealopt.rules import weights

#: More places than there will ever be dishes.
ALL = 100_000


def solve_naively(planned: Planned, options: Options) -> tuple[Run, Took, tuple[int, int]] | None:
    """The day's full model on the raw engine: the run, the time to build the model, and its columns and rows.

    None where the day could not even be posed, or a slot has no dish at all.
    """
    if planned.posed is None:
        return None
    with stopwatch() as building:
        card = planned.posed.card()
        card.deal(ALL)
        if card.empty():
            return None
        # By the class, not by the watched day: this model is the peer's, not one that the day built.
        problem = PosedDay.problem(planned.posed, card)
    allowed = tolerance(planned.solve.value if planned.plan else 0.0, options.gap, weights.FLOOR)
    with TemporaryDirectory(prefix="mealopt-bench-") as folder:
        run = raw_highs(export(problem.model, Path(folder)), options.gap, allowed, options.limit)
    return run, building, (problem.model.columns, len(problem.model.rows))


def _known(runs: list[Run]) -> str:
    values, bounds = (sum(map(isfinite, found)) for found in ([run.value for run in runs], [run.bound for run in runs]))
    return f"the peer found {values} values and {bounds} bounds to compare"


def measure(days: Days) -> Section:
    """Each case's full model on the raw engine, beside the whole of the same run."""
    table = Table(
        "By case: seconds by the clock; the whole has the cards and the stages, the peer has neither.",
        ("case", "columns", "rows", "building", "raw", "processor", "whole", "raw's value", "raw's bound", "value"),
    )
    ratios, runs, findings = [], [], []
    for case in days.cases:
        planned = days.planned(case)
        naive = solve_naively(planned, days.options)
        if naive is None:
            findings.append(f"**{case.name}**: no model: {planned.error}")
            continue
        run, building, (columns, rows) = naive
        print(f"naive: {case.name}: {seconds(run.took.wall)} {run.end.value}", file=sys.stderr, flush=True)
        runs.append(run)
        ratios.append((building.wall + run.took.wall) / max(planned.whole.wall, 1e-9))
        if End.ERROR is not planned.solve.end and (says := contradiction(planned.solve, run)):
            findings.append(f"**{case.name}**: the whole against the peer: {says}")
        raw = seconds(run.took.wall) + ("" if run.end is End.PROVEN else f", {run.end.value}")
        whole = seconds(planned.whole.wall) + (
            "" if planned.solve.end is End.PROVEN else f", {planned.solve.end.value}"
        )
        times = (seconds(building.wall), raw, seconds(run.took.cpu), whole)
        found = map(points, (run.value, run.bound, planned.solve.value))
        table.rows.append((case.name, str(columns), str(rows), *times, *found))
    middle, least, most = spread(ratios)
    proven = sum(run.end is End.PROVEN for run in runs)
    notes = [
        f"(building + raw) / whole: median {middle}, least {least}, most {most}; proven {proven} of {len(runs)}"
        + (f"; median of the raw solve {seconds(median([run.took.wall for run in runs]))} s" if runs else ""),
        "a run that the limit ended counts with its time: such a ratio is a lower end. The engine may pass its limit: "
        "it does not look at the clock everywhere",
        *(findings or [f"no value or bound contradicts those that the cards prove over all dishes ({_known(runs)})"]),
    ]
    return Section(f"The naive peer, limit {days.options.limit:g} s", [table], notes)
