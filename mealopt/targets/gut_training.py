"""Gut training: from what the gut takes now to what an event needs, a step a week."""

from __future__ import annotations

from mealopt.targets.fuelling import ladder
from mealopt.targets.session_coefficients import GUT_STEP


def gut_steps(used_to_g_per_h: float, needs_g_per_h: float, weeks: int | None = None) -> tuple[float, ...]:
    """Carbohydrate of each week's long session, g/h, on the way to what is needed: at most 10 g/h more a week.

    weeks: how many there are before the event; where they are too few, the last step falls short of what is needed.
    Empty where nothing is missing.
    """
    steps: list[float] = []
    rate = used_to_g_per_h
    while rate < needs_g_per_h - 1e-9 and (weeks is None or len(steps) < weeks):
        rate = min(needs_g_per_h, rate + GUT_STEP)
        steps.append(rate)
    return tuple(steps)


def event_needs(minutes: float) -> float:
    """Carbohydrate that an event of so many minutes would be raced on, g/h, by the published ladder."""
    return ladder(minutes).rung
