"""The swap: from a plan document and wishes to the document changed as little as can be."""

from __future__ import annotations

import time
from dataclasses import dataclass, replace
from pathlib import Path

from mealopt.documents.plan import Plan, PlanDay
from mealopt.errors import OutOfTime
from mealopt.milp.effort import spent
from mealopt.milp.highs import version
from mealopt.plans.day.found import NothingFits, SolvedDay
from mealopt.plans.day.least import hopeless
from mealopt.plans.held.standing import StandingDay, standing_day
from mealopt.plans.swap.clash import clash
from mealopt.plans.swap.fresh import fresh_day, planned_fresh
from mealopt.plans.swap.search import Least, Levels
from mealopt.plans.swap.told import MealChange, changes, pots, rules_lost, unfuelled
from mealopt.plans.swap.tries import another_dish
from mealopt.plans.swap.wishes import Asked, Wishes, asked
from mealopt.plans.swap.written import Found, rewritten
from mealopt.rules import weights

#: From this share on, measured as every gap is, a fresh plan is offered.
WORN = 0.10

#: Share of the time for the levels, and of what is then left for an answer that leaves other meals their foods; the
#: rest is for a day planned anew.
LEVELS_SHARE, STAYING_SHARE = 0.6, 0.4

#: Foods of the asked meal that may then change beyond its fewest.
MORE = 4

#: How near the best a day planned anew is proven.
FRESH_GAP = 0.01

#: Seconds that a day planned anew, or the reason why there is none, gets although the time is over.
LEAST_FRESH = 1.0


@dataclass(frozen=True, slots=True)
class Swapped:
    """What became of the wishes.

    changes: meals that changed, before and after. foods_changed: other foods that left their meal or came into one,
    what was asked for and its stand-in not counted, None where the day was planned anew; grams_moved: of other foods.
    proven: that no answer changes fewer foods, nor as many and fewer grams. penalty_before, penalty_after: points;
    fresh_at_best: no plan of this day can be below it, None where that is not known. fresh_offered: whether the day
    lies over 10 % above that, measured as every gap is. says: all that in words. told: what is to be
    heard of sessions that have nothing to eat any more, of other days, where food is cooked for several, and of rules
    of the week that are not met any more.
    """

    plan: Plan
    day: PlanDay
    changes: tuple[MealChange, ...]
    foods_changed: int | None
    grams_moved: float
    proven: bool
    penalty_before: float
    penalty_after: float
    fresh_at_best: float | None
    fresh_offered: bool
    says: str
    told: tuple[str, ...] = ()


def swapped(
    plan: Plan,
    wishes: Wishes,
    *,
    day: str | None = None,
    folder: Path | None = None,
    seconds: float = 5.0,
    fresh: bool = False,
    where: str = "the plan",
) -> Swapped:
    """The plan with these wishes met. fresh: plan the day anew with them instead of changing least.

    seconds: of work, reading the plan counted, so that a busy machine finds what an idle one does; it takes longer by
    the clock, at most `milp.effort.SLOWEST` times as long.
    Raises BadInput (bad wishes, a wrong plan), Refused, Unplannable with what clashes, OutOfTime, BrokenPlan.
    """
    start, end = time.perf_counter(), spent() + seconds
    standing = standing_day(plan, day, folder, where)
    wanted = asked(standing, wishes)
    least = None if fresh else _least(wanted, end, seconds)
    if least is not None:
        return swapped_from(standing, wanted, found_least(wanted, least, start), least)
    return swapped_from(standing, wanted, _found_fresh(wanted, end, start, fresh), None)


def _least(wanted: Asked, end: float, seconds: float) -> Least | None:
    """The answer that changes least. end: of the work, of which there are so many seconds in all."""
    levels = Levels(wanted.day, wanted.aims, end - (1 - LEVELS_SHARE) * seconds)
    if not levels.ready():
        return None
    found = another_dish(levels) if any(aim.whole for aim in wanted.aims) else None
    found = found or levels.least()
    if found is None:
        found = levels.staying(MORE, STAYING_SHARE * (end - spent()))
    return found


def swapped_from(standing: StandingDay, wanted: Asked, found: Found, least: Least | None) -> Swapped:
    """The answer written down, and what it changed."""
    after = rewritten(wanted, found)
    entry = next(one for one in after.days if one.day == standing.entry.day)
    worn = found.bound is not None and found.penalty - found.bound > WORN * max(found.penalty, weights.FLOOR)
    return Swapped(
        plan=after,
        day=entry,
        changes=changes(standing.entry, entry),
        foods_changed=None if least is None else least.changes,
        grams_moved=0.0 if least is None else round(least.grams, 1),
        proven=found.proven,
        penalty_before=round(sum(standing.entry.penalty.values()), 2),
        penalty_after=round(found.penalty, 2),
        fresh_at_best=None if found.bound is None else round(found.bound, 2),
        fresh_offered=worn,
        says=found.says,
        told=(
            *unfuelled(standing.entry, entry),
            *pots(standing.plan.days, standing.entry, entry),
            *rules_lost(standing.plan, after),
        ),
    )


def found_least(wanted: Asked, least: Least, start: float) -> Found:
    """A level's answer as what was found. start: of the clock that its seconds are read from."""
    values = least.answer.values
    penalty = least.level.penalty(values)
    return Found(
        least.level.problem,
        replace(least.answer, solver=version()),
        penalty,
        _bound(wanted),
        least.proven,
        proof(least),
        time.perf_counter() - start,
    )


def _found_fresh(wanted: Asked, end: float, start: float, by_wish: bool) -> Found:
    left = end - spent()
    try:
        solved: SolvedDay | NothingFits = planned_fresh(wanted.day, wanted.aims, FRESH_GAP, max(left, LEAST_FRESH))
    except OutOfTime:
        # Where no plan was found, it may be that there is none: that is known sooner than the search ends.
        if not hopeless(fresh_day(wanted.day, wanted.aims)):
            raise
        solved = NothingFits(fresh_day(wanted.day, wanted.aims), ())
    if isinstance(solved, NothingFits):
        raise clash(wanted, solved, max(end - spent(), LEAST_FRESH))
    answer = solved.answer
    penalty = sum(solved.problem.shares(answer.values).values())
    says = (
        "planned anew with these wishes" if by_wish else "planned anew: the time ended before fewest changes were found"
    )
    return Found(solved.problem, answer, penalty, answer.bound, by_wish, says, time.perf_counter() - start)


def _bound(wanted: Asked) -> float | None:
    """What no plan of the day can be below, from the document; a day with fewer meals than then is another day."""
    solve = wanted.day.entry.solve or wanted.day.plan.solve
    return None if wanted.dropped else solve.bound


def proof(least: Least) -> str:
    """What was proven, in words."""
    if least.proven and least.changes == 0 and least.grams < 0.5:
        return "no other food changed or moved"
    foods = f"{least.changes or 'no'} other food{'' if least.changes == 1 else 's'} changed"
    if not least.fewest_proven:
        return f"{foods}, {least.grams:.0f} g moved; the time ended before fewer were ruled out"
    if not least.grams_proven:
        return f"{foods}, proven the fewest; {least.grams:.0f} g moved, not proven the least"
    return f"{foods}, proven the fewest; {least.grams:.0f} g of other foods moved, proven the least"
