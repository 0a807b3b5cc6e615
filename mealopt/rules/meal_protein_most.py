"""Protein spread over the day: no plate that holds most of it."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.core.nutrients import PROTEIN
from mealopt.milp.model import Row
from mealopt.rules import weights
from mealopt.rules.problem import Problem
from mealopt.rules.registry import term

NAME = "protein heaped"


@term(NAME, unit="g")
def protein_heaped(problem: Problem) -> Iterator[Row]:
    """Charge each main meal's protein beyond a multiple of the least of a main meal (shape: one row a main meal)."""
    least = max((slot.protein_least for slot in problem.main_slots), default=0.0)
    if least <= 0:
        return
    for slot in problem.main_slots:
        if slot.settled is None:
            terms, free = [problem.sum_of(slot, PROTEIN)], weights.PROTEIN_FREE * least
            yield problem.charged_beyond(NAME, weights.PROTEIN_HEAPED, f"heaped_{slot.index}", terms, free)
