"""What the kitchen gives: minutes, money, one warm meal."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.milp.model import Row
from mealopt.rules import weights
from mealopt.rules.problem import Problem
from mealopt.rules.registry import family, term

COLD = "lunch and dinner cold"


@family("kitchen minutes", relaxable=True, unit="min")
def minutes(problem: Problem) -> Iterator[Row]:
    """Hold the day's minutes of cooking (shape: one row a day)."""
    most = problem.wishes.minutes_most
    terms = tuple((serving.served, float(serving.plate.dish.minutes)) for serving in problem.all_servings)
    says = f"at most {most:.0f} minutes in the kitchen"
    yield Row("minutes", terms, most=most, says=says, key="kitchen_minutes", scale=5.0)


@family("budget", relaxable=True, unit="money")
def budget(problem: Problem) -> Iterator[Row]:
    """Hold the price of the day's food, as eaten, where the case asks for it (shape: one row a day or none)."""
    most = problem.wishes.budget
    if most is None:
        return
    terms = tuple(
        term
        for food in problem.foods()
        if food.choice.price_per_gram
        for term in food.amounts(food.choice.price_per_gram)
    )
    says = f"food for at most {most:.2f} a day"
    yield Row("budget", terms, most=most, says=says, key="cost", scale=0.5)


@family("a warm meal", unit="meals")
def warm_meal(problem: Problem) -> Iterator[Row]:
    """One main meal of the day is warm, where any could be (shape: one row a day or none)."""
    warm = tuple(
        (serving.served, 1.0)
        for slot in problem.main_slots
        for serving in problem.servings[slot.index]
        if serving.plate.dish.served == "warm"
    )
    if warm and problem.wishes.warm_main:
        yield Row("warm_main", warm, least=1.0, says="one main meal is warm")


@term(COLD, unit="days")
def cold_day(problem: Problem) -> Iterator[Row]:
    """Charge a day whose lunch and dinner are both cold, where one could be warm (shape: one row a day or none)."""
    late = [slot for slot in problem.main_slots if slot.kind != "breakfast"]
    warm = tuple(
        (serving.served, 1.0)
        for slot in late
        for serving in problem.servings[slot.index]
        if serving.plate.dish.served == "warm"
    )
    if len(late) > 1 and warm and problem.wishes.warm_main:
        yield Row("cold_day", (*warm, (problem.cost_column(COLD, weights.COLD, most=1.0), 1.0)), least=1.0)
