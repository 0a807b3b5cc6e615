"""Carbohydrate between two sessions that are close together."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.core.nutrients import CARBOHYDRATE
from mealopt.milp.model import Row
from mealopt.rules import weights
from mealopt.rules.problem import Problem
from mealopt.rules.registry import term

NAME = "refuelling between sessions"


@term(NAME, unit="g")
def refuel(problem: Problem) -> Iterator[Row]:
    """Charge the grams that a refuelling window lacks of its aim (shape: one row a window)."""
    for number, window in enumerate(problem.refuel):
        short = problem.cost_column(NAME, weights.REFUEL)
        terms = tuple(problem.sum_of(problem.slots[index], CARBOHYDRATE) for index in window.slots)
        yield Row(f"refuel_{number}", (*terms, (short, 1.0)), least=window.aim, says=window.says, unit="g")
