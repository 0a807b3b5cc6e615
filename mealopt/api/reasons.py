"""Why a planned day is as it is."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from mealopt.documents.plan import Plan
    from mealopt.plans.why.binding import Binding
    from mealopt.plans.why.not_in import WhyNot


def why(
    plan: Plan, day: str | None = None, folder: str | Path | None = None, *, where: str = "the plan"
) -> tuple[Binding, ...]:
    """The limits that bind in a day, and what easing each by a little would buy; those that buy most first.

    The day's dishes and foods are held, their amounts continuous; each figure is found by solving again. day: of a
    week's plan. folder: that of the case file, beside which own foods lie. Raises BadInput, Refused.
    """
    from mealopt.plans.why.binding import binding_limits

    return binding_limits(plan, day, None if folder is None else Path(folder), where)


def why_not(
    plan: Plan,
    name: str,
    day: str | None = None,
    folder: str | Path | None = None,
    *,
    seconds: float = 8.0,
    where: str = "the plan",
) -> WhyNot:
    """What would follow if a food or a dish were in a day, or what it clashes with.

    name: of a food of the pantry or of one's own, or a dish by its id. day: of a week's plan. folder: that of the case
    file, beside which own foods lie. Raises BadInput, Refused.
    """
    from mealopt.plans.why.not_in import why_not_in

    return why_not_in(plan, name, day, None if folder is None else Path(folder), seconds, where)
