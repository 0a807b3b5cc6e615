"""Several days to choose from, one under the other: what each serves, what it holds, and how near the best it is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from rich.console import RenderableType
from rich.text import Text

from mealopt.cli.wording import (
    CAUTION,
    GOOD,
    HEADING,
    IN_SHORT,
    amount,
    columns,
    dated,
    heading,
    label,
    listed,
    number,
    paragraph,
)
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FAT, FIBRE, PROTEIN

if TYPE_CHECKING:
    from mealopt.api import Plan

_GIVEN = (ENERGY, PROTEIN, CARBOHYDRATE, FAT, FIBRE)


def choices_page(plans: Sequence[Plan], asked: int) -> Iterator[RenderableType]:
    """The parts of the page. asked: how many days were wished for."""
    first = plans[0].days[0]
    name = (plans[0].case.get("athlete") or {}).get("name") or "the athlete"
    yield Text(f"{name}: {dated(first.date, first.day)}", style=HEADING, overflow="fold")
    yield paragraph(IN_SHORT, CAUTION)
    for place, plan in enumerate(plans, start=1):
        day = plan.days[0]
        value = plan.solve.objective or 0.0
        yield heading(f"Choice {place}: penalty {number(value)}")
        for meal in day.meals:
            grid = columns(5)
            grid.add_row(meal.time, Text(meal.dish, overflow="fold"))
            yield grid
        held = [amount(day.totals[ENERGY], ENERGY)]
        held += [f"{label(key)} {amount(day.totals[key], key)}" for key in _GIVEN[1:] if key in day.totals]
        yield paragraph(f"= {', '.join(held)}", GOOD)
    yield ""
    if len(plans) < asked:
        yield paragraph(f"No more than {len(plans)} were found that are near enough to the best and differ.")
    yield paragraph(
        "Each meets every limit of the day and lies within 5 % of the best, measured as every gap is: of the penalty, "
        "or of 50 points where that is more."
    )
    yield heading("Cautions")
    yield listed(dict.fromkeys(caution for plan in plans for caution in plan.days[0].cautions), CAUTION)
