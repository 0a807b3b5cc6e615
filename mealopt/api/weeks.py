"""A week planned together."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING

from mealopt.api.progress import Progress
from mealopt.core.clock import DAYS
from mealopt.errors import BadInput

if TYPE_CHECKING:
    from mealopt.documents.plan import Plan
    from mealopt.people.case import Case


def plan_week(
    case: Case,
    *,
    days: Sequence[str] = DAYS,
    gap: float = 0.02,
    seconds: float = 40.0,
    solver: str = "highs",
    progress: Progress | None = None,
    use_up: Mapping[str, float] | Sequence[tuple[str, float]] = (),
    stop: Callable[[], bool] | None = None,
    processes: int | None = None,
) -> Plan:
    """Plan these days together, in this order, proven within the gap, and rechecked by separate arithmetic.

    use_up: foods with grams as bought that should be eaten. stop: asked while it runs; True ends it with the best week
    so far, whose document says "stopped". processes: side by side, each on a core (None: as many as there are, two at
    most). Raises BadInput, Refused; Unplannable with what clashes on a day; OutOfTime; KeyboardInterrupt where it was
    stopped before each day had a plan; BrokenPlan where the recheck finds a fault of ours.
    """
    from mealopt.plans.week.plan import plan_one_week

    named = tuple(days)
    strange = [day for day in named if day not in DAYS]
    if strange or not named or len(set(named)) < len(named):
        read = ", ".join(map(str, named)) or "none"
        raise BadInput(f"days: read {read}; each of {', '.join(DAYS)} at most once, and one at least, is expected")
    if named != tuple(DAYS[(DAYS.index(named[0]) + place) % len(DAYS)] for place in range(len(named))):
        raise BadInput(f"days: read {', '.join(named)}; days that follow each other are expected")
    return plan_one_week(
        case,
        named,
        gap=gap,
        seconds=seconds,
        solver=solver,
        progress=progress,
        use_up=dict(use_up),
        stop=stop,
        processes=processes,
    )
