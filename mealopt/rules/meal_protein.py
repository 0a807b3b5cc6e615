"""Protein spread over the meals."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.core.nutrients import PROTEIN
from mealopt.milp.model import Row
from mealopt.rules.problem import Problem
from mealopt.rules.registry import family


@family("protein of a meal", relaxable=True, unit="g")
def meal_protein(problem: Problem) -> Iterator[Row]:
    """Ask each main meal, and each meal after hard work, for its share (shape: one row a slot that has a least)."""
    for slot in problem.slots:
        if slot.protein_least > 0:
            yield Row(
                f"protein_{slot.index}",
                (problem.sum_of(slot, PROTEIN),),
                least=slot.protein_least,
                says=f"{slot.label}: at least {slot.protein_least:.0f} g protein",
                key=PROTEIN,
                slot=slot.index,
                scale=5.0,
            )
