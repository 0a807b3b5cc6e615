"""Replacements that may be had: each one solved and proved possible, the least change first.

The levels of a swap, gone through again and again: what was found is forbidden, and the next best found, until a level
has no more.
"""

from __future__ import annotations

import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from mealopt.documents.plan import Plan
from mealopt.menu.plates import Plate
from mealopt.milp.answer import Answer
from mealopt.milp.model import Row
from mealopt.plans.held.standing import StandingDay, standing_day
from mealopt.plans.swap.aims import Aim
from mealopt.plans.swap.level import Level, level
from mealopt.plans.swap.near import nearest
from mealopt.plans.swap.search import A_CHANGE, LEVELS, NEAR_G, Least, Levels, found_at, near_options, solved
from mealopt.plans.swap.swapped import found_least, swapped_from
from mealopt.plans.swap.told import foods_changed
from mealopt.plans.swap.wishes import Asked, Wishes, asked
from mealopt.rules.problem import Serving

#: Share of the time for solving; the rest is for writing down and rechecking the last answer.
SOLVING = 0.8

#: Other foods of the meal that may change where all other meals keep theirs.
NEAR = 3

#: Seconds below which nothing more is begun.
ENOUGH = 0.15


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
    """Up to so many replacements, as many as the time allows; none where nothing may come. Raises BadInput, Refused."""
    start = time.perf_counter()
    standing = standing_day(plan, day, folder, where)
    wanted = asked(standing, wishes)
    levels = Levels(wanted.day, wanted.aims, start + SOLVING * seconds)
    if not levels.ready():
        return ()
    found = _answers(levels, most)
    return tuple(_offer(standing, wanted, least, start) for least in found)


def _answers(levels: Levels, most: int) -> Iterator[Least]:
    """The answers, each another replacement than all before it: first those that leave all other meals their foods."""
    taken: list[Answered] = []
    start = sum(levels.fewest)
    yield from _more(levels, near_options(levels, NEAR), start + NEAR, taken, most)
    for changes in range(start + 1, start + LEVELS):
        if len(taken) >= most or time.perf_counter() >= levels.end:
            return
        yield from _more(levels, nearest(levels.nearby, changes, levels.fewest), changes, taken, most)


def _more(
    levels: Levels, options: Sequence[Sequence[Plate]], changes: int, taken: list[Answered], most: int
) -> Iterator[Least]:
    """Every answer over these plates that is none of those taken, the least change first."""
    built = level(levels.day, levels.aims, options, changes, each=A_CHANGE)
    for one in taken:
        forbid(built, one)
    while len(taken) < most and (left := levels.end - time.perf_counter()) > ENOUGH:
        answer = solved(built, NEAR_G, left)
        if not answer.values:
            return
        replaced = what_came(levels.aims, built, answer)
        yield found_at(built, answer, sure=False)
        taken.append(replaced)
        forbid(built, replaced)


@dataclass(frozen=True, slots=True)
class Answered:
    """A replacement: of which meal, by which foods, on which dish. other_dish: whether it is not the meal's own.

    stood: the foods that stood in the meal before.
    """

    index: int
    dish: str
    other_dish: bool
    came: frozenset[str]
    stood: frozenset[str]


def what_came(aims: tuple[Aim, ...], built: Level, answer: Answer) -> Answered:
    """What this answer brings into the meal that was asked about."""
    aim = next(one for one in aims if one.asked)
    serving = _served(built, aim, answer)
    used = {food.choice.name for food in serving.foods if round(answer.values[food.used]) == 1}
    other = serving.plate.dish.id != aim.standing.plate.dish.id
    return Answered(
        aim.standing.index, serving.plate.dish.id, other, frozenset(used - aim.standing.names), aim.standing.names
    )


def _served(built: Level, aim: Aim, answer: Answer) -> Serving:
    servings = built.problem.servings[aim.standing.index]
    return next(one for one in servings if round(answer.values[one.served]) == 1)


def forbid(built: Level, taken: Answered) -> None:
    """No later answer of this level is that replacement: another dish altogether, or the same foods on the own one."""
    model = built.problem.model
    number = len(model.rows)
    for serving in built.problem.servings[taken.index]:
        if serving.plate.dish.id != taken.dish:
            continue
        if taken.other_dish:
            model.rows.append(Row(f"another_{number}", ((serving.served, 1.0),), most=0.0))
        elif taken.came:
            used = tuple((food.used, 1.0) for food in serving.foods if food.choice.name in taken.came)
            model.rows.append(Row(f"another_{number}", used, most=len(taken.came) - 1.0))
        else:
            other = [food.used for food in serving.foods if food.choice.name not in taken.stood]
            terms = (*((column, 1.0) for column in other), (serving.served, -1.0))
            model.rows.append(Row(f"another_{number}", terms, least=0.0))


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
