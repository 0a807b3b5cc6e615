"""A shopping as a person reads it: by shop and aisle, boxes to tick, the sum, what remains, cautions."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from typing import TYPE_CHECKING

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from mealopt import api
from mealopt.cli.wording import CAUTION, HEADING, IN_SHORT, QUIET, heading, listed, paragraph

if TYPE_CHECKING:
    from mealopt.api import Grocery, Left, Shopping


def groceries_page(shopping: Shopping, in_vain: tuple[Left, ...] | None = None) -> Iterator[RenderableType]:
    """The parts of the page. in_vain: what was bought in vain, where the list follows a change of plan."""
    yield Text(f"Groceries for {shopping.title}", style=HEADING, overflow="fold")
    yield paragraph(IN_SHORT, CAUTION)
    if shopping.portion:
        yield paragraph(f"For {shopping.people}: {shopping.portion}.")
    if in_vain is not None:
        words = api.in_vain_words(in_vain) or "nothing"
        yield paragraph("\nThis is what to buy beyond the list of the plan as it was.")
        yield paragraph(f"Bought in vain, for meals that are no more: {words}.", CAUTION if in_vain else "")
    if not shopping.bought:
        yield paragraph("\nNothing has to be bought.")
    for shop, lines in groupby(shopping.bought, key=lambda line: line.shop):
        if len(shopping.shops) > 1:
            yield heading(f"Shop {shop}, {shopping.shops[shop - 1]}")
        for aisle, found in groupby(lines, key=lambda line: line.aisle):
            yield heading(api.aisle_sign(aisle))
            yield _boxes(list(found))
    yield from _under_the_list(shopping)
    yield heading("Cautions")
    yield listed(shopping.cautions, CAUTION)
    yield heading("What was assumed")
    yield listed(shopping.notes)


def _under_the_list(shopping: Shopping) -> Iterator[RenderableType]:
    words = api.shopping_words(shopping)
    yield paragraph(f"\n{words.total}.", HEADING)
    said = (
        ("You may need", words.also),
        ("From what is at home", words.at_home),
        ("Only a little is needed of", words.little),
    )
    for name, text in said:
        if text:
            yield paragraph(f"{name}: {text}.")
    if words.kept or words.gone or words.at_home_left:
        yield heading("Left over after the last day")
        if words.gone:
            yield paragraph(f"Does not keep, use it up: {words.gone}.")
        if words.kept:
            yield paragraph(f"Keeps: {words.kept}.", QUIET)
        if words.at_home_left:
            yield paragraph(f"Still at home of what was there: {words.at_home_left}.", QUIET)


def _boxes(lines: list[Grocery]) -> Table:
    grid = Table.grid(padding=(0, 1), pad_edge=False, expand=True)
    grid.add_column(width=3, no_wrap=True)
    grid.add_column(overflow="fold", ratio=1)
    grid.add_column(justify="right", no_wrap=True)
    for line in lines:
        grid.add_row("[ ]", line.says, "" if line.price is None else f"{line.price:.2f}")
    return grid
