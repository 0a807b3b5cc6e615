"""How every command ends: with an exit code, and one sentence where something is wrong; never with a traceback."""

from __future__ import annotations

import math
import os
import shutil
import sys
import traceback
from typing import Any

import click

from mealopt.cli.output import NARROWEST, WIDEST, ReaderLeft, tell, write
from mealopt.errors import MealoptError, Unplannable

BAD_USAGE = 2
OUR_FAULT = 1
STOPPED = 130

#: With this set to 1 in the environment, a fault of the program shows where it happened.
TRACE = "MEALOPT_TRACE"


def print_help(context: click.Context) -> None:
    """The help of the command that was asked for, written as all other output is."""
    write(f"{context.get_help()}\n")


def _help_asked(context: click.Context, _: click.Parameter, asked: bool) -> None:
    if asked and not context.resilient_parsing:
        print_help(context)
        context.exit()


class Command(click.Command):
    """A command whose help is written as all other output is: a full disk is one sentence there too."""

    def get_help_option(self, ctx: click.Context) -> click.Option | None:
        """click's own option --help, with our way of printing."""
        option = super().get_help_option(ctx)
        if option is not None:
            option.callback = _help_asked
        return option


class Group(Command, click.Group):
    """A group of such commands."""

    command_class = Command


class Program(Group):
    """The group of commands whose errors all end as the exit codes say; called, it ends the process."""

    group_class = Group

    def main(self, *args: Any, **kwargs: Any) -> Any:
        """Run with these arguments (None: the process's own) and exit with the code of what happened."""
        # click itself never goes below 50 characters.
        columns = min(WIDEST, max(NARROWEST, shutil.get_terminal_size().columns))
        self.context_settings = {**self.context_settings, "terminal_width": columns}
        sys.exit(_ended(lambda: super(Program, self).main(*args, **{**kwargs, "standalone_mode": False})))


def _ended(run: Any) -> int:
    """The exit code of what this does; what went wrong is told."""
    try:
        code = run()
    except click.ClickException as error:
        tell(f"mealopt: {_usage(error)}")
        return BAD_USAGE
    except (click.Abort, KeyboardInterrupt):
        tell("mealopt: stopped by hand")
        return STOPPED
    except ReaderLeft:
        return 0
    except MealoptError as error:
        tell(f"mealopt: {error}")
        if isinstance(error, Unplannable):
            _tell_clashes(error)
        return error.exit_code
    except Exception as error:
        _tell_fault(error)
        return OUR_FAULT
    return code if isinstance(code, int) else 0


def _usage(error: click.ClickException) -> str:
    message = " ".join(error.format_message().split()).rstrip(".")
    context = error.ctx if isinstance(error, click.UsageError) else None
    return f"{message}; see {context.command_path if context else 'mealopt'} --help"


def _tell_clashes(error: Unplannable) -> None:
    if error.clashes:
        tell("What clashes:")
        for clash in error.clashes:
            tell(f"- {clash}")
    if error.remedies:
        tell("The least that must give, as lines for the case file:")
        for remedy in error.remedies:
            for line in remedy.splitlines():
                tell(line)


def _tell_fault(error: Exception) -> None:
    hint = "" if _traced() else f"; {TRACE}=1 shows where"
    tell(f"mealopt: this is a fault of the program, not yours ({type(error).__name__}: {error}){hint}")
    if _traced():
        traceback.print_exception(error)


def _traced() -> bool:
    return os.environ.get(TRACE) == "1"


class Between(click.FloatRange):
    """A finite number in a range."""

    name = "number"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """The number. Raises a usage error where it is none, or outside the range."""
        number = super().convert(value, param, ctx)
        if not math.isfinite(number):
            self.fail(f"{value} is not a finite number.", param, ctx)
        return number


class Whole(click.IntRange):
    """A whole number in a range."""

    name = "whole number"
