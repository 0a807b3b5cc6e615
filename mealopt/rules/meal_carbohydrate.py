"""Carbohydrate in a session and before one."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.core.nutrients import CARBOHYDRATE
from mealopt.milp.model import Row
from mealopt.rules.problem import Problem
from mealopt.rules.registry import family


@family("carbohydrate of a meal", relaxable=True, unit="g")
def meal_carbohydrate(problem: Problem) -> Iterator[Row]:
    """Hold carbohydrate of the meals that have a least or a most (shape: up to two rows a slot)."""
    for slot in problem.slots:
        terms = (problem.sum_of(slot, CARBOHYDRATE),)
        if slot.carbohydrate_least > 0:
            least = slot.carbohydrate_least
            says = f"{slot.label}: at least {least:.0f} g carbohydrate"
            name = f"carbohydrate_{slot.index}_least"
            yield Row(name, terms, least=least, says=says, key=CARBOHYDRATE, slot=slot.index, scale=5.0)
        if slot.carbohydrate_most is not None:
            most = slot.carbohydrate_most
            says = f"{slot.label}: at most {most:.0f} g carbohydrate"
            name = f"carbohydrate_{slot.index}_most"
            yield Row(name, terms, most=most, says=says, key=CARBOHYDRATE, slot=slot.index, scale=5.0)
