"""Bands that the case sets itself for one meal."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.core.nutrients import LABELS, UNITS
from mealopt.milp.model import Row
from mealopt.rules.problem import Problem
from mealopt.rules.registry import family


@family("your own limits of a meal", relaxable=True)
def own_limits(problem: Problem) -> Iterator[Row]:
    """Hold what the case asks of a meal (shape: up to two rows a band)."""
    for number, limit in enumerate(problem.own_limits):
        slot, key = problem.slots[limit.slot], limit.key
        terms, unit = (problem.sum_of(slot, key),), UNITS[key]
        scale = max(1.0, limit.band.aim or limit.band.least or limit.band.most or 1.0) / 100.0
        sides = (("least", limit.band.least, None), ("most", None, limit.band.most))
        for side, least, most in sides:
            value = least if least is not None else most
            if value is not None:
                says = f"{slot.label}: at {side} {value:g} {unit} {LABELS[key]} (your own)"
                name = f"own_{number}_{side}"
                yield Row(name, terms, least, most, says=says, unit=unit, key=key, slot=slot.index, scale=scale)
