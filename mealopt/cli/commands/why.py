"""`mealopt why` and `mealopt why-not`: why a planned day is as it is."""

from __future__ import annotations

from dataclasses import asdict, replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from mealopt import api
from mealopt.cli import options
from mealopt.cli.output import show, show_json
from mealopt.cli.program import Command

if TYPE_CHECKING:
    from mealopt.api import Plan, PlanDay

case_folder = click.option(
    "--case-folder", metavar="FOLDER", help="Where the case file lies, if it names foods of your own."
)


def _entry(plan: Plan, day: str | None) -> PlanDay:
    return next(one for one in plan.days if day is None or one.day == day)


@click.command(cls=Command, epilog=options.CAUTION, short_help="Say which limits bind in a day.")
@click.argument("plan")
@options.day_option("which of a week's plan.")
@case_folder
@options.as_json
def why(plan: str, day: str | None, case_folder: str | None, as_json: bool) -> None:
    """Say which limits bind in a day of PLAN, and what easing each by a little would buy."""
    read = api.read_plan(plan)
    folder = case_folder or api.own_folder(read, Path(plan).resolve().parent)
    found = api.why(read, day, folder, where=plan)
    if as_json:
        show_json([asdict(one) for one in found])
        return
    from mealopt.cli.why_view import why_page

    show(why_page(read, _entry(read, day), found))


@click.command("why-not", cls=Command, epilog=options.CAUTION, short_help="Say what would follow if a food were in.")
@click.argument("plan")
@click.argument("name", metavar="FOOD|DISH")
@options.day_option("which of a week's plan.")
@case_folder
@options.as_json
@options.seconds_option(8.0)
def why_not(plan: str, name: str, day: str | None, case_folder: str | None, as_json: bool, seconds: float) -> None:
    """Say what would follow if a food or a dish were in a day of PLAN, or what it clashes with."""
    read = api.read_plan(plan)
    folder = case_folder or api.own_folder(read, Path(plan).resolve().parent)
    found = api.why_not(read, name, day, folder, seconds=seconds, where=plan)
    if as_json:
        show_json({key: value for key, value in asdict(replace(found, plan=None)).items() if key != "plan"})
        return
    from mealopt.cli.why_view import why_not_page

    show(why_not_page(read, _entry(read, day), found))
