"""Solving a posed day: a short card first, a longer one where the proof or the numbers ask for it.

The penalty charges a plate by its place on the card, and no term is negative: so no day that uses a plate beyond the
card can cost less than that place does, and the bound is the lower of the two.
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable
from dataclasses import replace

from mealopt.errors import OutOfTime
from mealopt.milp.answer import Answer, Status
from mealopt.milp.model import Row
from mealopt.milp.search import Stop, tolerance
from mealopt.milp.stages import solve_in_stages
from mealopt.plans.day.found import NothingFits, SolvedDay
from mealopt.plans.day.guided import guided
from mealopt.plans.day.pose import PosedDay
from mealopt.plans.day.servable import servable
from mealopt.rules import weights
from mealopt.rules.problem import Problem

#: Plates a slot on the first card, and how many more for each slot beyond so many (many meals cost many places).
FIRST_CARD, MORE_A_SLOT, SLOTS = 12, 2, 7

#: Where a card of so many holds no day, all plates are dealt next.
MORE_FROM, ALL = 30, 100_000

#: Share of the time left for a first plan that the linear program leads to, before all plates are dealt.
GUIDED = 0.5

Progress = Callable[[str], None]


def solve_posed(
    posed: PosedDay,
    gap: float = 0.01,
    seconds: float = 20.0,
    solver: str = "highs",
    progress: Progress | None = None,
    stop: Stop | None = None,
    places: int = 0,
) -> SolvedDay | NothingFits:
    """Solve the day to the gap, over all dishes that fit.

    places: a slot's on the first card; 0: the usual number. stop: asked while it runs; True ends it with the best so
    far. Raises OutOfTime where the time passed without a plan, KeyboardInterrupt where it was stopped without one.
    """
    start = time.perf_counter()
    card, places, covered = posed.card(), places or first_places(len(posed.slots)), 0
    if card.empty():
        return NothingFits(posed, tuple(slot.label for slot in card.empty()))
    best: SolvedDay | None = None
    behind = bound = float("inf")
    while True:
        card.deal(places)
        left = seconds - (time.perf_counter() - start)
        stopped = stop is not None and stop()
        if left <= 0 or stopped:
            break
        problem = posed.problem(card)
        answer = _run(problem, gap, left, solver, progress, best, stop, covered, card.ended)
        if answer.status is Status.INFEASIBLE and card.ended and best is None:
            return NothingFits(posed, ())
        if answer.values:
            best = _better(best, SolvedDay(posed, problem, answer, 0.0))
        if answer.status is Status.INFEASIBLE or best is not None:
            behind = min(behind, float("inf") if answer.status is Status.INFEASIBLE else answer.bound)
            covered = places
            bound = behind if card.ended else min(behind, beyond(problem, places))
        if best is not None:
            if card.ended or answer.status in (Status.LIMIT, Status.NOTHING) or _close(best.answer, bound, gap):
                return _finished(best, bound, gap, start)
        elif places >= MORE_FROM and not card.ended and solver == "highs":
            led = guided(posed, GUIDED * (seconds - (time.perf_counter() - start)))
            if isinstance(led, NothingFits):
                return led
            best, bound = led, bound if led is None else 0.0
        places = _next(places, best, gap)
    if best is not None:
        return _finished(best, bound, gap, start)
    if stopped:
        raise KeyboardInterrupt
    raise OutOfTime(f"no plan was found in {seconds:g} s; give it more with --seconds")


def first_places(slots: int) -> int:
    """Plates a slot on the first card of a day with so many slots."""
    return FIRST_CARD + MORE_A_SLOT * max(0, slots - SLOTS)


def beyond(problem: Problem, places: int) -> float:
    """The least that a day can cost which uses a plate beyond this many places of the card.

    Its own place is charged, and in every other slot at least the cheapest plate; the rest costs nothing or more.
    """
    last = weights.PLACE * places
    cheapest = [
        min([last, *(problem.model.cost[serving.served] for serving in options)]) for options in problem.servings
    ]
    return last + sum(cheapest) - max(cheapest, default=0.0)


def _next(places: int, best: SolvedDay | None, gap: float) -> int:
    """Plates a slot on the next card: some more where nothing was found, then all; as many as the proof asks for."""
    if best is None:
        return places * 3 if places < MORE_FROM else ALL
    value = best.answer.objective
    rest = beyond(best.problem, places) - weights.PLACE * places
    wanted = math.ceil((value - tolerance(value, gap, weights.FLOOR) - rest) / weights.PLACE)
    return max(places + 4, wanted + 1)


def _run(
    problem: Problem,
    gap: float,
    seconds: float,
    solver: str,
    progress: Progress | None,
    best: SolvedDay | None,
    stop: Stop | None,
    covered: int,
    ended: bool,
) -> Answer:
    """Solve a card's problem. covered: days of so many plates a slot were looked at already; ended: whether there are
    no more plates."""
    model = problem.model
    new = tuple((serving.served, 1.0) for options in problem.servings for serving in options[covered:])
    if covered:
        # What is left to look at uses one plate at least that stood on no card before: most of it costs too much.
        model = replace(model, rows=[*model.rows, Row("beyond", new, least=1.0)])
    if solver == "cbc":
        from mealopt.milp import cbc

        return cbc.solve(model, gap, seconds, gap_absolute=gap * weights.FLOOR)
    groups = [[serving.served for serving in options] for options in problem.servings]

    def tell(value: float, bound: float) -> None:
        if progress is not None:
            least = max(bound, 0.0)
            apart = max(0.0, value - least) / max(value, weights.FLOOR)
            progress(f"penalty {value:.1f}, at best {least:.1f}, gap {100 * apart:.1f} %")

    beat = float("inf") if best is None else best.answer.objective
    decisive, may_be = problem.decisive(), servable(problem)
    return solve_in_stages(model, groups, gap, weights.FLOOR, seconds, tell, decisive, beat, stop, may_be, ended)


def _close(answer: Answer, bound: float, gap: float) -> bool:
    """Whether the answer's value and the bound lie within the gap."""
    return answer.objective - bound <= tolerance(answer.objective, gap, weights.FLOOR) + 1e-6


def _better(best: SolvedDay | None, found: SolvedDay) -> SolvedDay:
    return found if best is None or found.answer.objective <= best.answer.objective else best


def _finished(best: SolvedDay, bound: float, gap: float, start: float) -> SolvedDay:
    """The answer with a bound that holds for every dish, on the card or beyond it."""
    answer = replace(best.answer, bound=min(bound, best.answer.objective))
    apart, close = answer.objective - answer.bound, _close(answer, answer.bound, gap)
    status = Status.OPTIMAL if apart <= 1e-6 else Status.GAP if close else Status.LIMIT
    return replace(best, answer=replace(answer, status=status), seconds=time.perf_counter() - start)
