"""The rest of the day sought: with the planned dishes and foods where those do, with others where they come nearer.

First only amounts change, then the foods of the planned dishes, then dishes, as few as can be. The linear program over
all dishes says how near any day could come: where fewer changes come as near as that, nothing more is sought.
Seconds are of work (`milp.effort`), so that a busy machine finds what an idle one does.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import combinations, islice

from mealopt.errors import OutOfTime, Unplannable
from mealopt.menu.plates import Plate
from mealopt.milp.answer import Answer, Status
from mealopt.milp.effort import spent
from mealopt.plans.replan.anew import DayAnew
from mealopt.plans.replan.near import NOUGHT, Near, as_near, changes_of, pose_near
from mealopt.plans.replan.options import Options
from mealopt.rules.problem import Problem

#: Shares of the time that is left: for the planned dishes, for any dishes, for one set of dishes.
HELD, ANY, ONE, ONE_SHARE = 0.3, 0.6, 0.3, 0.1

#: Seconds for one set of dishes, and for the fewest changes to it: both are small.
ONE_MOST, FEW_MOST = 1.0, 4.0

#: Seconds that each solve gets although the time is over; what was found by then is the answer.
LEAST = 0.1

#: Seconds that the planned dishes get once more where the time ended before there was any plan: most often they need
#: a tenth of that.
ONCE_MORE = 2.0

#: Sets of dishes that are tried at most, and seconds below which none is begun.
SETS, BLINK = 10, 0.3

#: Seconds by which the engine may end late, for it looks up only between its steps; share of short limits.
LATE, LATE_SHARE = 1.0, 0.3

Plates = tuple[tuple[Plate, ...], ...]
Left = Callable[[float], float]


@dataclass(frozen=True, slots=True)
class RestFound:
    """The rest of the day. answer: values of problem's columns, and more. harm: of what gives, 0 where nothing does;
    bound: the harm that no day of these meals can be under. seconds: all of it. cut: the time ended before it was known
    to come as near as any."""

    problem: Problem
    answer: Answer
    harm: float
    bound: float
    seconds: float
    rows: int
    columns: int
    cut: bool = False


@dataclass(frozen=True, slots=True)
class _Tried:
    """Plates that were tried, and the nearest day of them."""

    near: Near
    answer: Answer

    @property
    def found(self) -> bool:
        return self.answer.status.solved

    @property
    def harm(self) -> float:
        return self.answer.objective if self.found else float("inf")


def seek(day: DayAnew, options: Options, seconds: float, start: float) -> RestFound:
    """The nearest day, with the fewest changes. Raises OutOfTime, and Unplannable where a meal cannot be served.

    start: of the work that the seconds are counted from, as `milp.effort.spent` has it.
    """
    end = start + seconds - min(LATE, LATE_SHARE * seconds)

    def left(share: float = 1.0) -> float:
        return max(LEAST, share * (end - spent()))

    chosen, bound = _nearest(day, options, left)
    if not chosen.found and chosen.answer.status is not Status.INFEASIBLE:
        near = pose_near(day, options.just_held(), options)
        again = _Tried(near, near.nearest(ONCE_MORE))
        chosen = again if again.found else chosen
    if not chosen.found:
        if chosen.answer.status is Status.INFEASIBLE:
            raise Unplannable(f"{day.posed.day}: the meals that are left cannot be served within their windows")
        raise OutOfTime(f"no plan was found in {seconds:g} s; give it more with --seconds")
    most = min(max(FEW_MOST, HELD * seconds), left())
    found = chosen.near.least_changed(chosen.answer.values, changes_of(chosen.near, options.held), most)
    # The nearest day stands where time ends before one with fewer changes is found.
    answer = found if found.values else replace(chosen.answer, status=Status.LIMIT)
    model, took = chosen.near.model, spent() - start
    cut = left(1.0) <= LEAST and chosen.harm > as_near(bound)
    return RestFound(chosen.near.problem, answer, chosen.harm, bound, took, len(model.rows), model.columns, cut)


def _nearest(day: DayAnew, options: Options, left: Left) -> tuple[_Tried, float]:
    """The day with the fewest changes among those that come as near as any, and the harm that none can be under."""

    def tried(plates: Plates, seconds: float) -> _Tried:
        near = pose_near(day, plates, options)
        return _Tried(near, near.nearest(seconds))

    amounts = tried(options.just_held(), left(HELD))
    if amounts.harm <= NOUGHT or (amounts.found and left(1.0) <= LEAST):
        return amounts, 0.0
    everything = pose_near(day, options.plates, options)
    bound = everything.bound()
    if amounts.harm <= as_near(bound):
        return amounts, bound
    foods = tried(options.planned_dishes(), left(HELD))
    if foods.harm <= as_near(bound) or (foods.found and left(1.0) <= LEAST):
        return min((amounts, foods), key=lambda one: one.harm), bound
    dishes = _Tried(everything, everything.nearest(left(ANY)))
    if not dishes.found:
        best = min((amounts, foods), key=lambda one: one.harm)
        return (best if best.found else dishes), bound
    bound = max(bound, dishes.answer.bound)
    enough = as_near(dishes.harm)
    for one in (amounts, foods):
        if one.harm <= enough:
            return one, bound
    for plates in islice(_with_fewer_dishes(dishes, options), SETS):
        if left(1.0) < BLINK:
            break
        one = tried(plates, max(min(ONE_MOST, left(ONE)), left(ONE_SHARE)))
        if one.harm <= enough:
            return one, bound
    return dishes, bound


def _with_fewer_dishes(dishes: _Tried, options: Options) -> Iterator[Plates]:
    """The dishes of an answer, with as many as can be of the planned ones in place of others; the most first."""
    served = []
    for servings in dishes.near.problem.servings:
        at = next(place for place, one in enumerate(servings) if round(dishes.answer.values[one.served]) == 1)
        served.append(servings[at].plate)
    other = [
        index for index, plate in enumerate(served)
        if index in options.held and plate.dish.id != options.held[index].plate.dish.id
    ]  # fmt: skip
    for count in range(len(other) - 1, -1, -1):
        for back in combinations(other, count):
            yield tuple(
                (options.held[index].plate,) if index in back else (plate,) for index, plate in enumerate(served)
            )
