"""What is eaten before a session needs no kitchen, and in the last hour it is no milk."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.milp.model import Row
from mealopt.rules import weights
from mealopt.rules.problem import Problem
from mealopt.rules.registry import term

NAME = "fuss before a session"


@term(NAME, unit="points")
def fuss(problem: Problem) -> Iterator[Row]:
    """Charge a dish that is heated where no main meal leads up to a session, and milk in the last hour before one
    (shape: no row)."""
    for slot in problem.slots:
        if slot.kind != "before" or slot.settled is not None:
            continue
        for serving in problem.servings[slot.index]:
            if serving.plate.dish.heat != "none":
                problem.charge(NAME, serving.served, weights.HEATED_BEFORE)
        if slot.lead_minutes is not None and slot.lead_minutes < weights.NO_MILK_MINUTES:
            for food in problem.foods([slot]):
                if food.choice.kin == "milk":
                    problem.charge(NAME, food.used, weights.MILK_BEFORE)
    return iter(())
