"""A swap as a person reads it: each meal that changed before and after, the totals, what was proven; and offers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from mealopt.cli.output import width
from mealopt.cli.wording import (
    BAD,
    CAUTION,
    GOOD,
    HEADING,
    IN_SHORT,
    QUIET,
    amount,
    dated,
    drawn,
    heading,
    label,
    limits,
    listed,
    missed,
    number,
    paragraph,
    plain_table,
    wide,
)
from mealopt.core.bands import Band
from mealopt.core.clock import on_the_clock
from mealopt.core.nutrients import UNITS
from mealopt.core.words import SLOTS

if TYPE_CHECKING:
    from mealopt.api import MealChange, Offer, PlanDay, Swapped

#: Characters in a line from which before and after stand beside each other.
BESIDE_FROM = 60


def swap_page(done: Swapped, before: PlanDay) -> Iterator[RenderableType]:
    """The parts of the page for one swap. before: the day as it was."""
    yield from _head(done.plan.case, before)
    yield heading("What changed")
    for change in done.changes:
        yield from _change(change)
    if not done.changes:
        yield paragraph("Nothing: the day meets these wishes as it is.")
    yield from (paragraph(words, CAUTION) for words in done.told)
    yield heading("The day's totals")
    yield from _totals(before, done.day)
    yield heading("How it was found")
    yield paragraph(f"{done.says[0].upper()}{done.says[1:]}.")
    yield from _penalty(done)
    yield heading("Cautions")
    yield listed(done.day.cautions, CAUTION)


def _head(case: dict[str, object], day: PlanDay) -> Iterator[RenderableType]:
    athlete = case.get("athlete")
    name = (athlete.get("name") if isinstance(athlete, dict) else None) or "the athlete"
    yield Text(f"{name}: {dated(day.date, day.day)}", style=HEADING, overflow="fold")
    yield paragraph(IN_SHORT, CAUTION)


def _change(change: MealChange) -> Iterator[RenderableType]:
    slot = SLOTS.get(change.slot, change.slot)
    title = f"{on_the_clock(change.time)} {change.number}. {slot.capitalize()}"
    rows = list(zip(change.before, change.after, strict=True))
    yield Text(title, style=HEADING)
    before, after = change.dish_before, change.dish_after or "skipped"
    if width() < BESIDE_FROM:
        yield paragraph(f"before: {before}", indent=2)
        yield paragraph(f"after: {after}", indent=2)
        for left, right in rows:
            if left != right:
                yield paragraph(f"{left or 'nothing'} -> {right or 'nothing'}", GOOD if right else BAD, indent=4)
        return
    half = (width() - 4) // 2
    grid = Table.grid(padding=(0, 2), pad_edge=False)
    grid.add_column(width=half, overflow="fold")
    grid.add_column(width=half, overflow="fold")
    grid.add_row(Text(before, style=QUIET), Text("the same dish" if before == after else after, style=QUIET))
    for left, right in rows:
        same = left == right
        grid.add_row(
            paragraph(left, indent=2) if left else "", paragraph(right, QUIET if same else GOOD, 2) if right else ""
        )
    yield grid


def _totals(before: PlanDay, after: PlanDay) -> Iterator[RenderableType]:
    rows = [
        (key, Band(band.least, band.aim, band.most), before.totals.get(key), after.totals.get(key))
        for key, band in after.targets.items()
    ]
    if not wide():
        for key, band, was, now in rows:
            yield paragraph(f"{label(key)}: {_here(key, was)}, now {_here(key, now)}; {limits(band, UNITS[key])}")
        return
    table = plain_table(("", False), ("before", True), ("now", True), ("target", False), ("", False))
    for key, band, was, now in rows:
        line = Text("" if now is None else drawn(band, now, 11))
        line.stylize(BAD if now is not None and missed(band, now) else GOOD)
        table.add_row(label(key), _here(key, was), _here(key, now), limits(band, UNITS[key]), line)
    yield table


def _here(key: str, value: float | None) -> str:
    return "unknown" if value is None else amount(value, key)


def _penalty(done: Swapped) -> Iterator[RenderableType]:
    words = f"Penalty, 0 for an ideal day: {number(done.penalty_before)} before, {number(done.penalty_after)} now"
    if done.fresh_at_best is None:
        yield paragraph(f"{words}; what a plan of fewer meals could reach is not known. --fresh plans the day anew.")
        return
    yield paragraph(f"{words}; a day planned anew could not be below {number(done.fresh_at_best)}.")
    if done.fresh_offered:
        yield paragraph("That is over 10 % worse, as gaps are measured: --fresh plans the day anew with this.", CAUTION)


def offers_page(offers: Sequence[Offer], day: PlanDay, meal: int, leaving: Sequence[str]) -> Iterator[RenderableType]:
    """The parts of the page for what may be had. meal: its number; leaving: what was struck out, as it was written."""
    served = next((one for one in day.meals if one.number == meal), None)
    what = ", ".join(leaving) or (served.dish if served is not None else "")
    slot = "" if served is None else f", {SLOTS.get(served.slot, served.slot)} at {on_the_clock(served.time)}"
    yield Text(f"Instead of {what} in meal {meal}{slot}", style=HEADING, overflow="fold")
    yield paragraph(IN_SHORT, CAUTION)
    yield ""
    for place, offer in enumerate(offers, start=1):
        yield Text(f"{place}. {offer.into or 'nothing: it is left out'}", style=HEADING, overflow="fold")
        if offer.dish != offer.into:
            yield paragraph(offer.dish, QUIET, indent=3)
        yield paragraph(offer.also or "nothing else changes", indent=3)
    yield ""
    yield paragraph("Each was solved and keeps every limit of the day; the least change first.")
    yield heading("Cautions")
    yield listed(day.cautions, CAUTION)
