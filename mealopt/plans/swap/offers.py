"""Replacements that may be had: each one solved and proved possible, the least change first.

Each candidate is a small program of its own: the meal as one dish, with one food for what is struck out, and all other
meals with their foods, whose amounts are free.
"""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from mealopt.documents.plan import Plan
from mealopt.errors import OutOfTime, Unplannable
from mealopt.milp.effort import spent
from mealopt.plans.day.found import NothingFits
from mealopt.plans.day.least import hopeless
from mealopt.plans.held.standing import StandingDay, standing_day
from mealopt.plans.swap.clash import clash
from mealopt.plans.swap.fresh import fresh_day
from mealopt.plans.swap.search import Least, Levels
from mealopt.plans.swap.swapped import found_least, swapped_from
from mealopt.plans.swap.told import foods_changed
from mealopt.plans.swap.tries import Tried, candidates, tried_of, try_one
from mealopt.plans.swap.wishes import Asked, Wishes, asked

#: Share of the time for solving; the rest is for writing down and rechecking the last answer.
SOLVING = 0.75

#: Seconds below which nothing more is begun, and for the reason where nothing may come at all.
ENOUGH, FOR_A_REASON = 0.05, 2.0


@dataclass(frozen=True, slots=True)
class Offer:
    """One replacement. into: what comes, "" where nothing does; dish: the meal's dish then. also: what else changes, in
    words, "" for nothing. foods_changed, grams_moved: as of a swap. plan: the document with it.
    """

    into: str
    dish: str
    also: str
    foods_changed: int
    grams_moved: float
    plan: Plan


def offered(
    plan: Plan,
    wishes: Wishes,
    *,
    day: str | None = None,
    folder: Path | None = None,
    most: int = 8,
    seconds: float = 2.0,
    where: str = "the plan",
) -> tuple[Offer, ...]:
    """Up to so many replacements, as many as the time allows, one at least. seconds: of work, reading it counted.

    Raises BadInput, Refused; Unplannable with what clashes where nothing may come; OutOfTime where the time ended
    before the first.
    """
    start, begun = time.perf_counter(), spent()
    standing = standing_day(plan, day, folder, where)
    wanted = asked(standing, wishes)
    levels = Levels(wanted.day, wanted.aims, begun + SOLVING * seconds)
    found = _answers(levels) if levels.ready() else []
    if not found:
        raise _none(wanted, levels, seconds)
    return tuple(_offer(standing, wanted, one.least, start) for one in found[:most])


def _none(wanted: Asked, levels: Levels, seconds: float) -> Unplannable | OutOfTime:
    """Why nothing is offered: that nothing may come, and what stands in its way, or that time ended first."""
    day = fresh_day(wanted.day, wanted.aims)
    empty = tuple(day.slots[index].label for index in levels.impossible())
    ended = levels.left < ENOUGH or not levels.sure
    if not empty and ended and not hopeless(day):
        return OutOfTime(f"nothing was found in {seconds:g} s that may come instead; give it more with --seconds")
    return clash(wanted, NothingFits(day, empty), FOR_A_REASON)


def _answers(levels: Levels) -> list[Tried]:
    """Every candidate that can be had in the time, the least change first; each once.

    All other meals keep their foods. Where nothing can be had so, the answer of the swap itself is the one offer.
    """
    found: dict[tuple[str, frozenset[str]], Tried] = {}
    for plate, food in candidates(levels):
        if levels.left < ENOUGH:
            break
        tried = try_one(levels, plate, food)
        if tried is not None:
            key = tried.dish, tried.came
            found[key] = min(tried, found.get(key, tried), key=lambda one: one.rank)
    if not found and levels.left >= ENOUGH:
        least = levels.least()
        return [] if least is None else [tried_of(levels, least)]
    return sorted(found.values(), key=lambda one: one.rank)


def _offer(standing: StandingDay, wanted: Asked, least: Least, start: float) -> Offer:
    done = swapped_from(standing, wanted, found_least(wanted, least, start), least)
    aim = next(one for one in wanted.aims if one.asked)
    number = aim.standing.meal.number
    changed = foods_changed(standing.entry, done.day)
    came = [food for meal, _, food in changed if meal == number and food]
    after = next(meal for meal in done.day.meals if meal.number == number)
    before = aim.standing.meal
    also = [] if aim.whole else _also(number, changed, aim.out)
    if least.grams >= 0.5:
        also.append(f"{least.grams:.0f} g of other foods moved")
    into = ", ".join(came) if after.dish_id == before.dish_id or not aim.whole else after.dish
    return Offer(into, after.dish, "; ".join(also), least.changes, round(least.grams, 1), done.plan)


def _also(number: int, changed: Sequence[tuple[int, str, str]], out: frozenset[str]) -> list[str]:
    """Other foods that leave or come, in words. number: of the meal that was asked about."""
    found = [f"{gone} leaves" for meal, gone, _ in changed if meal == number and gone and gone not in out]
    found += [f"meal {meal}: {gone} leaves" for meal, gone, _ in changed if meal != number and gone]
    return found + [f"meal {meal}: {came} comes" for meal, _, came in changed if meal != number and came]
