"""When what is left of the day is eaten: the planned meals at their times, moved only where a new session asks for it,
what is eaten in sessions, and a snack or two where the planned meals cannot hold what is left."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from mealopt.core.clock import clock, minutes_of
from mealopt.core.nutrients import ENERGY, PROTEIN
from mealopt.core.slots import MAIN
from mealopt.documents.plan import Meal
from mealopt.targets.mealtimes import (
    ANCHOR_COST,
    GRID,
    TIGHT_COST,
    Occasion,
    WakingDay,
    meal_after,
    meal_before,
    snack,
)
from mealopt.targets.timing import DayShape, easy_kcal, eaten_in

#: Snacks that are added at most: nobody is to eat all evening for a lunch that was skipped.
MOST_NEW_SNACKS = 2

#: A planned meal grows to this many times its energy before a snack is added.
GROWS = 1.35

#: A main meal within two hours of a session moves rather than shrink; others stay where they can.
TIGHT = 3

#: Minutes between a meal that moves and the meals beside it.
APART = 30


@dataclass(frozen=True, slots=True)
class Coming:
    """A meal that is still to come. planned: as the plan has it; None where it is new. given: nothing is left to choose
    in it."""

    occasion: Occasion
    planned: Meal | None = None
    given: bool = False

    @property
    def moved(self) -> bool:
        """Whether it is eaten at another time than was planned."""
        return self.planned is not None and minutes_of(self.planned.time) != self.occasion.start


@dataclass(frozen=True, slots=True)
class Hours:
    """The hours that are left. now: minutes; past: starts and ends of what was eaten; new: numbers of new sessions.

    changed: whether the day's sessions are others than was planned.
    """

    shape: DayShape
    now: int
    past: tuple[tuple[int, int], ...]
    new: frozenset[int] = frozenset()
    changed: bool = False

    @property
    def day(self) -> WakingDay:
        """What is left of the day, as one that begins now."""
        shape = self.shape
        wake = max(shape.wake, self.now)
        return WakingDay(wake, shape.sleep, shape.sessions, (*shape.sessions, *shape.ahead))


def lay_rest(hours: Hours, meals: Sequence[tuple[Meal, bool]], left_kcal: float) -> tuple[Coming, ...]:
    """The rest of the day, in order of time. meals: those of the plan that are still to come, each with whether it is
    given. left_kcal: what is still to be eaten, in sessions too."""
    coming = [_at_its_time(meal, given, hours) for meal, given in meals if meal.slot != "during"]
    coming = _moved(coming, hours)
    if hours.new:
        coming += _around_new_sessions(coming, hours)
    in_sessions = _in_sessions([one for one in meals if one[0].slot == "during"], hours)
    fuel = sum(
        4.0 * sum(one.during_g) / 2.0 for one in hours.shape.sessions if one.start >= hours.now and eaten_in(one)
    )
    coming += _snacks(coming, hours, left_kcal - fuel)
    return tuple(sorted([*coming, *in_sessions], key=lambda one: (one.occasion.start, one.occasion.end)))


def _at_its_time(meal: Meal, given: bool, hours: Hours) -> Coming:
    start, end = minutes_of(meal.time), minutes_of(meal.ends)
    kind, session = meal.slot, 0
    if hours.changed and kind in ("before", "after"):
        tight = hours.day.tightness(end) >= TIGHT
        ended = next((one.number for one in hours.shape.sessions if 0 <= start - one.end <= 120), 0)
        kind = "before" if tight else "after" if kind == "after" and ended else "snack"
        session = ended if kind == "after" else 0
    return Coming(Occasion(kind, start, end, main=kind in MAIN, session=session), meal, given)


def _moved(coming: list[Coming], hours: Hours) -> list[Coming]:
    """Each meal out of the way of new sessions; those that need not move stay."""
    if not hours.new:
        return coming
    free = [one for one in coming if one.given or not _in_the_way(one.occasion, hours)]
    for one in sorted((one for one in coming if one not in free), key=lambda each: not each.occasion.main):
        found = _free_time(one.occasion, [other.occasion for other in free], hours)
        free.append(replace(one, occasion=found) if found is not None else one)
    return free


def _in_the_way(meal: Occasion, hours: Hours) -> bool:
    sessions = [one for one in hours.shape.sessions if one.number in hours.new]
    meets = any(meal.end > one.start - 15 and meal.start < one.end + 15 for one in sessions)
    return meets or (meal.main and any(0 <= one.start - meal.end < 120 for one in sessions))


def _free_time(meal: Occasion, others: Iterable[Occasion], hours: Hours) -> Occasion | None:
    """The nearest time for a meal that must move, out of tight windows where that is not far; None where there is
    none."""
    minutes, day = meal.end - meal.start, hours.day
    taken = [*((one.start, one.end) for one in others), *hours.past]

    def cost(start: int) -> float:
        return ANCHOR_COST * abs(start - meal.start) / 60.0 + TIGHT_COST[day.tightness(start + minutes)]

    first = -(-(hours.now + 5) // GRID) * GRID
    for apart in (APART, 5):
        starts = [
            start
            for start in range(first, day.sleep - minutes, GRID)
            if day.free(start, minutes)
            and all(start >= end + apart or start + minutes <= begin - apart for begin, end in taken)
        ]
        if starts:
            start = min(starts, key=cost)
            kind = "before" if not meal.main and day.tightness(start + minutes) >= TIGHT else meal.kind
            return replace(meal, kind=kind, start=start, end=start + minutes)
    return None


def _around_new_sessions(coming: list[Coming], hours: Hours) -> list[Coming]:
    """Meals before and after new sessions, where the session asks for one and none lies there."""
    found: list[Coming] = []
    past = [Occasion("snack", start, end) for start, end in hours.past]
    for session in hours.shape.sessions:
        if session.number not in hours.new or session.start < hours.now:
            continue
        for lay in (meal_before, meal_after):
            meals = [*past, *(one.occasion for one in (*coming, *found))]
            one = lay(hours.day, meals, session)
            found += [Coming(one)] if one is not None else []
    return found


def _in_sessions(planned: Sequence[tuple[Meal, bool]], hours: Hours) -> list[Coming]:
    """What is eaten in the sessions that are still to come."""
    by_time = {(meal.time, meal.ends): (meal, given) for meal, given in planned}
    found = []
    for session in hours.shape.sessions:
        if session.start >= hours.now and eaten_in(session):
            meal, given = by_time.get((clock(session.start), clock(session.end)), (None, False))
            occasion = Occasion("during", session.start, session.end, session=session.number)
            found.append(Coming(occasion, meal, given))
    return found


def first_planned(meal: Meal) -> dict[str, float]:
    """Energy and protein that a meal was first planned to hold, however often its day was planned anew."""
    return {key: meal.planned.get(key, meal.totals.get(key, 0.0)) for key in (ENERGY, PROTEIN)}


def planned_kcal(one: Coming) -> float:
    """Energy of a meal as it was first planned; 0 where it is new."""
    return 0.0 if one.planned is None else first_planned(one.planned)[ENERGY]


def holds(one: Coming, hours: Hours) -> float:
    """What the meal holds with ease, kcal: a planned one not much more than was planned."""
    if one.given:
        return planned_kcal(one)
    easy = easy_kcal(hours.shape, hours.day, one.occasion)
    return easy if one.planned is None else min(max(easy, planned_kcal(one)), GROWS * planned_kcal(one))


def _snacks(coming: list[Coming], hours: Hours, left_kcal: float) -> list[Coming]:
    found: list[Coming] = []
    past = [Occasion("snack", start, end) for start, end in hours.past]
    while len(found) < MOST_NEW_SNACKS:
        everything = [*coming, *found]
        if sum(holds(one, hours) for one in everything) >= left_kcal:
            break
        one = snack(hours.day, [*past, *(each.occasion for each in everything)])
        if one is None:
            break
        tight = hours.day.tightness(one.end) >= TIGHT
        found.append(Coming(replace(one, kind="before") if tight else one))
    return found


def energy_aims(coming: Sequence[Coming], hours: Hours, left_kcal: float, least_share: float) -> list[float]:
    """Kcal that suit each meal to come, what is eaten in sessions left out: as planned, grown or shrunk together.

    left_kcal: outside sessions. least_share: of its planned energy that each keeps.
    """
    planned = [planned_kcal(one) for one in coming]
    known = sum(planned)
    if known >= left_kcal and known > 0:
        share = max(least_share, left_kcal / known)
        return [kcal if one.given else share * kcal for kcal, one in zip(planned, coming, strict=True)]
    room = [holds(one, hours) - kcal for one, kcal in zip(coming, planned, strict=True)]
    more = left_kcal - known
    share = min(1.0, more / sum(room)) if sum(room) > 0 else 0.0
    aims = [kcal + share * space for kcal, space in zip(planned, room, strict=True)]
    over = left_kcal - sum(aims)
    free = [0.0 if one.given else aim for one, aim in zip(coming, aims, strict=True)]
    # What does not fit with ease is spread over all of them.
    return [aim + over * part / sum(free) if sum(free) > 0 else aim for aim, part in zip(aims, free, strict=True)]
