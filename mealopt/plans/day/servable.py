"""Plates that no whole kitchen steps fit by themselves, within what their slot and their dish ask.

The linear program takes half a step and half a choice, so it may lean on a plate that nobody can serve. Whether a plate
can be served is a small program of its own; it is asked of the few plates that are named, once each.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from mealopt.milp.answer import Status
from mealopt.milp.highs import Highs
from mealopt.rules.problem import OwnLimit, Problem, Serving
from mealopt.rules.registry import families, pose

#: The families that a single plate must keep. One more left out here rules out less, never too much.
OF_A_PLATE = frozenset(
    {
        "carbohydrate of a meal",
        "dish",
        "limits of a plate",
        "one plate a meal",
        "protein of a meal",
        "size of a meal",
        "sums",
        "window before a session",
        "your own limits of a meal",
    }
)

#: Seconds of work for one plate; it takes a few thousandths. One that is not decided by then stays.
SECONDS = 1.0


def servable(problem: Problem) -> Callable[[int], bool]:
    """A function that says of a plate's served column whether the plate can be served at all; each is solved once."""
    by_column = {serving.served: serving for serving in problem.all_servings}
    known: dict[int, bool] = {}

    def asked(column: int) -> bool:
        if column not in known:
            known[column] = can_be_served(by_column[column], problem)
        return known[column]

    return asked


def can_be_served(serving: Serving, problem: Problem) -> bool:
    """Whether whole steps of the plate's foods fit its dish and its slot, whatever else the day holds."""
    alone = replace(serving.slot, index=0)
    own = tuple(OwnLimit(0, limit.key, limit.band) for limit in problem.own_limits if limit.slot == serving.slot.index)
    single = Problem((alone,), ((serving.plate,),), {}, problem.wishes, (), own)
    pose(single, frozenset(entry.name for entry in families()) - OF_A_PLATE)
    engine = Highs(single.model)
    engine.lean(True)
    return engine.solve(effort=SECONDS).status is not Status.INFEASIBLE
