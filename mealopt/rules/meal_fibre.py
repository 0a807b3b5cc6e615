"""No meal that is a heap of fibre, and little of it in the hours before work that asks for no hard limit."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.core.nutrients import FIBRE
from mealopt.core.slots import Slot
from mealopt.milp.model import Row
from mealopt.rules import weights
from mealopt.rules.problem import Problem
from mealopt.rules.registry import term

NAME = "fibre of a meal"


@term(NAME, unit="g")
def meal_fibre(problem: Problem) -> Iterator[Row]:
    """Charge each meal's fibre beyond a free amount (shape: one row a meal eaten outside sessions)."""
    for slot in problem.slots:
        if slot.kind == "during" or slot.settled is not None:
            continue
        cost = weights.MEAL_FIBRE_BEFORE if before_work(slot) else weights.MEAL_FIBRE
        yield problem.charged_beyond(NAME, cost, f"fibre_{slot.index}", [problem.sum_of(slot, FIBRE)], free(slot))


def before_work(slot: Slot) -> bool:
    """Whether long or hard work follows the meal soon."""
    return slot.work_minutes is not None and slot.work_minutes <= weights.FIBRE_BEFORE_MINUTES


def free(slot: Slot) -> float:
    """Grams of fibre that cost nothing in this meal."""
    if before_work(slot):
        return weights.FIBRE_BEFORE
    return weights.FIBRE_MAIN if slot.main else weights.FIBRE_OTHER
