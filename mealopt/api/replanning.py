"""The rest of a day planned anew."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from mealopt.documents.plan import Plan
    from mealopt.plans.replan.replan import Replanned


def replan(
    plan: Plan,
    now: str,
    *,
    day: str | None = None,
    ate: Sequence[str] = (),
    skipped: Sequence[int] = (),
    session_off: Sequence[int] = (),
    session: Sequence[str] = (),
    folder: str | Path | None = None,
    seconds: float = 10.0,
    where: str = "the plan",
) -> Replanned:
    """What is past is as eaten, the rest of the day is planned anew, and as little of it changes as need be.

    now: "14:30"; after midnight of the same plan day "25:30". day: which of a week's plan. ate: "pizza=350g", "dinner
    out=900kcal", with " at 12:30" where the time is known. skipped: numbers of meals; session_off: numbers of sessions;
    session: "17:00 60 run hard". folder: that of the case file, beside which own foods lie. where: the words that a
    refusal of the plan begins with. seconds: of work; a busy machine takes longer by the clock.

    Where the day's numbers can no longer be met, it comes as near as it can, and the result says how near. Raises
    BadInput, Refused; OutOfTime; Unplannable where a meal cannot be served at all.
    """
    from mealopt.plans.replan.events import read_events
    from mealopt.plans.replan.replan import replan_day

    events = read_events(now, ate, skipped, session_off, session)
    return replan_day(plan, events, day, None if folder is None else Path(folder), seconds, where)
