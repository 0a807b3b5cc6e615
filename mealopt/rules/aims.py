"""Distance of the day's totals from their aims."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.core.nutrients import ENERGY, FIBRE
from mealopt.milp.model import Row
from mealopt.rules import weights
from mealopt.rules.problem import Problem
from mealopt.rules.registry import term

NAME = "distance from the aims"


@term(NAME, unit="%")
def aims(problem: Problem) -> Iterator[Row]:
    """Charge each total by how far it lies beyond a free share of its aim (shape: up to two rows a nutrient)."""
    for key, (free_below, free_above, below, above) in weights.AIM.items():
        band = problem.bands.get(key)
        if band is None or not band.aim:
            continue
        percent = 100.0 / band.aim
        total = problem.day_sum(key)
        scaled = tuple((column, percent * one) for column, one in total)
        short = problem.cost_column(NAME, below)
        yield Row(f"aim_{key}_below", (*scaled, (short, 1.0)), least=100.0 * (1 - free_below))
        over = problem.cost_column(NAME, above)
        yield Row(f"aim_{key}_above", (*scaled, (over, -1.0)), most=100.0 * (1 + free_above))
    energy = problem.bands.get(ENERGY)
    if FIBRE in problem.bands and energy is not None and energy.aim:
        most, per_1000, points = weights.FIBRE_HIGH
        high = problem.cost_column(NAME, points)
        limit = max(most, per_1000 * energy.aim / 1000.0)
        yield Row("fibre_high", (*problem.day_sum(FIBRE), (high, -1.0)), most=limit, unit="g")
