"""`mealopt fuel`: what to carry, eat and drink in sessions."""

from __future__ import annotations

import click

from mealopt import api
from mealopt.cli import options
from mealopt.cli.output import show, show_json, write
from mealopt.cli.program import Command


@click.command(cls=Command, epilog=options.CAUTION, short_help="Say what to carry, eat and drink in sessions.")
@options.case_argument
@options.day_option("without it, every session of the week that lasts more than an hour.")
@click.option(
    "--session", type=int, metavar="K", help="One session: the K-th of the day, or of the week without a day."
)
@click.option("--sheet", is_flag=True, help="Print the sheet for the day of a race: a page of plain text for each.")
@click.option("--plan", metavar="PLAN", help="With --sheet: a plan of this case's days, whose meals are then named.")
@options.as_json
@options.seconds_option(5.0)
def fuel(
    case: str | None, day: str | None, session: int | None, sheet: bool, plan: str | None, as_json: bool, seconds: float
) -> None:
    """Say what goes into which bottle and pocket of each endurance session over an hour, and when it is eaten."""
    read = options.read_case(case, as_json or sheet)
    if sheet:
        document = None if plan is None else api.read_whole_plan(plan)
        write(api.event_sheet(read, plan=document, seconds=seconds, where=plan or "the plan"))
        return
    plans = api.fuel(read, day=day, session=session, seconds=seconds)
    if as_json:
        show_json([one.model_dump(mode="json") for one in plans])
        return
    from mealopt.cli.fuel_view import fuel_page

    show(fuel_page(read, plans, day))
