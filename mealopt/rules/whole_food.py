"""Most energy from whole foods, and little from added sugar; what is eaten in a session is left out."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.core.nutrients import ENERGY
from mealopt.milp.model import Row, Term
from mealopt.rules.problem import Problem
from mealopt.rules.registry import family


def _counted_energy(problem: Problem, count: str, share: float) -> tuple[Term, ...]:
    """Energy of the foods that count so, less a share of all energy, outside sessions and meals of unknown foods."""
    slots = [slot for slot in problem.slots if slot.kind != "during" and slot.given != "energy"]
    counted = [
        term
        for food in problem.foods(slots)
        if count in food.choice.counts
        for term in food.amounts(food.choice.per_gram[ENERGY])
    ]
    everything = [problem.sum_of(slot, ENERGY) for slot in slots]
    return (*counted, *((column, -share * one) for column, one in everything))


def counted_share(problem: Problem, count: str, values: list[float]) -> float:
    """The share of energy from the foods that count so, outside sessions, at these column values."""
    counted = sum(one * values[column] for column, one in _counted_energy(problem, count, 0.0))
    everything = counted - sum(one * values[column] for column, one in _counted_energy(problem, count, 1.0))
    return counted / everything if everything > 0 else 0.0


@family("whole foods", relaxable=True, unit="kcal")
def whole_food(problem: Problem) -> Iterator[Row]:
    """Hold the share of energy from whole foods (shape: one row a day)."""
    share = problem.wishes.whole_food_share
    if share > 0:
        says = f"at least {share:.0%} of energy from whole foods, outside sessions"
        terms = _counted_energy(problem, "whole_food", share)
        yield Row("whole_food", terms, least=0.0, says=says, key="whole_food_percent", scale=25.0)


@family("added sugar", relaxable=True, unit="kcal")
def added_sugar(problem: Problem) -> Iterator[Row]:
    """Hold the share of energy from foods flagged as added sugar (shape: one row a day).

    Source: WHO healthy diet, free sugars under 10 % of energy; by flags, for the table has total sugars only.
    """
    share = problem.wishes.added_sugar_share
    says = f"at most {share:.0%} of energy from sugary foods, outside sessions"
    terms = _counted_energy(problem, "added_sugar", share)
    yield Row("added_sugar", terms, most=0.0, says=says, key="added_sugar_percent", scale=25.0)
