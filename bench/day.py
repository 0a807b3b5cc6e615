"""The day: what each step of planning one takes, beside the bare engines on the same exported model."""

from __future__ import annotations

import math
import sys
from dataclasses import dataclass
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from bench.engines import End, Run, contradiction, export, raw_cbc, raw_highs
from bench.measure import Took, stopwatch
from bench.table import Section, Table, points, seconds, spread
from bench.whole import STEPS, Days, Options, Planned
from mealopt.milp.search import tolerance
from mealopt.rules import weights

#: Aims of the project: seconds of a whole day at the median and at the worst; times the raw engine, and seconds beside
#: it, the larger of which the whole may take.
MEDIAN, WORST, TIMES, BESIDE = 1.0, 3.0, 1.3, 0.15

STATED = (
    "the whole proves its bound over all dishes that fit the day; the raw engines are given the model of the last card "
    "that the day built (fewer dishes), exported by PuLP as MPS and read back, and prove theirs over that alone",
    "the raw engine's time is its solve; reading the file is left out, and so is all building. CBC's holds its process "
    "and files, as PuLP runs it",
    "all three stop at the same distance to the bound: the relative gap or the absolute one of the plan's tolerance, "
    "whichever comes first; one thread each",
    "a run that the limit ended counts with its time, so medians over such runs are too low; the last column says how "
    "many were proven",
    "whole = posing + solving + writing + recheck, from a case in memory, with all tables loaded (the first day of a "
    "process loads them)",
)


@dataclass(slots=True)
class Compared:
    """One case in one round: the whole and the raw engines beside it. handing: PuLP's building and the engine's taking
    over of the last card's model, which the whole does once a card."""

    planned: Planned
    highs: Run | None = None
    cbc: Run | None = None
    handing: Took | None = None

    @property
    def building(self) -> float:
        """Seconds by the clock for rows, columns and handing over, all cards."""
        handing = self.handing.wall if self.handing else 0.0
        return self.planned.building.wall + handing * len(self.planned.problems)

    def kept(self, by_processor: bool = False) -> bool | None:
        """Whether the whole stays beside the raw engine as the aim says; None where neither came to its proof."""
        if self.highs is None:
            return None
        if self.planned.solve.end is not End.PROVEN:
            return False if self.highs.end is End.PROVEN else None
        whole, raw = self.planned.whole, self.highs.took
        ours, theirs = (whole.cpu, raw.cpu) if by_processor else (whole.wall, raw.wall)
        return ours <= max(TIMES * theirs, theirs + BESIDE)


def compare(planned: Planned, options: Options) -> Compared:
    """Run the raw engines on the last card's model of a planned day."""
    compared = Compared(planned)
    if not planned.problems:
        return compared
    from mealopt.milp.highs import Highs

    model = planned.problems[-1].model
    value = planned.solve.value if planned.plan else 0.0
    allowed = tolerance(value, options.gap, weights.FLOOR)
    with stopwatch() as compared.handing:
        Highs(model)
    with TemporaryDirectory(prefix="mealopt-bench-") as folder:
        path = export(model, Path(folder))
        compared.highs = raw_highs(path, options.gap, allowed, options.limit)
    compared.cbc = raw_cbc(model, options.gap, allowed, options.limit)
    return compared


def measure(days: Days) -> Section:
    """The day's figures over all cases."""
    rows = []
    for number in range(days.options.rounds):
        for case in days.cases:
            rows.append(compare(days.planned(case, number), days.options))
            print(f"day: {case.name}: {_shown(rows[-1].planned.solve)}", file=sys.stderr, flush=True)
    section = Section(f"A day to a proven {days.options.gap:.2%}, limit {days.options.limit:g} s", notes=list(STATED))
    section.tables = [_steps(rows), _ratios(rows), _cases(rows)]
    section.notes.insert(0, _floor(rows, days.options.gap))
    section.notes += _verdicts(rows) + _findings(rows)
    return section


def _steps(rows: list[Compared]) -> Table:
    table = Table(
        "Seconds a day, by the clock and by the processor.",
        ("step", "median", "worst", "median, processor", "worst, processor", "proven"),
    )

    def add(name: str, runs: list[Took], proven: str = "") -> None:
        walls, cpus = [run.wall for run in runs], [run.cpu for run in runs]
        if runs:
            cells = (median(walls), max(walls), median(cpus), max(cpus))
            table.rows.append((name, *(seconds(value) for value in cells), proven))

    def ended(runs: list[Run]) -> str:
        return f"{sum(run.end is End.PROVEN for run in runs)} of {len(runs)}"

    plans = [row.planned for row in rows if row.planned.took]
    for step in STEPS:
        add(step, [planned.took[step] for planned in plans if step in planned.took])
        if step == "solving":
            add("- of it rows and columns", [planned.building for planned in plans])
            add("- handing one model to the engine", [row.handing for row in rows if row.handing])
    add("**whole**", [planned.whole for planned in plans], ended([planned.solve for planned in plans]))
    for name, runs in (
        ("raw HiGHS, last card", [row.highs for row in rows if row.highs]),
        ("CBC, last card", [row.cbc for row in rows if row.cbc]),
    ):
        add(name, [run.took for run in runs], ended(runs))
    return table


def _ratios(rows: list[Compared]) -> Table:
    table = Table("Pair by pair, by the clock.", ("ratio", "median", "least", "most", "pairs"))
    pairs = [(row, row.highs) for row in rows if row.highs is not None and row.planned.took]
    both = [(row, raw) for row, raw in pairs if row.planned.solve.end is raw.end is End.PROVEN]
    figures = (
        ("whole / raw HiGHS, both proven", [row.planned.whole.wall / raw.took.wall for row, raw in both]),
        ("whole - raw HiGHS, s, both proven", [row.planned.whole.wall - raw.took.wall for row, raw in both]),
        ("whole / raw HiGHS, processor, both proven", [row.planned.whole.cpu / raw.took.cpu for row, raw in both]),
        ("whole / raw HiGHS, all", [row.planned.whole.wall / raw.took.wall for row, raw in pairs]),
        ("CBC / raw HiGHS, all", [row.cbc.took.wall / raw.took.wall for row, raw in pairs if row.cbc]),
        (
            "building / solving",
            [row.building / max(row.planned.took["solving"].wall - row.building, 1e-9) for row, _ in pairs],
        ),
    )
    table.rows = [(name, *spread(values), str(len(values))) for name, values in figures]
    return table


def _shown(run: Run | None) -> str:
    if run is None:
        return "-"
    return seconds(run.took.wall) if run.end is End.PROVEN else f"{seconds(run.took.wall)}, {run.end.value}"


def apart(run: Run) -> float | None:
    """(value - bound) / value, without any floor; None where one of them is missing or the value is nothing."""
    if not (math.isfinite(run.value) and math.isfinite(run.bound)) or run.value <= 0:
        return None
    return max(0.0, run.value - run.bound) / run.value


def _share(run: Run) -> str:
    share = apart(run)
    return "-" if share is None else f"{share:.1%}"


def _floor(rows: list[Compared], gap: float) -> str:
    """What the gap means in points, and what it is without its floor."""
    shares = [share for row in rows if (share := apart(row.planned.solve)) is not None]
    under = sum(row.planned.solve.value < weights.FLOOR for row in rows)
    within = sum(share <= gap for share in shares)
    middle, _, most = spread(shares, "{:.1%}")
    return (
        f"**{gap:.2%} is of the value or of {weights.FLOOR:g} points, whichever is more: {gap * weights.FLOOR:g} "
        f"points in the {under} of {len(rows)} days whose value is lower.** As a share of the value itself, value and "
        f"bound are {middle} apart at the median and {most} at the most; {within} of {len(shares)} days are within "
        f"{gap:.2%} of it"
    )


def _cases(rows: list[Compared]) -> Table:
    table = Table(
        "By case: seconds by the clock, sizes of the last card's model, points of the penalty (the whole's value and "
        "bound, how far they are apart as a share of the value, and the raw engine's value).",
        ("case", "meals", "cards", "columns", "rows", "whole", "raw HiGHS", "CBC", "value", "bound", "apart", "raw"),
    )
    for row in rows:
        planned = row.planned
        whole = seconds(planned.whole.wall)
        whole += "" if planned.solve.end is End.PROVEN else f", {planned.solve.end.value}"
        problem = planned.problems[-1] if planned.problems else None
        sizes = (
            ("-", "-", "-", "-")
            if problem is None
            else (
                str(len(problem.slots)),
                str(len(planned.problems)),
                str(problem.model.columns),
                str(len(problem.model.rows)),
            )
        )
        found = (planned.solve.value, planned.solve.bound)
        cells = (whole, _shown(row.highs), _shown(row.cbc), *map(points, found), _share(planned.solve))
        cells = (*cells, points(row.highs.value if row.highs else float("nan")))
        table.rows.append((planned.case.name, *sizes, *cells))
    return table


def _verdicts(rows: list[Compared]) -> list[str]:
    """The project's aims, each with what was found."""
    walls = [row.planned.whole.wall for row in rows]
    proven = sum(row.planned.solve.end is End.PROVEN for row in rows)
    kept, by_processor = [row.kept() for row in rows], [row.kept(by_processor=True) for row in rows]
    return [
        f"aim {MEDIAN:g} s at the median, {WORST:g} s at the worst, all proven: found {seconds(median(walls))} and "
        f"{seconds(max(walls))}, {proven} of {len(rows)} proven",
        f"aim: the whole takes at most the larger of {TIMES:g} times raw HiGHS and that plus {BESIDE:g} s: kept in "
        f"{kept.count(True)} of {len(rows)}, missed in {kept.count(False)}, not to be told in {kept.count(None)} "
        f"(by the processor: {by_processor.count(True)}, {by_processor.count(False)}, {by_processor.count(None)})",
        "aim: building a model takes less time than solving it: kept in "
        f"{sum(row.building < row.planned.took['solving'].wall - row.building for row in rows if row.planned.took)} "
        f"of {len(rows)}",
    ]


def _findings(rows: list[Compared]) -> list[str]:
    """What went wrong: days without a plan, plans that fail their recheck, engines that contradict each other."""
    found = []
    for row in rows:
        planned = row.planned
        if planned.error:
            found.append(f"**{planned.case.name}**: no plan: {planned.error}")
        if planned.broken:
            found.append(f"**{planned.case.name}**: fails its recheck: {planned.broken[0]}")
        named = (("raw HiGHS", row.highs), ("CBC", row.cbc))
        runs = [("the whole", planned.solve), *((name, run) for name, run in named if run)]
        for place, (name, run) in enumerate(runs):
            for other_name, other in runs[place + 1 :]:
                if End.ERROR not in (run.end, other.end) and (says := contradiction(run, other)):
                    found.append(f"**{planned.case.name}**: {name} against {other_name}: {says}")
    plans = sum(row.planned.plan is not None for row in rows)
    return found or [f"no value of one lies below a bound of another, and all {plans} plans pass their recheck"]
