"""`mealopt groceries`: what to buy for a plan."""

from __future__ import annotations

from pathlib import Path

import click

from mealopt import api
from mealopt.cli import options
from mealopt.cli.output import show, show_json, writable
from mealopt.cli.program import Command, Whole
from mealopt.errors import BadInput


@click.command(cls=Command, epilog=options.CAUTION, short_help="Say what to buy for a plan.")
@click.argument("plan")
@click.option(
    "--have",
    multiple=True,
    metavar="FOOD=GRAMS",
    help='What is at home, in grams as bought, like "oats, rolled=400g" or "milk=300g by tue", or a file with one a '
    "line; more than once.",
)
@click.option("--bought", metavar="OLDPLAN", help="The plan as it was before a change, whose list has been bought.")
@click.option("--shops", type=Whole(1, 2), default=1, show_default=True, help="Shop once, or twice a week.")
@click.option("--prices", metavar="FILE", help="Your own packs and prices, in the form of foods/prices.csv.")
@click.option("--people", type=Whole(1, 12), help="For how many is cooked; without it, as the case says.")
@click.option("--left", metavar="FILE", help="Write what remains to this file, for --have in the next week.")
@click.option("--csv", "table", metavar="FILE", help="Write the list as a table for a spreadsheet.")
@click.option("--text", metavar="FILE", help="Write the list as plain text, to copy or send.")
@click.option("--case-folder", metavar="FOLDER", help="Where the case file lies, if it names foods of your own.")
@options.as_json
def groceries(
    plan: str,
    have: tuple[str, ...],
    bought: str | None,
    shops: int,
    prices: str | None,
    people: int | None,
    left: str | None,
    table: str | None,
    text: str | None,
    case_folder: str | None,
    as_json: bool,
) -> None:
    """Say what to buy for PLAN, the document of a day or a week: whole packs by aisle, less what is at home."""
    read = api.read_whole_plan(plan, case_folder)
    files = [(path, writable(path, Path(plan))) for path in (left, table, text) if path is not None]
    if len({target for _, target in files}) < len(files):
        raise BadInput(f"{files[-1][0]}: named for two files to write; a name for each is expected")
    folder = case_folder or api.own_folder(read, Path(plan).resolve().parent)
    at_home, in_vain = _at_home(have), None
    if bought is None:
        shopping = api.groceries(read, at_home, shops=shops, prices=prices, people=people, folder=folder)
    else:
        old = api.read_whole_plan(bought, case_folder)
        change = api.groceries_after(old, read, at_home, shops=shops, prices=prices, people=people, folder=folder)
        shopping, in_vain = change.now, change.in_vain
    made = {left: api.left_over, table: api.groceries_csv, text: api.groceries_text}
    for path, target in files:
        api.write_text(target, made[path](shopping))
    if as_json:
        show_json(api.groceries_data(shopping, in_vain))
        return
    from mealopt.cli.groceries_view import groceries_page

    show(groceries_page(shopping, in_vain))
    if files:
        show([f"\nWritten: {', '.join(path for path, _ in files)}"])


def _at_home(given: tuple[str, ...]) -> dict[str, float]:
    """Food -> grams, of all that was given: a food with its grams, or a file of them. Raises BadInput."""
    return api.read_have(*(entry if "=" in entry and not Path(entry).is_file() else Path(entry) for entry in given))
