"""`mealopt swap`: a food or dish of a planned meal for another, meals held or skipped."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from mealopt import api
from mealopt.cli import options
from mealopt.cli.output import show, show_json, writable, write_json
from mealopt.cli.program import Between, Command
from mealopt.errors import BadInput

if TYPE_CHECKING:
    from mealopt.api import Offer, Plan

ALL = "all"

#: Seconds for a swap, and for all offers together, where none are given.
SECONDS, OFFERS_SECONDS = 5.0, 2.0


@click.command(cls=Command, epilog=options.CAUTION, short_help="Swap a food or dish of a plan.")
@click.argument("plan")
@options.day_option("needed where the plan is a week's.")
@click.option("--meal", metavar="N", help="The number of the meal, or all: every meal that holds the food.")
@click.option("--out", "leaving", multiple=True, metavar="FOOD", help="What leaves that meal; more than once.")
@click.option(
    "--in",
    "coming",
    multiple=True,
    metavar="FOOD",
    help='What is to come instead: a food, a food with its grams ("rice, white=158g"), or a dish; more than once.',
)
@click.option("--dish", is_flag=True, help="Swap the whole dish of that meal.")
@click.option("--hold", multiple=True, type=int, metavar="N", help="A meal that stays to the gram; more than once.")
@click.option("--drop", multiple=True, type=int, metavar="N", help="A meal that is skipped; more than once.")
@click.option("--offer", is_flag=True, help="Only show what may come instead, the least change first.")
@click.option("--fresh", is_flag=True, help="Plan the whole day anew with these wishes.")
@options.out_option
@options.as_json
@click.option(
    "--seconds",
    type=Between(0.0, 3600.0, min_open=True),
    help=f"Seconds of work to solve in; {SECONDS:g} without it, and {OFFERS_SECONDS:g} for all offers.",
)
@click.option("--case-folder", metavar="FOLDER", help="Where the case file lies, if it names foods of your own.")
def swap(
    plan: str, out: str | None, as_json: bool, offer: bool, fresh: bool, case_folder: str | None, **asked: Any
) -> None:
    """Change PLAN, a plan document, as little as can be: the food leaves, the day is whole again, every limit met.

    The fewest other foods change, then the fewest grams, then the penalty is lowest.
    """
    target = None if out is None else writable(out, Path(plan))
    if offer and (out is not None or fresh):
        raise BadInput("--offer shows what may be had and changes nothing; it goes with neither -o nor --fresh")
    read = api.read_plan(plan)
    wishes = {
        "day": asked["day"],
        "dish": asked["dish"],
        "hold": asked["hold"],
        "drop": asked["drop"],
        "folder": case_folder or api.own_folder(read, Path(plan).resolve().parent),
        "where": plan,
    }
    meal = _meal(asked["meal"])
    if offer:
        wishes["seconds"] = asked["seconds"] or OFFERS_SECONDS
        _offer(read, meal, asked["leaving"], asked["coming"], wishes, as_json)
        return
    done = api.swap(
        read, meal, asked["leaving"], asked["coming"], seconds=asked["seconds"] or SECONDS, fresh=fresh, **wishes
    )
    text = api.plan_text(done.plan)
    if target is not None:
        api.write_text(target, text)
    if as_json:
        write_json(text)
        return
    from mealopt.cli.swap_view import swap_page

    show(swap_page(done, api.day_of(read, asked["day"])))
    if out is not None:
        show([f"The plan document is in {out}"])


def _meal(text: str | None) -> int | str | None:
    if text is None or text.strip().casefold() == ALL:
        return None if text is None else ALL
    if not text.strip().isdecimal():
        raise BadInput(f"--meal: read {text!r}; the number of a meal is expected, or all")
    return int(text)


def _offer(
    plan: Plan,
    meal: int | str | None,
    leaving: tuple[str, ...],
    coming: tuple[str, ...],
    wishes: dict[str, Any],
    as_json: bool,
) -> None:
    if not isinstance(meal, int) or coming:
        raise BadInput(
            "--offer is for one meal, and --in names what is wanted already; --meal N and --out FOOD are expected"
        )
    found = api.offers(plan, meal, leaving, **wishes)
    if as_json:
        show_json([_document(one) for one in found])
        return
    from mealopt.cli.swap_view import offers_page

    show(offers_page(found, api.day_of(plan, wishes["day"]), meal, leaving))


def _document(offer: Offer) -> dict[str, Any]:
    return {
        "into": offer.into,
        "dish": offer.dish,
        "also": offer.also,
        "foods_changed": offer.foods_changed,
        "grams_moved": offer.grams_moved,
        "plan": offer.plan.model_dump(mode="json", by_alias=True),
    }
