"""What the eater likes, what other days have more right to, and what settles before a session."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.milp.model import Row
from mealopt.rules import weights
from mealopt.rules.problem import Problem
from mealopt.rules.registry import term

LIKES = "preferred and avoided"
ROTATION = "dishes of other days"
SETTLES = "settles slowly"
POWDERS = "powder for food"


@term(LIKES, unit="points")
def likes(problem: Problem) -> Iterator[Row]:
    """Charge what is marked "less" where served, and "prefer" where it is nowhere (shape: one row a preference)."""
    columns: dict[str, list[int]] = {}
    settled: set[int] = set()
    for serving in problem.all_servings:
        columns.setdefault(serving.plate.dish.id, []).append(serving.served)
        for food in serving.foods:
            columns.setdefault(food.choice.name, []).append(food.used)
        settled |= {serving.served} if serving.slot.settled is not None else set()
    for name in sorted(problem.wishes.less & columns.keys()):
        for column in columns[name]:
            if column not in settled:
                problem.charge(LIKES, column, weights.LESS)
    for name in sorted(problem.wishes.prefer & (columns.keys() | problem.wishes.beyond)):
        missing = problem.cost_column(LIKES, weights.PREFER, most=1.0)
        terms = ((missing, 1.0), *((column, 1.0) for column in columns.get(name, ())))
        yield Row(f"prefer_{name}", terms, least=1.0)


@term(ROTATION, unit="points")
def rotation(problem: Problem) -> Iterator[Row]:
    """Charge each dish by its place in the day's order of dishes for its slot (shape: no row)."""
    for options in problem.servings:
        for among, serving in enumerate(options):
            place = among if serving.plate.place is None else serving.plate.place
            problem.charge(ROTATION, serving.served, weights.PLACE * place)
    return iter(())


@term(SETTLES, unit="points")
def settles(problem: Problem) -> Iterator[Row]:
    """Charge foods that settle slowly in a meal before a session (shape: no row)."""
    for slot in problem.slots:
        if slot.settles:
            for food in problem.foods([slot]):
                if food.choice.settles == "slowly":
                    problem.charge(SETTLES, food.used, weights.SETTLES_SLOWLY)
    return iter(())


@term(POWDERS, unit="points")
def powders(problem: Problem) -> Iterator[Row]:
    """Charge protein powder in a meal, where nobody asked for it (shape: no row)."""
    for food in problem.foods():
        if "protein_powder" in food.choice.counts and food.choice.name not in problem.wishes.prefer:
            problem.charge(POWDERS, food.used, weights.POWDER)
    return iter(())
