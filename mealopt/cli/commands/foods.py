"""`mealopt foods`: look into the foods and dishes that plans are made of."""

from __future__ import annotations

import hashlib
import tempfile
from pathlib import Path

import click

from mealopt import api
from mealopt.cli import options
from mealopt.cli.output import show, show_json, writable
from mealopt.cli.program import OUR_FAULT, Group, print_help
from mealopt.errors import BadInput

_words = click.argument("words", nargs=-1, required=True)
_own = click.option("--own", metavar="FILE", help="Your own foods and dishes beside them, from this file.")


@click.group(cls=Group, invoke_without_command=True, epilog=options.CAUTION, short_help="Look into foods and dishes.")
@click.pass_context
def foods(context: click.Context) -> None:
    """Look into the foods and dishes that plans are made of."""
    if context.invoked_subcommand is None:
        print_help(context)


@foods.command(short_help="List what holds all the words.")
@_words
@_own
@options.as_json
def find(words: tuple[str, ...], own: str | None, as_json: bool) -> None:
    """List the foods, dishes and rows of the food table that hold all WORDS."""
    asked = " ".join(words)
    found, dishes = api.find_foods(asked, own), api.find_dishes(asked, own)
    if as_json:
        from mealopt.cli.foods_document import found_document

        show_json(found_document(asked, found, dishes))
    else:
        from mealopt.cli.foods_view import found_page

        show(found_page(asked, found, dishes))


@foods.command("show", short_help="Show all about one food or dish.")
@click.argument("food", nargs=-1, required=True)
@_own
@options.as_json
def show_one(food: tuple[str, ...], own: str | None, as_json: bool) -> None:
    """Show all that is known of FOOD: a food's name, a dish's id, or the number of a row of the food table."""
    from mealopt.cli import foods_document, foods_view

    name = " ".join(food)
    dish = api.show_dish("_".join(name.casefold().split()), own)
    try:
        shown = api.show_food(name, own)
    except BadInput as error:
        if dish is None:
            near = "; ".join(one.id for one in api.find_dishes(name, own)[:3])
            raise BadInput(f"{error}, nor a dish of that id{near and f' (dishes that hold it: {near})'}") from None
        if as_json:
            show_json(foods_document.dish_document(dish))
        else:
            show(foods_view.dish_page(dish))
        return
    if as_json:
        show_json(foods_document.food_document(shown))
    else:
        show(foods_view.food_page(shown))


@foods.command(short_help="Check the food files.")
@_own
@options.as_json
def check(own: str | None, as_json: bool) -> int:
    """Check the food files by the rules of food-composition practice, and name each row that fails.

    With --own, your own file is read first: what cannot be in it is refused, and what you should know of it is told.
    """
    findings = api.check_foods(own)
    if as_json:
        from mealopt.cli.foods_document import checks_document

        show_json(checks_document(findings))
    else:
        from mealopt.cli.foods_view import checks_page

        show(checks_page(findings))
    return OUR_FAULT if any(finding.severity == "fault" for finding in findings) else 0


@foods.command("import", short_help="Make the food table anew.")
@click.argument("folder")
@click.option("-o", "out", metavar="FILE", help="Write the table to this file; without it, nothing is written.")
@options.as_json
def import_table(folder: str, out: str | None, as_json: bool) -> None:
    """Make the food table from FOLDER, which holds ABBREV.txt and FOOD_DES.txt of USDA SR28."""
    target = None if out is None else writable(out)
    with tempfile.TemporaryDirectory() as aside:
        made = target or Path(aside) / "composition.csv"
        rows = api.import_foods(folder, made)
        sha256 = hashlib.sha256(made.read_bytes()).hexdigest()
    if as_json:
        from mealopt.cli.foods_document import import_document

        show_json(import_document(rows, sha256, out))
    else:
        where = f"written to {out}" if out else "nothing written: name a file with -o"
        show([f"{rows:,} foods; {where}", f"SHA-256 {sha256}"])
