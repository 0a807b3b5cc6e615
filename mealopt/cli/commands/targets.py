"""`mealopt targets`: each day's numbers."""

from __future__ import annotations

import click

from mealopt import api
from mealopt.cli import options
from mealopt.cli.output import show, show_json
from mealopt.cli.program import Command


@click.command(cls=Command, epilog=options.CAUTION, short_help="Show each day's numbers.")
@options.case_argument
@options.day_option("without it, the whole week is shown.")
@options.as_json
def targets(case: str | None, day: str | None, as_json: bool) -> None:
    """Show the week's numbers, with how each came about."""
    read = options.read_case(case, as_json)
    week = api.week_targets(read)
    notes = api.case_notes(read)
    from mealopt.cli import targets_view

    if as_json:
        show_json(targets_view.targets_document(read, week, notes, day))
    else:
        show(targets_view.targets_page(read, week, notes, day))
