"""The command `mealopt`: reads what a person asks, calls `mealopt.api`, prints; what is heavy loads when needed."""

from __future__ import annotations

import hashlib
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from mealopt import __version__, api
from mealopt.cli.output import Progress, show, show_json, tell, writable, write, write_json
from mealopt.cli.program import OUR_FAULT, STOPPED, Between, Program, print_help
from mealopt.core.clock import DAYS
from mealopt.errors import BadInput

if TYPE_CHECKING:
    from mealopt.api import Case

CAUTION = (
    "This is planning help for healthy adults, not medical advice. A doctor or registered dietitian decides for anyone "
    "under 18, pregnant or breastfeeding, with an eating disorder now or before, diabetes, kidney or heart disease, or "
    "medicines that interact with food."
)

EXIT_CODES = (
    "Exit codes: 0 done; 1 a fault of the program; 2 bad input; 3 no plan can meet the targets, or safety forbids the "
    "goal; 4 the time passed without a plan; 130 stopped by hand."
)

_Command = TypeVar("_Command", bound=Callable[..., Any])

_as_json = click.option("--json", "as_json", is_flag=True, help="Print JSON, and nothing else.")
_case = click.argument("case", required=False, metavar="[CASE]")
_words = click.argument("words", nargs=-1, required=True)
_own = click.option("--own", metavar="FILE", help="Your own foods and dishes beside them, from this file.")


def _day(words: str) -> Callable[[_Command], _Command]:
    names = click.Choice(DAYS, case_sensitive=False)
    return click.option("--day", type=names, metavar="DAY", help=f"mon, tue, wed, thu, fri, sat or sun; {words}")


def _version(context: click.Context, _: click.Parameter, asked: bool) -> None:
    if asked and not context.resilient_parsing:
        write(f"mealopt {__version__}\n")
        context.exit()


@click.group(cls=Program, invoke_without_command=True, epilog=f"{CAUTION}\n\n{EXIT_CODES}")
@click.option("--version", is_flag=True, is_eager=True, expose_value=False, callback=_version, help="Show the version.")
@click.pass_context
def main(context: click.Context) -> None:
    """Turn a training week into food: targets for each day, and meals that are proven to meet them.

    CASE is a file that describes the athlete, the week's sessions, the goal and the kitchen. Without it, the example
    that ships with the program is used.
    """
    if context.invoked_subcommand is None:
        print_help(context)


@main.command(epilog=CAUTION, short_help="Show each day's numbers.")
@_case
@_day("without it, the whole week is shown.")
@_as_json
def targets(case: str | None, day: str | None, as_json: bool) -> None:
    """Show the week's numbers, with how each came about."""
    read = _read(case, as_json)
    week = api.week_targets(read)
    notes = api.case_notes(read)
    from mealopt.cli import targets_view

    if as_json:
        show_json(targets_view.targets_document(read, week, notes, day))
    else:
        show(targets_view.targets_page(read, week, notes, day))


@main.command(epilog=CAUTION, short_help="Plan one day's meals.")
@_case
@_day("without it, the day with the most endurance energy.")
@click.option("-o", "out", metavar="FILE", help="Write the plan document (JSON) to this file.")
@_as_json
@click.option("--method/--no-method", default=True, help="Say how each meal is made, or leave it out.")
@click.option("--gap", type=Between(0.0, 0.5), default=0.01, show_default=True, help="Distance from the best to prove.")
@click.option(
    "--seconds", type=Between(0.0, 3600.0, min_open=True), default=20.0, show_default=True, help="Time to solve in."
)
@click.option(
    "--solver", type=click.Choice(("highs", "cbc")), default="highs", show_default=True, help="The engine that solves."
)
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
    read = _read(case, as_json)
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


def _read(case: str | None, as_json: bool) -> Case:
    """The case that was named, or the example, which is said: to standard error where only JSON may be printed."""
    if case is not None:
        return api.read_case(case)
    words = f"No case was named: this is the example that ships with the program, {_near(api.example_case_path())}"
    if as_json:
        tell(f"mealopt: {words}")
    else:
        show([f"{words}\n"])
    return api.read_case(None)


def _near(path: Path) -> str:
    """A path as short as it can be written from here."""
    here = Path.cwd()
    return str(path.relative_to(here)) if path.is_relative_to(here) else str(path)


@main.group(invoke_without_command=True, epilog=CAUTION, short_help="Look into foods and dishes.")
@click.pass_context
def foods(context: click.Context) -> None:
    """Look into the foods and dishes that plans are made of."""
    if context.invoked_subcommand is None:
        print_help(context)


@foods.command(short_help="List what holds all the words.")
@_words
@_own
@_as_json
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
@_as_json
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
@_as_json
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
@_as_json
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


if __name__ == "__main__":
    main(prog_name="mealopt")
