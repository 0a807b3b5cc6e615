"""Why nothing fits: which wishes clash, and the least that must give, as lines for the case file."""

from __future__ import annotations

from mealopt.errors import Unplannable
from mealopt.plans.day.solve import NothingFits


def explained(nothing: NothingFits) -> Unplannable:
    """The clash as an error to raise."""
    if nothing.empty:
        return Unplannable(f"no dish fits: {', '.join(nothing.empty)}", tuple(nothing.empty))
    return Unplannable("nothing fits")
