"""`python -m bench [part ...]`: figures in Markdown on standard output; progress on standard error."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from bench import day, fuel, naive, page, recheck, replan, startup, swap, week, week_clock
from bench.cases import CASES, digest
from bench.measure import load, load_lines, machine
from bench.table import Section
from bench.whole import Days, Options

#: In the order in which they run: start-up first, while nothing of ours warms the machine.
PARTS: dict[str, Callable[[Days], Section]] = {
    "startup": startup.measure,
    "day": day.measure,
    "recheck": recheck.measure,
    "replan": replan.measure,
    "swap": swap.measure,
    "naive": naive.measure,
    "fuel": fuel.measure,
    "week": week.measure,
    "week_clock": week_clock.measure,
    "page": page.measure,
}


def _positive(kind: Callable[[str], float], words: str) -> Callable[[str], float]:
    def read(text: str) -> float:
        try:
            value = kind(text)
        except ValueError:
            value = 0
        if not 0 < value < float("inf"):
            raise argparse.ArgumentTypeError(f"read {text!r}; {words} above zero is expected")
        return value

    return read


def _parser() -> argparse.ArgumentParser:
    whole, number = _positive(int, "a whole number"), _positive(float, "a number")
    parser = argparse.ArgumentParser(prog="python -m bench", description="Measure speed as ratios in one run.")
    parser.add_argument("part", nargs="*", metavar="part", help=f"which parts: {', '.join(PARTS)} (none: all)")
    parser.add_argument("--cases", type=whole, default=len(CASES), help="only the first so many cases")
    parser.add_argument("--only", metavar="WORDS", default="", help="only cases whose name holds these words")
    parser.add_argument("--seconds", type=number, default=20.0, help="limit of each solve (default 20)")
    parser.add_argument("--gap", type=number, default=0.01, help="distance to the bound to prove (default 0.01)")
    parser.add_argument("--pairs", type=whole, default=10, help="processes of each kind in startup (default 10)")
    parser.add_argument("--rounds", type=whole, default=1, help="times that each day is measured (default 1)")
    parser.add_argument("-o", "--out", type=Path, help="write the figures to this file as well")
    return parser


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the parts that are named, print the figures, and write them only where asked. Returns the exit code."""
    parser = _parser()
    given = parser.parse_args(arguments)
    strange = [name for name in given.part if name not in PARTS]
    if strange:
        parser.error(f"no part is called {strange[0]!r}; there are {', '.join(PARTS)}")
    if given.out is not None and (given.out.is_dir() or not given.out.parent.is_dir()):
        parser.error(f"-o: {given.out} is no place for a file")
    cases = tuple(case for case in CASES[: given.cases] if given.only.lower() in case.name)
    if not cases:
        parser.error(f"--only: no case is called {given.only!r}; there are {', '.join(case.name for case in CASES)}")
    options = Options(given.gap, given.seconds, given.pairs, given.rounds)
    days = Days(cases, options)
    before = load()
    sections = [measure(days) for name, measure in PARTS.items() if not given.part or name in given.part]
    head = ["# Speed", "\n".join((*machine(digest()), *load_lines(before, load())))]
    if len(cases) < len(CASES):
        head.append(f"Only {len(cases)} of {len(CASES)} cases: not to be held against full runs.")
    text = "\n\n".join((*head, *(section.text() for section in sections))) + "\n"
    print(text, end="")
    if given.out is not None:
        given.out.write_text(text, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
