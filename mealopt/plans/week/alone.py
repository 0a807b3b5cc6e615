"""One day of a week by itself: a quick answer first, which tells how long its card must be; then the bound, once.

`plans.day.solve` proves each card before it deals a longer one. Here a first card gives an answer only, and the card is
then dealt as far as that answer's value asks for.
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable

from mealopt.milp.answer import Answer, Status
from mealopt.milp.stages import Stop, solve_in_stages, tolerance
from mealopt.plans.day.card import Card
from mealopt.plans.day.pose import PosedDay
from mealopt.plans.day.servable import servable
from mealopt.plans.day.solve import NothingFits, SolvedDay, beyond, first_places, solve_posed
from mealopt.rules import weights
from mealopt.rules.problem import Problem

#: Gap of the first answer, and its seconds at most.
QUICK_GAP, QUICK_SECONDS = 0.06, 6.0


def first_answer(
    posed: PosedDay, seconds: float, solver: str = "highs", stop: Stop | None = None
) -> SolvedDay | NothingFits:
    """A day that keeps its rules, soon. Raises OutOfTime, KeyboardInterrupt as `solve_posed`, which is asked where the
    first card holds none.
    """
    start = time.perf_counter()
    card, problem = dealt(posed, first_places(len(posed.slots)))
    if solver == "highs" and not card.empty():
        quick = stages(problem, QUICK_GAP, min(QUICK_SECONDS, seconds), stop, prove=False)
        if quick.values:
            return SolvedDay(posed, problem, quick, time.perf_counter() - start)
    left = max(0.5, seconds - (time.perf_counter() - start))
    return solve_posed(posed, QUICK_GAP, left, solver, None, stop)


def proof(
    posed: PosedDay,
    value: float,
    gap: float,
    seconds: float,
    eased: Callable[[Problem], None],
    stop: Stop | None = None,
) -> tuple[SolvedDay, float, int]:
    """A bound that holds for every dish, given the value of an answer that is known.

    eased: what is to be eased in the problem before it is solved. Returns the better answer that was met on the way
    (its values are empty where there was none), the bound, and the plates a slot of the card.
    """
    start = time.perf_counter()
    places = first_places(len(posed.slots))
    card, problem = dealt(posed, places)
    wanted = _wanted(problem, places, value, gap)
    if wanted > places and not card.ended:
        places = wanted
        card, problem = dealt(posed, places)
    eased(problem)
    answer = stages(problem, gap, seconds, stop, value)
    known = answer.status.solved or answer.bound > 0
    bound = answer.bound if known and answer.status is not Status.INFEASIBLE else 0.0
    if not card.ended:
        bound = min(bound, beyond(problem, places))
    return SolvedDay(posed, problem, answer, time.perf_counter() - start), max(0.0, bound), places


def stages(
    problem: Problem,
    gap: float,
    seconds: float,
    stop: Stop | None = None,
    beat: float = float("inf"),
    prove: bool = True,
) -> Answer:
    """The problem solved in stages. prove: False ends with the first answer."""
    groups = [[serving.served for serving in options] for options in problem.servings]
    decisive, may_be = problem.decisive(), servable(problem)
    return solve_in_stages(
        problem.model, groups, gap, weights.FLOOR, seconds, None, decisive, beat, stop, may_be, proof=prove
    )


def dealt(posed: PosedDay, places: int) -> tuple[Card, Problem]:
    """A card with so many plates a slot, and its problem."""
    card = posed.card()
    card.deal(places)
    return card, posed.problem(card)


def _wanted(problem: Problem, places: int, value: float, gap: float) -> int:
    """Places from which on no plate beyond the card can beat the value by more than the gap."""
    rest = beyond(problem, places) - weights.PLACE * places
    return math.ceil((value - tolerance(value, gap, weights.FLOOR) - rest) / weights.PLACE) + 1
