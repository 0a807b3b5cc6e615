"""`mealopt week`: the days of a week planned together."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from mealopt import api
from mealopt.cli import options
from mealopt.cli.output import Progress, show, writable, write_json
from mealopt.cli.program import STOPPED, Between, Command
from mealopt.core.clock import DAYS


class Days(click.ParamType[Any]):
    """Days that follow each other: "thu", or the first and the last as "thu..sun"; beyond sun comes mon."""

    name = "days"

    def convert(
        self, value: str | tuple[str, ...], param: click.Parameter | None, ctx: click.Context | None
    ) -> tuple[str, ...]:
        """The days in their order. Raises a usage error for anything else."""
        if not isinstance(value, str):
            return value
        first, dots, last = value.strip().lower().partition("..")
        last = last if dots else first
        if first not in DAYS or last not in DAYS:
            self.fail(f"read {value!r}; a day or two of {', '.join(DAYS)} as FIRST..LAST is expected", param, ctx)
        count = (DAYS.index(last) - DAYS.index(first)) % len(DAYS) + 1
        return tuple(DAYS[(DAYS.index(first) + place) % len(DAYS)] for place in range(count))


class Amount(click.ParamType[Any]):
    """A food and its grams: "cabbage=900g"."""

    name = "food=grams"

    def convert(
        self, value: str | tuple[str, float], param: click.Parameter | None, ctx: click.Context | None
    ) -> tuple[str, float]:
        """Food and grams. Raises a usage error for anything else."""
        if not isinstance(value, str):
            return value
        food, _, amount = value.rpartition("=")
        number = amount.strip().lower().removesuffix("g").strip()
        try:
            grams = float(number)
        except ValueError:
            grams = 0.0
        if not food.strip() or not 1 <= grams <= 20000:
            self.fail(f'read {value!r}; a food and 1 to 20000 g is expected, like "cabbage=900g"', param, ctx)
        return food.strip(), grams


@click.command(cls=Command, epilog=options.CAUTION, short_help="Plan the days of a week together.")
@options.case_argument
@options.out_option
@options.as_json
@click.option("--days", type=Days(), default="mon..sun", show_default=True, help="Which days, as FIRST..LAST.")
@click.option("--use-up", type=Amount(), multiple=True, metavar="FOOD=GRAMS", help="Food that should be eaten.")
@click.option("--method/--no-method", default=False, help="Say how each meal is made, or leave it out.")
@click.option("--gap", type=Between(0.0, 0.5), default=0.02, show_default=True, help="Distance from the best to prove.")
@options.seconds_option(40.0)
@options.solver_option
def week(
    case: str | None,
    out: str | None,
    as_json: bool,
    days: tuple[str, ...],
    use_up: tuple[tuple[str, float], ...],
    method: bool,
    gap: float,
    seconds: float,
    solver: str,
) -> int:
    """Plan the days of a week together: each meets its targets, and the week its rules, or they are named."""
    target = None if out is None else writable(out, Path(case) if case else api.example_case_path())
    read = options.read_case(case, as_json)
    with Progress() as progress:
        plan = api.plan_week(read, days=days, gap=gap, seconds=seconds, solver=solver, progress=progress, use_up=use_up)
    text = api.plan_text(plan)
    if target is not None:
        api.write_text(target, text)
    if as_json:
        write_json(text)
    else:
        from mealopt.cli.week_view import week_page

        show(week_page(plan, method=method))
        if out is not None:
            show([f"The plan document is in {out}"])
    return STOPPED if plan.solve.status == "stopped" else 0
