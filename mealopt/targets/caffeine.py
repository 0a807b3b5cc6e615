"""Caffeine before hard work: only where the case asks for it."""

from __future__ import annotations

from dataclasses import dataclass

from mealopt.people.case import Case, Session
from mealopt.targets.safety import MAINTENANCE, PROTECTED, REFUSED
from mealopt.targets.session_coefficients import (
    CAFFEINE_BEFORE,
    CAFFEINE_DAY,
    CAFFEINE_ONCE,
    CAFFEINE_PER_KG,
    CAFFEINE_SLEEP,
)

#: Cautions with which none is timed: the published limits are for healthy adults.
FORBIDS = frozenset({*REFUSED, *MAINTENANCE, *PROTECTED, "hyponatraemia_before"})


@dataclass(frozen=True, slots=True)
class Caffeine:
    """One dose. most_mg: at most, once; minute: when it is drunk, in minutes of the plan day; "" in why_not: it may."""

    most_mg: float
    minute: int
    why_not: str = ""


def dose_mg(mass_kg: float) -> float:
    """The most at once, mg: the lower of 3 mg/kg and 200 mg; 400 mg a day from all sources."""
    return min(CAFFEINE_PER_KG * mass_kg, float(CAFFEINE_ONCE))


def caffeine_for(case: Case, session: Session, sleep: int, taken_mg: float = 0.0) -> Caffeine | None:
    """The dose before a hard session, or why there is none; None where the case does not ask for caffeine.

    sleep: minutes of the plan day; none within 8 h of it. taken_mg: of the day so far, of 400 mg at most.
    """
    if not case.fuel.caffeine or not session.hard:
        return None
    minute = session.start_minute - int(CAFFEINE_BEFORE)
    said = [word for word in case.athlete.cautions or () if word in FORBIDS]
    if case.athlete.cautions is None:
        return Caffeine(0.0, minute, "cautions were not asked, so no caffeine is timed")
    if said:
        return Caffeine(0.0, minute, "no caffeine is timed with your cautions: ask a doctor first")
    if minute > sleep - CAFFEINE_SLEEP:
        return Caffeine(0.0, minute, "no caffeine: it would stand within 8 h of sleep")
    most = min(dose_mg(case.athlete.mass_kg), CAFFEINE_DAY - taken_mg)
    return Caffeine(most, minute) if most > 0 else Caffeine(0.0, minute, "no caffeine: 400 mg are reached today")
