"""No meal that is mostly fat."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.core.nutrients import ENERGY, FAT
from mealopt.milp.model import Row
from mealopt.rules import weights
from mealopt.rules.problem import Problem
from mealopt.rules.registry import term

NAME = "fat of a meal"

KCAL_PER_G = 9.0


@term(NAME, unit="g")
def meal_fat(problem: Problem) -> Iterator[Row]:
    """Charge each main meal's fat beyond a free share of its energy (shape: one row a main meal)."""
    for slot in problem.main_slots:
        fat, energy = problem.sum_of(slot, FAT), problem.sum_of(slot, ENERGY)
        terms = (fat, (energy[0], -weights.MEAL_FAT_FREE / KCAL_PER_G))
        yield problem.charged_beyond(NAME, weights.MEAL_FAT, f"fat_{slot.index}", terms, 0.0)
