"""The clock of a session, found again from its steps: everything is in it, and no hour holds more than an hour may.

An hour's most: what the case's gut and transport allow (Jeukendrup 2013; 10 g/h over what it is used to, the project's
assumption) and what the plan itself promises, in each hour of the session and in any sixty minutes within it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from mealopt.core.clock import minutes_of
from mealopt.documents.fuel import FuelPlan, FuelStep
from mealopt.recheck.tolerances import slack

HOUR = 60
#: Written grams are rounded to a tenth, so a sum of several is as many halves of it off.
HALF = 0.05


def broken_clock(plan: FuelPlan, carbohydrate: float, bottled: Sequence[float], cap: float) -> Iterator[str]:
    """Every promise of the clock. carbohydrate: of everything packed, g; bottled: g in one
    of each of its kinds of bottles.

    cap: g that an hour may hold by the case.
    """
    eaten = [step for step in plan.steps if step.kind == "eat"]
    drunk = [step for step in plan.steps if step.kind == "drink"]
    in_clock = math.fsum(step.carbohydrate_g for step in eaten)
    carried = math.fsum(thing.count * thing.carbohydrate_g for thing in plan.carried)
    if abs(in_clock - carried) > 0.1 * (1 + len(plan.steps) + sum(thing.count for thing in plan.carried)):
        yield f"{carried:.0f} g of carbohydrate are carried to eat, the clock has {in_clock:.0f} g"
    in_bottles = math.fsum(bottle.count * grams for bottle, grams in zip(plan.bottles, bottled, strict=True))
    if abs(math.fsum(step.carbohydrate_g for step in drunk) - in_bottles) > 0.1 * (1 + len(drunk)):
        said = math.fsum(step.carbohydrate_g for step in drunk)
        yield f"{in_bottles:.0f} g of carbohydrate are in the bottles, the clock has {said:.0f} g to drink"
    if abs(math.fsum(plan.by_hour_g) - carbohydrate) > 0.1 * (2 + len(plan.by_hour_g)):
        yield f"its hours hold {math.fsum(plan.by_hour_g):.0f} g of carbohydrate, its foods {carbohydrate:.0f} g"
    if len(plan.by_hour_g) != math.ceil(plan.minutes / HOUR):
        yield f"{len(plan.by_hour_g)} hours are told of {plan.minutes} min"
    minutes = [step.minute for step in plan.steps]
    if minutes != sorted(minutes) or any(minute >= plan.minutes for minute in minutes):
        yield "its steps are not in order of time within the session"
        return
    for step in plan.steps:
        if minutes_of(step.time) != minutes_of(plan.start) + step.minute:
            yield f"minute {step.minute} is not at {step.time}"
    yield from _hours(plan, eaten, drunk, cap)


def _hours(plan: FuelPlan, eaten: list[FuelStep], drunk: list[FuelStep], cap: float) -> Iterator[str]:
    """Each hour as it is told, and any sixty minutes against the most of an hour."""
    rounding = HALF * (2 + len(eaten) + len(drunk))
    for number, told in enumerate(plan.by_hour_g):
        found = _held(plan, eaten, drunk, HOUR * number)
        if abs(found - told) > rounding:
            yield f"hour {number + 1} is told with {told:g} g of carbohydrate, its steps hold {found:.1f} g"
    promised = plan.carbohydrate_g_per_h.most
    most = cap if promised is None else min(cap, promised)
    # What an hour holds changes where a sitting or a bottle comes in or goes out of it.
    edges = {step.minute for step in (*eaten, *drunk)}
    starts = {0} | edges | {minute - HOUR + 1 for minute in edges if minute >= HOUR}
    start, held = max(((at, _held(plan, eaten, drunk, at)) for at in sorted(starts)), key=lambda entry: entry[1])
    if held > most + slack(most) + rounding:
        yield f"{held:.1f} g of carbohydrate in the hour from minute {start}, {most:g} g at most go into one"


def _held(plan: FuelPlan, eaten: list[FuelStep], drunk: list[FuelStep], start: int) -> float:
    """Carbohydrate in the hour from a minute on, g. A bottle is drunk evenly until the next one, or the end."""
    found = math.fsum(step.carbohydrate_g for step in eaten if start <= step.minute < start + HOUR)
    begins = [step.minute for step in drunk]
    for step, (begin, end) in zip(drunk, pairwise([*begins, plan.minutes]), strict=True):
        shared = max(0, min(end, start + HOUR) - max(begin, start))
        found += step.carbohydrate_g * shared / (end - begin) if end > begin else 0.0
    return found
