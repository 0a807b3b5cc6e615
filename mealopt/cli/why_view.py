"""Why a day is as it is, and what would follow if something were in it, as a person reads it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from rich.console import RenderableType
from rich.text import Text

from mealopt.cli.wording import (
    CAUTION,
    HEADING,
    IN_SHORT,
    QUIET,
    dated,
    heading,
    listed,
    numbered,
    paragraph,
    plain_table,
    wide,
)
from mealopt.core.clock import on_the_clock

if TYPE_CHECKING:
    from mealopt.api import Binding, Plan, PlanDay, WhyNot

#: Points below this are not shown.
LEAST_SHOWN = 0.05

POINTS = "The ideal day has 0 points, and one point is about what a person would just notice."


def _title(plan: Plan, entry: PlanDay, words: str) -> Iterator[RenderableType]:
    name = (plan.case.get("athlete") or {}).get("name") or "the athlete"
    yield Text(f"{name}: {dated(entry.date, entry.day)}, {words}", style=HEADING, overflow="fold")
    yield paragraph(IN_SHORT, CAUTION)


def why_page(plan: Plan, entry: PlanDay, found: Sequence[Binding]) -> Iterator[RenderableType]:
    """The parts of the page: the limits that bind, and where the day's points come from."""
    yield from _title(plan, entry, "why it is as it is")
    yield heading("The limits that bind, with these dishes and foods")
    worth = [one for one in found if one.buys >= LEAST_SHOWN]
    if worth:
        yield listed(one.words for one in worth)
        if len(worth) < len(found):
            yield paragraph(f"What else binds would buy under {LEAST_SHOWN:g} points for each limit.", QUIET)
    elif found:
        yield paragraph(f"None that matters: easing any of them a little would buy under {LEAST_SHOWN:g} points.")
    else:
        yield paragraph("None: with these dishes and foods, no limit keeps the day from being nearer its ideal.")
    total = sum(entry.penalty.values())
    if total > 0:
        yield heading("Where the day's points come from")
        rows = sorted(((term, points) for term, points in entry.penalty.items() if points >= LEAST_SHOWN),
                      key=lambda share: -share[1])  # fmt: skip
        yield from numbered(["points"], [(term, [f"{points:.1f}"]) for term, points in rows])
    yield paragraph(f"\n{POINTS}", QUIET)
    yield heading("Cautions")
    yield listed(entry.cautions, CAUTION)


def why_not_page(plan: Plan, entry: PlanDay, found: WhyNot) -> Iterator[RenderableType]:
    """The parts of the page: what would follow, meal by meal, or what keeps it out."""
    yield from _title(plan, entry, f"why not {found.name}")
    meant = [name for name in found.foods if name != found.name]
    if meant:
        yield paragraph(f"Taken as any of: {', '.join(meant)}.")
    yield ""
    yield listed(found.words)
    for change in found.changes:
        yield heading(f"{change.number}. {change.slot.capitalize()} at {on_the_clock(change.time)}")
        if wide():
            table = plain_table((change.dish_before, False), (change.dish_after, False))
            for before, after in zip(change.before, change.after, strict=True):
                table.add_row(Text(before, overflow="fold"), Text(after, overflow="fold"))
            yield table
        else:
            yield from (paragraph(line, QUIET, indent=2) for line in ("before:", *change.before) if line)
            yield from (paragraph(line, indent=2) for line in ("with it:", *change.after) if line)
    yield paragraph(f"\n{POINTS}", QUIET)
    yield heading("Cautions")
    yield listed(entry.cautions, CAUTION)
