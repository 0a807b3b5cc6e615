"""A first plan of a day that is hard to find one for, from the linear program over every dish.

Where few days keep every rule (a tight budget, much protein from little), a card of dishes in their drawn order holds
none, and a search among all dishes takes long to meet one. The linear program knows which plates such a day leans on:
among those alone, what the limits lack is brought to nought first; then the grams of the dishes so found are chosen.
"""

from __future__ import annotations

import time
from dataclasses import replace

from mealopt.milp.effort import SLOWEST
from mealopt.milp.elastic import NOUGHT, least_relaxation, linear_relaxation
from mealopt.milp.highs import Highs
from mealopt.plans.day.found import NothingFits, SolvedDay
from mealopt.plans.day.least import all_plates, leaned_on, posed_problem, relaxable
from mealopt.plans.day.pose import PosedDay

#: Plates a slot that are tried, few first.
PLATES = (5, 9)

#: Harm of the linear program from which on it proves that nothing fits: well above what its own tolerances make.
PROVES = 1e-4

#: Gap and seconds of work for the grams of dishes that are known.
GAP, SECONDS = 0.06, 2.0


def guided(posed: PosedDay, seconds: float) -> SolvedDay | NothingFits | None:
    """A day that keeps its rules, NothingFits where it is proven that there is none, or None where neither is known.

    seconds: of work.
    """
    start = time.perf_counter()
    plates = all_plates(posed)
    problem = posed_problem(posed, plates)
    linear = linear_relaxation(problem.model, relaxable(problem.model))
    if linear is None or linear.total > PROVES:
        return NothingFits(posed, ())
    for places in PLATES:
        fewer = posed_problem(posed, leaned_on(problem, linear, places))
        found = least_relaxation(fewer.model, relaxable(fewer.model), seconds / len(PLATES), NOUGHT)
        if found is None or not found.values or found.total > NOUGHT:
            continue
        card = posed.card()
        card.serve([one.plate.dish.id for one in fewer.all_servings if found.values[one.served] > 0.5])
        named = posed.problem(card)
        answer = Highs(named.model).solve(GAP, SLOWEST * SECONDS, effort=SECONDS)
        if answer.values:
            answer = replace(answer, bound=0.0)
            return SolvedDay(posed, named, answer, time.perf_counter() - start)
    return None
