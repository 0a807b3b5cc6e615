"""`mealopt replan`: the rest of a day planned anew."""

from __future__ import annotations

from pathlib import Path

import click

from mealopt import api
from mealopt.cli import options
from mealopt.cli.output import show, writable, write_json
from mealopt.cli.program import Command


@click.command(cls=Command, epilog=options.CAUTION, short_help="Plan the rest of a day anew.")
@click.argument("plan")
@click.option("--now", required=True, metavar="HH:MM", help="What begins before is past; after midnight 25:30.")
@click.option(
    "--ate",
    multiple=True,
    metavar="FOOD=GRAMS",
    help='What was eaten beside the plan: "pizza=350g", "dinner out=900kcal", "pizza=350g at 12:30"; more than once.',
)
@click.option("--skipped", multiple=True, type=int, metavar="N", help="Number of a meal that was not eaten.")
@click.option("--session-off", multiple=True, type=int, metavar="K", help="Number of a session that is called off.")
@click.option("--session", multiple=True, metavar="WORDS", help='A new session: "17:00 60 run hard".')
@options.day_option("which of a week's plan.")
@options.out_option
@click.option("--case-folder", metavar="FOLDER", help="Where the case file lies, if it names foods of your own.")
@options.as_json
@options.seconds_option(10.0, "Seconds of work to solve in.")
def replan(
    plan: str,
    now: str,
    ate: tuple[str, ...],
    skipped: tuple[int, ...],
    session_off: tuple[int, ...],
    session: tuple[str, ...],
    day: str | None,
    out: str | None,
    case_folder: str | None,
    as_json: bool,
    seconds: float,
) -> int:
    """Plan the rest of a day of PLAN anew: what is past is as eaten, and as little of the rest changes as need be."""
    target = None if out is None else writable(out, Path(plan))
    read = api.read_plan(plan)
    found = api.replan(
        read,
        now,
        day=day,
        ate=ate,
        skipped=skipped,
        session_off=session_off,
        session=session,
        folder=case_folder or api.own_folder(read, Path(plan).resolve().parent),
        seconds=seconds,
        where=plan,
    )
    text = api.plan_text(found.plan)
    if target is not None:
        api.write_text(target, text)
    if as_json:
        write_json(text)
        return 0
    from mealopt.cli.replan_view import replan_page

    show(replan_page(found))
    if out is not None:
        show([f"The plan document is in {out}"])
    return 0
