"""Every slot is served one plate."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.milp.model import Row
from mealopt.rules.problem import Problem
from mealopt.rules.registry import family


@family("one plate a meal", unit="plates")
def one_plate(problem: Problem) -> Iterator[Row]:
    """Serve exactly one plate in each slot (shape: one row a slot)."""
    for slot in problem.slots:
        terms = tuple((serving.served, 1.0) for serving in problem.servings[slot.index])
        yield Row(f"plate_{slot.index}", terms, 1.0, 1.0, says=f"{slot.label}: one dish")
