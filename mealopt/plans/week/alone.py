"""One day of a week by itself: a quick answer first, which tells how long its card must be; then the bound, once.

`plans.day.solve` proves each card before it deals a longer one. Here the bound is what is wanted, so the first card
gives an answer only, and the card is then dealt as far as that answer's value asks for.
"""

from __future__ import annotations

import math
import time
from dataclasses import replace

from mealopt.milp.answer import Answer, Status
from mealopt.milp.stages import Stop, solve_in_stages, tolerance
from mealopt.plans.day.card import Card
from mealopt.plans.day.pose import PosedDay
from mealopt.plans.day.solve import NothingFits, SolvedDay, beyond, first_places, solve_posed
from mealopt.rules import weights
from mealopt.rules.problem import Problem

#: Gap of the first answer, and its seconds at most.
QUICK_GAP, QUICK_SECONDS = 0.06, 8.0


def solve_alone(
    posed: PosedDay, gap: float, seconds: float, solver: str = "highs", stop: Stop | None = None
) -> tuple[SolvedDay | NothingFits, int]:
    """The day with a bound that holds for every dish, and the plates a slot that its card then held.

    Raises OutOfTime, KeyboardInterrupt as `solve_posed` does, which is asked where no quick answer is found.
    """
    start = time.perf_counter()
    card, places = posed.card(), first_places(len(posed.slots))
    card.deal(places)
    quick = None
    if solver == "highs" and not card.empty():
        problem = posed.problem(card)
        quick = stages(problem, QUICK_GAP, min(QUICK_SECONDS, seconds), stop)
    if quick is None or not quick.values:
        left = max(0.5, seconds - (time.perf_counter() - start))
        return solve_posed(posed, gap, left, solver, None, stop), places
    best = SolvedDay(posed, problem, quick, 0.0)
    wanted = _wanted(problem, places, quick.objective, gap)
    if wanted > places and not card.ended:
        places = wanted
        card.deal(places)
        problem = posed.problem(card)
    left = max(0.2, seconds - (time.perf_counter() - start))
    proof = stages(problem, gap, left, stop, quick.objective)
    if proof.values:
        best = SolvedDay(posed, problem, proof, 0.0)
    bound = max(proof.bound, quick.bound) if places == first_places(len(posed.slots)) else proof.bound
    if not card.ended:
        bound = min(bound, beyond(problem, places))
    return _finished(best, bound, gap, start, stop), places


def stages(
    problem: Problem, gap: float, seconds: float, stop: Stop | None = None, beat: float = float("inf")
) -> Answer:
    """The problem solved in stages."""
    groups = [[serving.served for serving in options] for options in problem.servings]
    return solve_in_stages(problem.model, groups, gap, weights.FLOOR, seconds, None, problem.decisive(), beat, stop)


def dealt(posed: PosedDay, places: int) -> tuple[Card, Problem]:
    """A card with so many plates a slot, and its problem."""
    card = posed.card()
    card.deal(places)
    return card, posed.problem(card)


def _wanted(problem: Problem, places: int, value: float, gap: float) -> int:
    """Places from which on no plate beyond the card can beat the value by more than the gap."""
    rest = beyond(problem, places) - weights.PLACE * places
    return math.ceil((value - tolerance(value, gap, weights.FLOOR) - rest) / weights.PLACE) + 1


def _finished(best: SolvedDay, bound: float, gap: float, start: float, stop: Stop | None) -> SolvedDay:
    value = best.answer.objective
    answer = replace(best.answer, bound=min(bound, value))
    close = value - answer.bound <= tolerance(value, gap, weights.FLOOR) + 1e-6
    status = Status.OPTIMAL if value - answer.bound <= 1e-6 else Status.GAP if close else Status.LIMIT
    stopped = stop is not None and stop() and status is Status.LIMIT
    answer = replace(answer, status=status)
    return replace(best, answer=answer, seconds=time.perf_counter() - start, stopped=stopped)
