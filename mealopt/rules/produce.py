"""Fruit and vegetables of several kinds."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from mealopt.milp.model import Row
from mealopt.rules.problem import Problem
from mealopt.rules.registry import family


@family("kinds of fruit and vegetables", relaxable=True, unit="kinds")
def produce(problem: Problem) -> Iterator[Row]:
    """Ask for several kinds of fruit and vegetables in the day (shape: one row a food, one in all).

    Source: WHO healthy diet, a variety of fruit and vegetables; three kinds is the project's own least.
    """
    used: dict[str, list[int]] = defaultdict(list)
    for food in problem.foods():
        if {"fruit", "vegetable"} & food.choice.counts:
            used[food.choice.kin].append(food.used)
    wanted = problem.wishes.produce_kinds
    if wanted <= 0:
        return
    kinds = []
    for kin, columns in sorted(used.items()):
        kind = problem.model.column(0.0, 1.0)
        kinds.append((kind, 1.0))
        terms = ((kind, 1.0), *((column, -1.0) for column in columns))
        yield Row(f"produce_{kin}", terms, most=0.0)
    says = f"at least {wanted} kinds of fruit and vegetables"
    yield Row("produce_kinds", tuple(kinds), least=float(wanted), says=says, key="fruit_vegetable_kinds")
