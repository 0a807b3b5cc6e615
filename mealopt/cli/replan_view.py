"""A day planned anew as a person reads it: what happened, each meal before and now, and how near the day comes."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from rich.console import Group, RenderableType
from rich.text import Text

from mealopt.cli.day_view import totals
from mealopt.cli.portions import portion
from mealopt.cli.wording import (
    CAUTION,
    GOOD,
    HEADING,
    IN_SHORT,
    QUIET,
    dated,
    heading,
    held,
    listed,
    paragraph,
    plain_table,
    wide,
)
from mealopt.core.clock import on_the_clock
from mealopt.core.nutrients import ENERGY, PROTEIN

if TYPE_CHECKING:
    from mealopt.api import Meal, MealPair, Replanned

GUARDED = "past_eating_disorder"


def replan_page(found: Replanned) -> Iterator[RenderableType]:
    """The parts of the page."""
    entry = next(one for one in found.plan.days if one.day == found.day)
    athlete = found.plan.case.get("athlete") or {}
    name = athlete.get("name") or "the athlete"
    title = f"{name}: {dated(entry.date, entry.day)}, planned anew from {on_the_clock(entry.now or '00:00')}"
    yield Text(title, style=HEADING, overflow="fold")
    yield paragraph(IN_SHORT, CAUTION)
    if found.words:
        yield heading("What there is to say")
        yield listed(f"{words[0].upper()}{words[1:]}" for words in found.words)
        yield from (paragraph(line, QUIET, indent=4) for block in found.lines for line in block.splitlines())
    yield heading("What is eaten")
    for change in found.meals:
        if change.after is None and change.before is not None:
            yield paragraph(f"{on_the_clock(change.before.time)} {change.before.dish}: not eaten", QUIET)
        elif change.after is not None and change.after.eaten:
            yield _past(change.after)
    yield heading("What is still to come")
    coming = [change for change in found.meals if change.after is not None and not change.after.eaten]
    yield from _side_by_side(coming)
    if GUARDED not in (athlete.get("cautions") or ()):
        yield heading("The day beside its targets")
        yield from totals(entry)
    yield heading("Cautions")
    yield listed(entry.cautions, CAUTION)
    if found.plan.kind == "day" or entry.solve is not None:
        solve = entry.solve or found.plan.solve
        yield paragraph(f"\n{solve.solver}: {solve.says or 'as it was planned'}; {solve.seconds:.1f} s.", QUIET)


def _past(meal: Meal) -> RenderableType:
    return paragraph(f"{on_the_clock(meal.time)} {meal.dish}: {_gives(meal)}")


def _gives(meal: Meal) -> str:
    protein = meal.totals.get(PROTEIN)
    also = f", protein {held(protein, PROTEIN)}" if protein is not None else ""
    return f"{held(meal.totals.get(ENERGY, 0.0), ENERGY)}{also}"


def _side_by_side(changes: list[MealPair]) -> Iterator[RenderableType]:
    if not changes:
        yield paragraph("nothing: the day's meals are over")
        return
    if not wide():
        for change in changes:
            yield from _one_below(change)
        return
    table = plain_table(("", False), ("before", False), ("now", False))
    for change in changes:
        assert change.after is not None
        before = Text("-", style=QUIET) if change.before is None else _written(change.before, change.after)
        now = Text("as planned", style=GOOD) if not change.changed else _written(change.after, change.before)
        if table.row_count:
            table.add_row("", "", "")
        table.add_row(Text(on_the_clock(change.after.time)), before, now)
    yield table


def _one_below(change: MealPair) -> Iterator[RenderableType]:
    assert change.after is not None
    yield paragraph(on_the_clock(change.after.time), HEADING)
    if not change.changed:
        yield paragraph("as planned:", GOOD, indent=2)
    elif change.before is not None:
        yield paragraph("before:", QUIET, indent=2)
        yield _indented(_written(change.before, change.after))
        yield paragraph("now:", QUIET, indent=2)
    yield _indented(_written(change.after, change.before))


def _indented(words: RenderableType) -> RenderableType:
    from rich.padding import Padding

    return Padding(words, (0, 0, 0, 4))


def _written(meal: Meal, other: Meal | None) -> Group:
    """The meal's dish, foods and sums; what the other does not hold just so stands out."""
    same = set() if other is None else {(item.food, item.grams) for item in other.items}
    moved = other is not None and other.time != meal.time
    title = f"{meal.dish}{f', at {on_the_clock(meal.time)}' if moved else ''}"
    parts: list[RenderableType] = [Text(title, style=HEADING, overflow="fold")]
    for item in meal.items:
        style = QUIET if (item.food, item.grams) in same or other is None else ""
        parts.append(Text(portion(item), style=style, overflow="fold"))
    parts.append(Text(f"= {_gives(meal)}", style=GOOD, overflow="fold"))
    return Group(*parts)
