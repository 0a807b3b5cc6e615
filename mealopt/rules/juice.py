"""Juice once a day, outside sessions."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.milp.model import Row
from mealopt.rules import weights
from mealopt.rules.problem import Problem
from mealopt.rules.registry import term

NAME = "juice again"


@term(NAME, unit="meals")
def juice(problem: Problem) -> Iterator[Row]:
    """Charge each meal with juice beyond the first (shape: one row)."""
    slots = [slot for slot in problem.slots if slot.kind != "during" and slot.settled is None]
    glasses = [food.used for food in problem.foods(slots) if "juice" in food.choice.counts]
    if glasses:
        yield problem.charged_beyond(NAME, weights.JUICE, "juice_again", ((column, 1.0) for column in glasses), 1.0)
