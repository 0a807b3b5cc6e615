"""Meals of a size that suits their hour."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.core.nutrients import ENERGY, FRUIT_VEGETABLE
from mealopt.milp.model import Row
from mealopt.rules import weights
from mealopt.rules.problem import Problem
from mealopt.rules.registry import term

SIZE = "size of meals"
SPREAD = "fruit and vegetables spread"


@term(SIZE, unit="%")
def meal_sizes(problem: Problem) -> Iterator[Row]:
    """Charge each meal's energy beyond a free share of what suits it (shape: two rows a slot that has an aim)."""
    for slot in problem.slots:
        if slot.energy_aim <= 0 or slot.kind == "during":
            continue
        tenths = 10.0 / slot.energy_aim
        column, _ = problem.sum_of(slot, ENERGY)
        free = 10.0 * weights.MEAL_SIZE_FREE
        short, over = (problem.cost_column(SIZE, weights.MEAL_SIZE) for _ in range(2))
        yield Row(f"size_{slot.index}_below", ((column, tenths), (short, 1.0)), least=10.0 - free)
        yield Row(f"size_{slot.index}_above", ((column, tenths), (over, -1.0)), most=10.0 + free)


@term(SPREAD, unit="%")
def produce_spread(problem: Problem) -> Iterator[Row]:
    """Charge a meal that holds more than half of the day's fruit and vegetables (shape: one row a slot)."""
    band = problem.bands.get(FRUIT_VEGETABLE)
    if band is None or not (band.aim or band.least):
        return
    aim = band.aim or band.least or 1.0
    for slot in problem.slots:
        column, _ = problem.sum_of(slot, FRUIT_VEGETABLE)
        row, terms = f"produce_spread_{slot.index}", [(column, 10.0 / aim)]
        yield problem.charged_beyond(SPREAD, weights.PRODUCE_SPREAD, row, terms, 5.0)
