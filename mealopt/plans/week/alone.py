"""One day of a week by itself: a quick answer first, which tells how long its card must be; then the bound, once.

`plans.day.solve` proves each card before it deals a longer one. Here a first card gives an answer only, and the card is
then dealt as far as that answer's value asks for.
"""

from __future__ import annotations

import math
import time
from collections.abc import Sequence
from typing import Protocol

from mealopt.milp.answer import Answer, Status
from mealopt.milp.model import Row
from mealopt.milp.stages import Stop, solve_in_stages, tolerance
from mealopt.plans.day.card import Card
from mealopt.plans.day.found import NothingFits, SolvedDay
from mealopt.plans.day.guided import guided
from mealopt.plans.day.pose import PosedDay
from mealopt.plans.day.servable import servable
from mealopt.plans.day.solve import ALL, beyond, first_places, solve_posed
from mealopt.rules import weights
from mealopt.rules.problem import Problem

#: Gap of the first answer, and its seconds at most.
QUICK_GAP, QUICK_SECONDS = 0.06, 6.0

#: Where a first card holds no day, one of so many times its length is dealt.
MORE_TIMES = 3


class Eased(Protocol):
    """What a day by itself may hope for from the day before."""

    def pose(self, problem: Problem) -> None:
        """Ease the problem."""

    def closer(self, values: Sequence[float]) -> bool:
        """Look closer at what an answer hopes for; whether the problem must be posed again."""


def first_answer(
    posed: PosedDay, seconds: float, solver: str = "highs", stop: Stop | None = None
) -> SolvedDay | NothingFits:
    """A day that keeps its rules, soon. Raises OutOfTime, KeyboardInterrupt as `solve_posed`, which is asked where
    neither the first card nor one of three times its length holds one.
    """
    start = time.perf_counter()
    places = first_places(len(posed.slots))
    for longer in (places, MORE_TIMES * places):
        card, problem = dealt(posed, longer)
        left = seconds - (time.perf_counter() - start)
        if solver == "highs" and left > 0 and not card.empty():
            quick = stages(problem, QUICK_GAP, min(QUICK_SECONDS, left), stop, prove=False)
            if quick.values:
                return SolvedDay(posed, problem, quick, time.perf_counter() - start)
    left = max(0.5, seconds - (time.perf_counter() - start))
    led = guided(posed, 0.5 * left) if solver == "highs" and not card.empty() else None
    if led is not None:
        return led
    left = max(0.5, seconds - (time.perf_counter() - start))
    # Any day will do for a first answer; its proof is a question of its own.
    return solve_posed(posed, 10 * QUICK_GAP, left, solver, None, stop, ALL)


def proof(
    posed: PosedDay,
    value: float,
    gap: float,
    seconds: float,
    pots: Eased,
    stop: Stop | None = None,
) -> tuple[SolvedDay, float]:
    """A bound that holds for every dish, given the value of an answer that is known.

    pots: what is to be eased in the problem before it is solved. Returns the better answer that was met on the way
    (its values are empty where there was none) and the bound.
    """
    start = time.perf_counter()
    places = first_places(len(posed.slots))
    while True:
        card, problem = dealt(posed, places)
        pots.pose(problem)
        # No value to beat yet: what the eased day costs may lie far below the one that is known, and rules more out.
        answer = stages(problem, gap, max(0.5, seconds - (time.perf_counter() - start)), stop)
        if not answer.values or not pots.closer(answer.values):
            break
    bound = _bound(answer, float("inf"))
    least = min(value, answer.objective) if answer.values else value
    wanted = _wanted(problem, places, least, gap)
    if wanted > places and not card.ended:
        left = seconds - (time.perf_counter() - start)
        card, longer = dealt(posed, wanted)
        pots.pose(longer)
        new = tuple((serving.served, 1.0) for options in longer.servings for serving in options[places:])
        longer.model.rows.append(Row("beyond", new, least=1.0))
        places = wanted
        more = stages(longer, gap, max(0.5, left), stop, least)
        bound = min(bound, _bound(more, float("inf")))
        if more.values:
            problem, answer = longer, more
    if not card.ended:
        bound = min(bound, beyond(problem, places))
    return SolvedDay(posed, problem, answer, time.perf_counter() - start), max(0.0, bound)


def _bound(answer: Answer, nothing: float) -> float:
    """The bound of an answer; nothing: where it is proven that there is none; 0 where it ended too soon to say."""
    if answer.status is Status.INFEASIBLE:
        return nothing
    return answer.bound if answer.status.solved or answer.bound > 0 else 0.0


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
