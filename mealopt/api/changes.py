"""A plan changed: a food or dish for another, a meal held or skipped. From document to document; nothing is kept."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from mealopt.api.cases import heaviest_day
from mealopt.api.progress import Progress

if TYPE_CHECKING:
    from mealopt.documents.plan import Plan, PlanDay
    from mealopt.people.case import Case
    from mealopt.plans.swap.offers import Offer
    from mealopt.plans.swap.swapped import Swapped
    from mealopt.plans.swap.wishes import Wishes

Words = str | Sequence[str] | None


def _several(words: Words) -> tuple[str, ...]:
    return () if words is None else (words,) if isinstance(words, str) else tuple(words)


def _wishes(
    meal: int | str | None, out: Words, into: Words, dish: bool, hold: Sequence[int], drop: Sequence[int]
) -> Wishes:
    from mealopt.plans.swap.wishes import Wishes

    return Wishes(meal, _several(out), _several(into), dish, tuple(hold), tuple(drop))


def swap(
    plan: Plan,
    meal: int | str | None,
    out: Words = None,
    into: Words = None,
    *,
    day: str | None = None,
    dish: bool = False,
    hold: Sequence[int] = (),
    drop: Sequence[int] = (),
    folder: str | Path | None = None,
    seconds: float = 5.0,
    fresh: bool = False,
    where: str = "the plan",
) -> Swapped:
    """The plan with foods out of a meal and others in, every limit met, and as little of the rest changed as can be.

    In order: the fewest other foods, then the fewest grams, then the lowest penalty. meal: its number, "all" for every
    meal that holds the food, None where meals are only held or dropped. out, into: a food or several; into may be a
    dish, or a food with its grams ("rice, white=200g"). dish: the whole dish is swapped. hold: numbers of meals that
    stay as they are; drop: of meals that are skipped, the others meeting the day's numbers. day: of a week. folder: of
    the case file, where it names own foods. fresh: plan the whole day anew with these wishes. where: what a refusal
    begins with. seconds: of work; a busy machine takes longer by the clock.

    The plan is rechecked first, and so is the answer. Raises BadInput; Refused; Unplannable with what clashes;
    OutOfTime; BrokenPlan.
    """
    from mealopt.plans.swap.swapped import swapped

    wishes = _wishes(meal, out, into, dish, hold, drop)
    beside = None if folder is None else Path(folder)
    return swapped(plan, wishes, day=day, folder=beside, seconds=seconds, fresh=fresh, where=where)


def offers(
    plan: Plan,
    meal: int,
    out: Words = None,
    *,
    day: str | None = None,
    dish: bool = False,
    hold: Sequence[int] = (),
    drop: Sequence[int] = (),
    most: int = 8,
    seconds: float = 2.0,
    folder: str | Path | None = None,
    where: str = "the plan",
) -> tuple[Offer, ...]:
    """What may come for a food, or for the dish, of a meal: each solved and proved possible, the least change first.

    As many as the time allows, at most so many, and one at least. Raises as `swap` does: Unplannable with what clashes
    where nothing may come at all, OutOfTime where the time ended before the first.
    """
    from mealopt.plans.swap.offers import offered

    wishes = _wishes(meal, out, None, dish, hold, drop)
    beside = None if folder is None else Path(folder)
    return offered(plan, wishes, day=day, folder=beside, most=most, seconds=seconds, where=where)


def day_of(plan: Plan, day: str | None = None) -> PlanDay:
    """A day of a plan; None: its only one. Raises BadInput."""
    from mealopt.plans.held.standing import plan_entry

    return plan_entry(plan, day)


def unlike(
    case: Case,
    plans: Sequence[Plan],
    day: str | None = None,
    *,
    gap: float = 0.01,
    seconds: float = 20.0,
    progress: Progress | None = None,
) -> Plan:
    """Another good day of a case, with as few dishes as can be that stand in these plans. Raises as `plan_day` does.

    day: None for the day of the first plan.
    """
    from mealopt.plans.day.unlike import plan_unlike

    named = day or (plans[0].days[0].day if plans else heaviest_day(case))
    return plan_unlike(case, named, plans, gap=gap, seconds=seconds, progress=progress)


def choices(
    case: Case,
    day: str | None = None,
    count: int = 3,
    *,
    gap: float = 0.01,
    seconds: float = 20.0,
    progress: Progress | None = None,
) -> tuple[Plan, ...]:
    """So many days of a case that differ in dishes, the best first; fewer where no more are near enough.

    Each lies within 5 % of the best, measured as every gap is: (value - best) / max(best, 50 points). seconds: of each.
    Raises as `plan_day` does.
    """
    from mealopt.plans.day.unlike import plan_choices

    return plan_choices(case, day or heaviest_day(case), count, gap=gap, seconds=seconds, progress=progress)
