"""Fibre, fat and whatever else a meal before a session must stay under. Never eased."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.core.nutrients import LABELS, UNITS
from mealopt.milp.model import Row
from mealopt.rules.problem import Problem
from mealopt.rules.registry import family


@family("window before a session")
def windows(problem: Problem) -> Iterator[Row]:
    """Keep each meal under its window's limits (shape: one row a slot and limited nutrient)."""
    for slot in problem.slots:
        for key, most in slot.limits.items():
            says = f"{slot.label}: at most {most:g} {UNITS[key]} {LABELS[key]}"
            yield Row(f"{key}_{slot.index}", (problem.sum_of(slot, key),), most=most, says=says, unit=UNITS[key])
