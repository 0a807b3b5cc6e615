"""Soya now and then, not at each meal of a day."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.menu.plates import Choice
from mealopt.milp.model import Row
from mealopt.rules import weights
from mealopt.rules.problem import Problem
from mealopt.rules.registry import term

NAME = "soya in many meals"

#: Kins that count as soya and merely season.
_SEASONING = frozenset({"miso", "soy sauce"})


@term(NAME, unit="meals")
def soya(problem: Problem) -> Iterator[Row]:
    """Charge each meal with soya beyond a few (shape: one row a food that may be in a meal, and one row)."""
    held: list[int] = []
    for slot in problem.slots:
        used = [food.used for food in problem.foods([slot]) if _is_soya(food.choice)]
        if not used:
            continue
        has = problem.cost_column(NAME, 0.0, most=1.0)
        held.append(has)
        for place, column in enumerate(used):
            yield Row(f"soya_{slot.index}_{place}", ((column, 1.0), (has, -1.0)), most=0.0)
    if len(held) > weights.SOYA_FREE:
        terms = ((column, 1.0) for column in held)
        yield problem.charged_beyond(NAME, weights.SOYA, "soya_meals", terms, float(weights.SOYA_FREE))


def _is_soya(choice: Choice) -> bool:
    return "soy" in choice.counts and choice.kin not in _SEASONING
