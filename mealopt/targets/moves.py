"""Moves: energy that spills from one day to another. The week's sum never changes."""

from __future__ import annotations

from collections.abc import Mapping

from mealopt.errors import BadInput
from mealopt.people.case import Case
from mealopt.targets.coefficients import MOVE_MOST


def apply_moves(case: Case, energy: Mapping[str, float]) -> dict[str, float]:
    """kcal that each day gains (below 0: gives) by the case's moves; the sum is exactly 0.

    energy: kcal of each day before. Raises BadInput where over 500 kcal go in or out of a day, or more than it has.
    """
    gone, come = dict.fromkeys(energy, 0.0), dict.fromkeys(energy, 0.0)
    for move in case.goal.move:
        gone[move.from_day] += move.kcal
        come[move.to_day] += move.kcal
    for words, flow in (("out of", gone), ("into", come)):
        for day, kcal in flow.items():
            if kcal > MOVE_MOST:
                raise BadInput(
                    f"goal.move: read {kcal:,.0f} kcal {words} {day}; at most {MOVE_MOST:g} kcal a day is allowed"
                )
    return {day: come[day] - gone[day] for day in energy}
