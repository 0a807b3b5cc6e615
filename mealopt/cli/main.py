"""The command `mealopt`: its commands in the order of the job; what is heavy loads when needed."""

from __future__ import annotations

import click

from mealopt import __version__
from mealopt.cli.commands.app import app
from mealopt.cli.commands.day import day
from mealopt.cli.commands.foods import foods
from mealopt.cli.commands.fuel import fuel
from mealopt.cli.commands.groceries import groceries
from mealopt.cli.commands.replan import replan
from mealopt.cli.commands.swap import swap
from mealopt.cli.commands.targets import targets
from mealopt.cli.commands.week import week
from mealopt.cli.commands.why import why, why_not
from mealopt.cli.options import CAUTION
from mealopt.cli.output import write
from mealopt.cli.program import Program, print_help

EXIT_CODES = (
    "Exit codes: 0 done; 1 a fault of the program; 2 bad input; 3 no plan can meet the targets, or safety forbids the "
    "goal; 4 the time passed without a plan; 130 stopped by hand."
)

#: One line a command, by name.
COMMANDS: tuple[click.Command, ...] = (
    app,
    day,
    foods,
    fuel,
    groceries,
    replan,
    swap,
    targets,
    week,
    why,
    why_not,
)


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


for _command in COMMANDS:
    main.add_command(_command)


if __name__ == "__main__":
    main(prog_name="mealopt")
