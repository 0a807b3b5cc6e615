"""What starting the command costs, beside importing pandas: whole processes, taken in turn."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path
from statistics import median

from bench.measure import ROOT, Took, stopwatch
from bench.table import Section, Table, seconds, spread
from bench.whole import Days

#: The command may take at most this many times as long as importing pandas.
AIM = 1.5


def command() -> tuple[list[str], str]:
    """How `mealopt` is started here, and words for it: the installed command, or its entry point in this folder."""
    beside = Path(sys.executable).with_name("mealopt")
    found = str(beside) if beside.is_file() else shutil.which("mealopt")
    if found:
        return [found], "the installed command"
    return [sys.executable, "-c", "from mealopt.cli.main import main; main()"], "the entry point, not installed"


def once(arguments: list[str]) -> Took:
    """One process from start to end. Raises RuntimeError with its last words where it fails."""
    with stopwatch() as took:
        ended = subprocess.run(arguments, cwd=ROOT, capture_output=True, text=True)
    if ended.returncode:
        raise RuntimeError(f"{arguments}: exit {ended.returncode}: {ended.stderr.strip()[-300:]}")
    return took


def measure(days: Days) -> Section:
    """`mealopt targets` against `import pandas`, and against an interpreter that does nothing."""
    start, words = command()
    kinds = {
        "`mealopt targets`": [*start, "targets"],
        "`python -c 'import pandas'`": [sys.executable, "-c", "import pandas"],
        "`python -c pass`": [sys.executable, "-c", "pass"],
    }
    for arguments in kinds.values():
        once(arguments)
    taken: dict[str, list[Took]] = {name: [] for name in kinds}
    for _ in range(days.options.pairs):
        for name, arguments in kinds.items():
            taken[name].append(once(arguments))
    table = Table(
        "Seconds a process, taken in turn after one of each that is not counted.",
        ("process", "median", "worst", "median, processor"),
    )
    for name, runs in taken.items():
        walls = [run.wall for run in runs]
        cells = (median(walls), max(walls), median([run.cpu for run in runs]))
        table.rows.append((name, *(seconds(value) for value in cells)))
    ours, theirs, _ = taken.values()
    pairs = [one.wall / other.wall for one, other in zip(ours, theirs, strict=True)]
    by_processor = [one.cpu / other.cpu for one, other in zip(ours, theirs, strict=True)]
    ratio = Table("Pair by pair.", ("ratio", "median", "least", "most", "pairs"))
    ratio.rows = [
        ("targets / pandas, clock", *spread(pairs), str(len(pairs))),
        ("targets / pandas, processor", *spread(by_processor), str(len(pairs))),
    ]
    kept = "kept" if median(pairs) <= AIM else "missed"
    notes = [f"started as {words}", f"aim: at most {AIM:g} times importing pandas, at the median of the pairs: {kept}"]
    return Section("Starting the command", [table, ratio], notes)
