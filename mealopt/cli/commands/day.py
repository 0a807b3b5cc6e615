"""`mealopt day`: one day's meals."""

from __future__ import annotations

from pathlib import Path

import click

from mealopt import api
from mealopt.cli import options
from mealopt.cli.output import Progress, show, writable, write_json
from mealopt.cli.program import STOPPED, Command, Whole
from mealopt.errors import BadInput


@click.command(cls=Command, epilog=options.CAUTION, short_help="Plan one day's meals.")
@options.case_argument
@options.day_option("without it, the day with the most endurance energy.")
@options.out_option
@options.as_json
@click.option("--method/--no-method", default=True, help="Say how each meal is made, or leave it out.")
@options.gap_option
@options.seconds_option(20.0)
@options.solver_option
@click.option("--unlike", multiple=True, metavar="PLAN", help="Another day than in this plan document; more than once.")
@click.option("--choices", type=Whole(2, 5), metavar="N", help="So many days (2 to 5) to choose from.")
def day(
    case: str | None,
    day: str | None,
    out: str | None,
    as_json: bool,
    method: bool,
    gap: float,
    seconds: float,
    solver: str,
    unlike: tuple[str, ...],
    choices: int | None,
) -> int:
    """Plan one day's meals and prove that they meet its targets."""
    if solver != "highs" and (unlike or choices):
        raise BadInput(f"--solver: read {solver}; --unlike and --choices are sought with highs alone")
    if unlike and choices:
        raise BadInput("read --unlike and --choices; one of the two is expected")
    if choices:
        return _choices(case, day, choices, out, as_json, gap, seconds)
    others = [api.read_plan(path) for path in unlike]
    target = None if out is None else writable(out, Path(case) if case else api.example_case_path())
    read = options.read_case(case, as_json)
    with Progress() as progress:
        if others:
            plan = api.unlike(read, others, day, gap=gap, seconds=seconds, progress=progress)
        else:
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


def _choices(
    case: str | None, day: str | None, count: int, out: str | None, as_json: bool, gap: float, seconds: float
) -> int:
    """Several days to choose from: shown beside each other, and each written to a file of its own."""
    names = [_numbered(out, place) for place in range(1, count + 1)] if out is not None else []
    source = Path(case) if case else api.example_case_path()
    targets = [writable(name, source) for name in names]
    read = options.read_case(case, as_json)
    with Progress() as progress:
        plans = api.choices(read, day, count, gap=gap, seconds=seconds, progress=progress)
    for plan, target in zip(plans, targets, strict=False):
        api.write_text(target, api.plan_text(plan))
    if as_json:
        write_json(f"[{','.join(api.plan_text(plan) for plan in plans)}]\n")
        return 0
    from mealopt.cli.choices_view import choices_page

    show(choices_page(plans, count))
    if names:
        show([f"The plan documents are in {', '.join(names[: len(plans)])}"])
    return 0


def _numbered(out: str, place: int) -> str:
    """The name of one of several files: plan-2.json for plan.json."""
    path = Path(out)
    return str(path.with_name(f"{path.stem}-{place}{path.suffix}"))
