"""Few repeats, few foods on a plate, few minutes in the kitchen."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from mealopt.milp.model import Row
from mealopt.rules import weights
from mealopt.rules.problem import Problem
from mealopt.rules.registry import term
from mealopt.rules.repeats import SEASONINGS

REPEATS = "foods that come again"
FOODS = "number of foods"
MINUTES = "minutes above the quickest"


@term(REPEATS, unit="meals")
def come_again(problem: Problem) -> Iterator[Row]:
    """Charge each meal beyond the first that foods of one kin stand in (shape: one row a kin)."""
    meals: dict[str, list[int]] = defaultdict(list)
    for slot in problem.slots:
        if slot.kind == "during":
            continue
        for food in problem.foods([slot]):
            if not food.choice.counts & SEASONINGS:
                meals[food.choice.kin].append(food.used)
    for kin, columns in sorted(meals.items()):
        again = problem.cost_column(REPEATS, weights.REPEAT)
        terms = (*((column, 1.0) for column in columns), (again, -1.0))
        yield Row(f"again_{kin}", terms, most=1.0)


@term(FOODS, unit="foods")
def number_of_foods(problem: Problem) -> Iterator[Row]:
    """Charge each food on a plate beyond a free number (shape: one row a slot)."""
    for slot in problem.slots:
        if slot.kind == "during" or slot.given:
            continue
        more = problem.cost_column(FOODS, weights.FOODS_MORE)
        terms = (*((food.used, 1.0) for food in problem.foods([slot])), (more, -1.0))
        yield Row(f"foods_{slot.index}", terms, most=float(weights.FOODS_FREE))


@term(MINUTES, unit="min")
def kitchen_minutes(problem: Problem) -> Iterator[Row]:
    """Charge a dish's minutes above the quickest that its slot allows (shape: no row)."""
    for slot in problem.slots:
        if slot.settled is not None or slot.kind == "during":
            continue
        quickest = problem.wishes.quickest.get(slot.kind, 0)
        for serving in problem.servings[slot.index]:
            problem.charge(MINUTES, serving.served, weights.MINUTE * (serving.plate.dish.minutes - quickest))
    return iter(())
