"""The day's totals within their bands."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.core.nutrients import LABELS, UNITS
from mealopt.milp.model import Row
from mealopt.rules.problem import Problem
from mealopt.rules.registry import family


@family("day's bands", relaxable=True)
def day_bands(problem: Problem) -> Iterator[Row]:
    """Hold each banded nutrient's total over the day (shape: up to two rows a nutrient)."""
    for key, band in problem.bands.items():
        terms, unit, label = tuple(problem.day_sum(key)), UNITS[key], LABELS[key]
        scale = max(1.0, band.aim or band.least or band.most or 1.0) / 100.0
        if band.least is not None and band.least > 0:
            says = f"{label}: at least {band.least:.0f} {unit} in the day"
            yield Row(f"{key}_least", terms, least=band.least, says=says, unit=unit, key=key, scale=scale)
        if band.most is not None:
            says = f"{label}: at most {band.most:.0f} {unit} in the day"
            yield Row(f"{key}_most", terms, most=band.most, says=says, unit=unit, key=key, scale=scale)
