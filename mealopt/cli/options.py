"""Options that several commands share, and the words that every command's help ends with."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from mealopt import api
from mealopt.cli.output import show, tell
from mealopt.cli.program import Between
from mealopt.core.clock import DAYS

if TYPE_CHECKING:
    from mealopt.api import Case

CAUTION = (
    "This is planning help for healthy adults, not medical advice. A doctor or registered dietitian decides for anyone "
    "under 18, pregnant or breastfeeding, with an eating disorder now or before, diabetes, kidney or heart disease, or "
    "medicines that interact with food."
)

Decorated = TypeVar("Decorated", bound=Callable[..., Any])

as_json = click.option("--json", "as_json", is_flag=True, help="Print JSON, and nothing else.")
case_argument = click.argument("case", required=False, metavar="[CASE]")
out_option = click.option("-o", "out", metavar="FILE", help="Write the plan document (JSON) to this file.")
gap_option = click.option(
    "--gap", type=Between(0.0, 0.5), default=0.01, show_default=True, help="Distance from the best to prove."
)
solver_option = click.option(
    "--solver", type=click.Choice(("highs", "cbc")), default="highs", show_default=True, help="The engine that solves."
)


def seconds_option(default: float, words: str = "Time to solve in.") -> Callable[[Decorated], Decorated]:
    """--seconds, the time to solve in. words: of its help."""
    kind = Between(0.0, 3600.0, min_open=True)
    return click.option("--seconds", type=kind, default=default, show_default=True, help=words)


def day_option(words: str) -> Callable[[Decorated], Decorated]:
    """--day, with words on what happens without it."""
    names = click.Choice(DAYS, case_sensitive=False)
    return click.option("--day", type=names, metavar="DAY", help=f"mon, tue, wed, thu, fri, sat or sun; {words}")


def read_case(case: str | None, as_json: bool) -> Case:
    """The case that was named, or the example, which is said: to standard error where only JSON may be printed."""
    if case is not None:
        return api.read_case(case)
    words = f"No case was named: this is the example that ships with the program, {near(api.example_case_path())}"
    if as_json:
        tell(f"mealopt: {words}")
    else:
        show([f"{words}\n"])
    return api.read_case(None)


def near(path: Path) -> str:
    """A path as short as it can be written from here."""
    here = Path.cwd()
    return str(path.relative_to(here)) if path.is_relative_to(here) else str(path)
