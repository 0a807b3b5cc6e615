"""`mealopt day`: one day's meals."""

from __future__ import annotations

from pathlib import Path

import click

from mealopt import api
from mealopt.cli import options
from mealopt.cli.output import Progress, show, writable, write_json
from mealopt.cli.program import STOPPED, Command


@click.command(cls=Command, epilog=options.CAUTION, short_help="Plan one day's meals.")
@options.case_argument
@options.day_option("without it, the day with the most endurance energy.")
@options.out_option
@options.as_json
@click.option("--method/--no-method", default=True, help="Say how each meal is made, or leave it out.")
@options.gap_option
@options.seconds_option(20.0)
@options.solver_option
def day(
    case: str | None,
    day: str | None,
    out: str | None,
    as_json: bool,
    method: bool,
    gap: float,
    seconds: float,
    solver: str,
) -> int:
    """Plan one day's meals and prove that they meet its targets."""
    target = None if out is None else writable(out, Path(case) if case else api.example_case_path())
    read = options.read_case(case, as_json)
    with Progress() as progress:
        plan = api.plan_day(read, day, gap=gap, seconds=seconds, solver=solver, progress=progress)
    text = api.plan_text(plan)
    if target is not None:
        api.write_text(target, text)
    if as_json:
        write_json(text)
    else:
        from mealopt.cli.day_view import day_page

        show(day_page(plan, plan.days[0], method=method))
        if out is not None:
            show([f"The plan document is in {out}"])
    return STOPPED if plan.solve.status == "stopped" else 0
