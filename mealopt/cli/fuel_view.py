"""Food and drink in sessions as a person reads them: numbers with their cautions, bottles, pockets, the clock."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from rich.console import RenderableType
from rich.text import Text

from mealopt.cli.portions import measured
from mealopt.cli.wording import (
    CAUTION,
    DAY_NAMES,
    GOOD,
    HEADING,
    IN_SHORT,
    QUIET,
    dated,
    duration,
    facts,
    heading,
    listed,
    number,
    paragraph,
)

if TYPE_CHECKING:
    from mealopt.api import Case, FuelPlan

#: Characters of the names beside a session's numbers, and of the clock beside its steps.
_NAME, _TIME = 13, 14


def fuel_page(case: Case, plans: tuple[FuelPlan, ...], day: str | None = None) -> Iterator[RenderableType]:
    """The parts of the page: one block a session, then the cautions that hold for all. day: the one asked for."""
    yield Text(f"{case.athlete.name}: food and drink in sessions", style=HEADING, overflow="fold")
    yield paragraph(IN_SHORT, CAUTION)
    if not plans:
        yield ""
        when = "this week" if day is None else DAY_NAMES[day]
        yield paragraph(f"No session of {when} is endurance of more than an hour: nothing is packed.")
        return
    said: set[str] = set()
    for plan in plans:
        yield from _session(case, plan, said)
        said |= set(plan.notes)
    yield heading("Cautions")
    yield listed(dict.fromkeys(caution for plan in plans for caution in plan.cautions[1:]), CAUTION)
    yield heading("What was assumed")
    yield listed(dict.fromkeys(note for plan in plans for note in plan.notes if note.startswith("assumed")))


def _session(case: Case, plan: FuelPlan, before: set[str]) -> Iterator[RenderableType]:
    """One session. before: notes that stand with an earlier one already."""
    date = None if case.week_of is None else case.week_of.fromordinal(
        case.week_of.toordinal() + list(DAY_NAMES).index(plan.day)
    )  # fmt: skip
    title = f"{dated(date, plan.day)}, session {plan.session}: {plan.kind}, {plan.effort}, {duration(plan.minutes)}"
    yield heading(f"{title}, {plan.start} to {plan.ends}")
    yield from facts(tuple(_numbers(plan)), _NAME)
    yield paragraph(plan.cautions[0], CAUTION)
    said = [note for note in plan.notes if not note.startswith("assumed") and note not in before]
    if said:
        yield listed(said)
    yield from _packed(plan)
    if plan.steps:
        yield ""
        yield Text("By the clock", style=HEADING)
        yield from facts(tuple((_when(step.time, step.km), step.says) for step in plan.steps), _TIME)
    for name, words in (("Before", plan.before), ("After", plan.after)):
        yield ""
        yield Text(name, style=HEADING)
        yield listed(words)


def _numbers(plan: FuelPlan) -> Iterator[tuple[str, str]]:
    band = plan.carbohydrate_g_per_h
    asked = "nothing asked" if not band.most else f"{number(band.least or 0)}-{number(band.most)} g/h"
    sugars = f"glucose {number(plan.glucose_g_per_h)}, fructose {number(plan.fructose_g_per_h)}"
    gives = f"{number(plan.gives_g_per_h)} g/h ({asked}; {sugars})" if plan.gives_g_per_h else f"none ({asked})"
    yield "carbohydrate", gives
    if plan.gives_g_per_h and len(plan.by_hour_g) > 1:
        yield "hour by hour", ", ".join(number(grams) for grams in plan.by_hour_g) + " g"
    if plan.fluid is not None:
        fluid = plan.fluid
        yield (
            "fluid",
            (
                f"{fluid.planned_l_per_h:.2f} L/h to thirst, {fluid.litres:.2f} L in all; never over "
                f"{fluid.ceiling_l_per_h:.2f} L/h ({fluid.how})"
            ),
        )
        if fluid.short_kg is not None:
            yield "expected loss", f"{fluid.short_kg:.1f} kg, {fluid.short_percent:.1f} % of body mass at the end"
        else:
            yield "expected loss", "not known without a sweat test"
    if plan.sodium is not None:
        yield "sodium", _sodium(plan)
    held = [(plan.totals.get(f"{key}_g"), key) for key in ("fibre", "fat", "protein")]
    if any(amount is not None for amount, _ in held):
        yield "in all", ", ".join(f"{key} {_small(amount)}" for amount, key in held if amount is not None)
    price = "" if not plan.price else f"; costs {plan.price:.2f} coin"
    if plan.weight_g:
        yield "weighs", f"{plan.start_weight_g / 1000:.1f} kg at the start, {plan.weight_g / 1000:.1f} kg in all{price}"


def _exact(grams: float) -> str:
    """Grams of a kitchen measure: a half pinch of salt is 0.25 g."""
    return number(grams) if grams >= 1 else f"{grams:g}"


def _small(grams: float) -> str:
    """Grams without false digits."""
    return f"{number(grams)} g" if grams >= 1 else "under 1 g"


def _sodium(plan: FuelPlan) -> str:
    assert plan.sodium is not None
    sodium = plan.sodium
    if not sodium.asked:
        return f"none asked for ({number(sodium.planned_mg)} mg are in it)"
    lost = "" if sodium.lost_mg_per_h is None else f"; {number(sodium.lost_mg_per_h)} mg/h are lost, not all replaced"
    return (
        f"{number(sodium.planned_mg_per_l)} mg for each litre, {number(sodium.planned_mg)} mg in all (aim "
        f"{number(sodium.aim_mg_per_l)} mg/L, never over {number(sodium.ceiling_mg_per_l)}; {sodium.how}){lost}"
    )


def _packed(plan: FuelPlan) -> Iterator[RenderableType]:
    if plan.bottles:
        yield ""
        yield Text("In the bottles", style=HEADING)
    for bottle in plan.bottles:
        strength = f" of {bottle.percent:.1f} %" if bottle.percent else ""
        yield paragraph(f"{bottle.count} x {bottle.ml} ml {bottle.name}{strength}", GOOD, indent=2)
        if bottle.holds:
            yield paragraph(f"each: {bottle.says}", indent=4)
    if plan.carried:
        yield ""
        yield Text("To eat", style=HEADING)
    for thing in plan.carried:
        held = ", ".join(f"{measured(food.measure, food.food)} ({_exact(food.grams)} g)" for food in thing.holds)
        yield paragraph(f"{thing.name}: {number(thing.carbohydrate_g)} g carbohydrate each", GOOD, indent=2)
        yield paragraph(f"each {held}. {thing.says}", QUIET, indent=4)


def _when(time: str, km: float | None) -> str:
    return time if km is None else f"{time} {km:5.1f} km"
