"""Soya now and then, not at each meal of a day."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.menu.plates import Choice
from mealopt.milp.model import Row
from mealopt.rules import weights
from mealopt.rules.problem import Problem, Serving
from mealopt.rules.registry import term

NAME = "soya in many meals"

#: Kins that count as soya and merely season.
_SEASONING = frozenset({"miso", "soy sauce"})


@term(NAME, unit="meals")
def soya(problem: Problem) -> Iterator[Row]:
    """Charge each meal with soya beyond a few (shape: a row or a few a meal, and one row)."""
    held: list[int] = []
    for slot in problem.slots:
        lists = [_soya_of(serving) for serving in problem.servings[slot.index]]
        deepest = max((len(found) for found in lists), default=0)
        if not deepest:
            continue
        has = problem.cost_column(NAME, 0.0, most=1.0)
        held.append(has)
        for place in range(deepest):
            # One plate stands in a slot, and one food in such a part of it: their sum is at most 1.
            any_of = [(column, 1.0) for found in lists if place < len(found) for column in found[place]]
            yield Row(f"soya_{slot.index}_{place}", (*any_of, (has, -1.0)), most=0.0)
    if len(held) > weights.SOYA_FREE:
        terms = ((column, 1.0) for column in held)
        yield problem.charged_beyond(NAME, weights.SOYA, "soya_meals", terms, float(weights.SOYA_FREE))


def _soya_of(serving: Serving) -> list[list[int]]:
    """Sets of columns of which at most one is 1 and each of which says that the plate holds soya; none within another.

    A part that is there and can be nothing but soya says it for the whole plate.
    """
    found: list[list[int]] = []
    for part in serving.parts:
        soya = [food.used for food in part.foods if _is_soya(food.choice)]
        if len(soya) == len(part.foods) and part.part.pick[0] > 0:
            return [[serving.served]]
        found += [soya] if part.part.pick[1] == 1 and soya else [[column] for column in soya]
    return found


def _is_soya(choice: Choice) -> bool:
    return "soy" in choice.counts and choice.kin not in _SEASONING
