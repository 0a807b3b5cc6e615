"""What the kitchen gives: minutes, money, one warm meal."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.milp.model import Row
from mealopt.rules import weights
from mealopt.rules.problem import Problem
from mealopt.rules.registry import family, term

COLD = "a cold dinner"


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


@term(COLD, unit="meals")
def cold_dinner(problem: Problem) -> Iterator[Row]:
    """Charge a cold dinner, where it could be warm (shape: no row)."""
    for slot in problem.main_slots:
        servings = problem.servings[slot.index]
        warm = [serving for serving in servings if serving.plate.dish.served == "warm"]
        if slot.kind != "dinner" or slot.settled is not None or not warm or not problem.wishes.warm_main:
            continue
        for serving in servings:
            if serving.plate.dish.served == "cold":
                problem.charge(COLD, serving.served, weights.COLD)
    return iter(())
