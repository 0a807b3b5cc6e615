"""A planned week as a person reads it: its energy, each day's meals, the week's rules, what is cooked ahead."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from rich.console import RenderableType
from rich.text import Text

from mealopt.cli.day_view import found_words, meal_words
from mealopt.cli.portions import portion
from mealopt.cli.wording import (
    BAD,
    CAUTION,
    GOOD,
    HEADING,
    IN_SHORT,
    QUIET,
    columns,
    dated,
    heading,
    listed,
    number,
    numbered,
    paragraph,
)
from mealopt.core.clock import late, on_the_clock
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FAT, FIBRE, PROTEIN

if TYPE_CHECKING:
    from mealopt.api import Meal, Plan, PlanDay, WeekCheck

_SUMMED = (ENERGY, PROTEIN, CARBOHYDRATE, FAT, FIBRE)


def week_page(plan: Plan, *, method: bool) -> Iterator[RenderableType]:
    """The parts of the page of a week. method: whether each meal says how it is made."""
    name = (plan.case.get("athlete") or {}).get("name") or "the athlete"
    first, last = plan.days[0], plan.days[-1]
    yield Text(f"{name}: {dated(first.date, first.day)} to {dated(last.date, last.day)}", style=HEADING)
    yield paragraph(IN_SHORT, CAUTION)
    yield heading("The week's numbers")
    yield from _numbers(plan)
    for day in plan.days:
        yield heading(dated(day.date, day.day))
        yield from _day(day, method)
    if plan.week.cooking:
        yield heading("Cooked ahead")
        yield from _cooking(plan)
    yield heading("The week's rules")
    yield from _rules(plan.week.checks)
    yield heading("Cautions")
    said = [*plan.week.cautions, *(words for day in plan.days for words in day.cautions)]
    yield listed(dict.fromkeys(said), CAUTION)
    yield from _assumed(plan)
    yield heading("How this plan was found")
    yield from found_words(plan, plan.solve, plan.week.penalty)


def _numbers(plan: Plan) -> Iterator[RenderableType]:
    rows: list[tuple[str, list[str]]] = []
    for day in plan.days:
        aim = day.targets[ENERGY].aim
        cells = [number(day.totals.get(key, 0.0)) for key in _SUMMED]
        rows.append((day.day, ["-" if aim is None else number(aim), *cells]))
    energy = plan.week.energy
    if energy is not None:
        rows.append(("sum", [number(energy.aims_kcal), number(energy.eaten_kcal), "", "", "", ""]))
    yield from numbered(["aim kcal", "here kcal", "protein g", "carbohydrate g", "fat g", "fibre g"], rows)
    if energy is not None:
        spread = "by each day's work" if energy.spread == "by_day" else "the same every day"
        yield paragraph(
            f"Energy is spread {spread}. The days' aims add up to {number(energy.aims_kcal)} kcal; baseline, sessions, "
            f"goal and moves to {number(energy.expected_kcal)} kcal."
        )


def _day(day: PlanDay, method: bool) -> Iterator[RenderableType]:
    for session in day.sessions:
        words = f"{session.kind}, {session.effort}, {session.minutes} min{late(session.start)}"
        yield paragraph(f"{on_the_clock(session.start)} {words}", QUIET)
    for meal in day.meals:
        grid = columns(5)
        grid.add_row(Text(on_the_clock(meal.time)), _meal(meal, day, method))
        yield grid
    minutes = sum(meal.minutes for meal in day.meals)
    yield paragraph(f"In the kitchen: {minutes} min.", QUIET)
    for words in day.missed:
        yield paragraph(f"not met: {words}", BAD)


def _meal(meal: Meal, day: PlanDay, method: bool) -> RenderableType:
    if method:
        return meal_words(meal, day, method)
    ahead = f" (cooked on {meal.cooked_on})" if meal.cooked_on else ""
    text = Text(overflow="fold").append(f"{meal.dish}{late(meal.time)}", style=HEADING).append(ahead, style=GOOD)
    foods = "; ".join(portion(item) for item in meal.items)
    return Text("\n").join([text, Text(foods, style=QUIET, overflow="fold")]) if foods else text


def _cooking(plan: Plan) -> Iterator[RenderableType]:
    for entry in plan.week.cooking:
        for dish in entry.cook:
            grams = ", ".join(f"{food} {number(amount)} g" for food, amount in dish.grams.items())
            yield paragraph(f"{entry.day}: {dish.dish}, {dish.minutes} min, for {', '.join(dish.meals)}", HEADING)
            yield paragraph(f"in all {grams}; keeps {dish.keeps_days} days in the fridge", indent=2)


def _rules(checks: tuple[WeekCheck, ...]) -> Iterator[RenderableType]:
    unmet = [check for check in checks if not check.met]
    grid = columns(3)
    for check in checks:
        if check.met:
            grid.add_row(Text("met", style=GOOD), _check(check))
    yield grid
    if not unmet:
        yield paragraph("Every rule of the week is met.", GOOD)
        return
    yield paragraph("Not met:", BAD)
    grid = columns(1)
    for check in unmet:
        grid.add_row("-", Text(f"{_check(check)}{f': {check.says}' if check.says else ''}", overflow="fold"))
    yield grid


def _check(check: WeekCheck) -> str:
    known = f", known for {100 * check.known:.0f} % of the food" if check.known < 0.995 else ""
    unit = f" {check.unit}" if check.unit and check.unit != "times" else ""
    return f"{check.rule}: {number(check.value)}{unit if check.unit else ''}{known}"


def _assumed(plan: Plan) -> Iterator[RenderableType]:
    """What was assumed: what holds of every day once, the rest with its day."""
    notes: dict[str, list[str]] = {}
    for day in plan.days:
        for note in dict.fromkeys(day.notes):
            notes.setdefault(note, []).append(day.day)
    said = [note if len(days) == len(plan.days) else f"{', '.join(days)}: {note}" for note, days in notes.items()]
    if said or plan.week.notes:
        yield heading("What was assumed")
        yield listed([*plan.week.notes, *said])
