"""Sweat: which test holds for a session, its rate, and the sodium in it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from mealopt.people.case import Athlete, Session
from mealopt.people.sweat import SweatTest
from mealopt.targets.session_coefficients import FOREARM_CONSTANT, FOREARM_SLOPE, MMOL_SODIUM

#: From the least sweat to the most.
WARMTH: tuple[str, ...] = ("cold", "mild", "hot")
EFFORTS: tuple[str, ...] = ("easy", "steady", "hard", "race")

#: A rate above this is rare and may be a slip (mean 1.21, standard deviation 0.68 L/h: Baker and others 2016).
DOUBTED_RATE = 3.0
#: Two tests under the same conditions that differ by more than this factor [project].
DOUBTED_FACTOR = 1.6


def sweat_rate(mass_before_kg: float, mass_after_kg: float, drunk_l: float, urine_l: float, minutes: float) -> float:
    """Sweat, L/h: (mass before - mass after + drunk - urine) / hours, 1 kg = 1 L (Barnes and others 2019)."""
    return (mass_before_kg - mass_after_kg + drunk_l - urine_l) * 60 / minutes


def whole_body_sodium(mg_per_l: float, taken_from: str) -> float:
    """Sodium of the whole body's sweat, mg/L; from a forearm's by the regression of Baker and others 2016."""
    if taken_from != "forearm":
        return mg_per_l
    return (FOREARM_SLOPE * mg_per_l / MMOL_SODIUM + FOREARM_CONSTANT) * MMOL_SODIUM


@dataclass(frozen=True, slots=True)
class KnownSweat:
    """What the tests say of a session. rate_l_per_h: the lowest that fits; fits: under the same conditions, no harder.

    sodium_mg_per_l: of the whole body's sweat, the mean of the tests that know it; None where none does.
    """

    rate_l_per_h: float
    fits: bool
    sodium_mg_per_l: float | None
    how: str


def known_sweat(session: Session, athlete: Athlete) -> KnownSweat | None:
    """What the athlete's tests say of a session; None without tests.

    Where none was made under its conditions, at no more than its effort, the nearest counts as a hint only.
    """
    tests = athlete.sweat.test if athlete.sweat else ()
    if not tests:
        return None
    of_kind = [test for test in tests if test.kind in (None, session.kind)]
    fitting = [test for test in of_kind if _holds(test, session)]
    used = fitting or of_kind or list(tests)
    lowest = min(used, key=lambda test: test.rate_l_per_h)
    sodium = [whole_body_sodium(test.sodium_mg_per_l, test.sodium_from) for test in tests if test.sodium_mg_per_l]
    how = f"your sweat test ({lowest.conditions}, {lowest.effort}): {lowest.rate_l_per_h:.2f} L/h"
    return KnownSweat(lowest.rate_l_per_h, bool(fitting), sum(sodium) / len(sodium) if sodium else None, how)


def _holds(test: SweatTest, session: Session) -> bool:
    """Whether a test's rate is no higher than what the session makes this body lose."""
    warm = session.conditions is None or WARMTH.index(test.conditions) <= WARMTH.index(session.conditions)
    # A race is about as hard as hard work.
    return warm and min(EFFORTS.index(test.effort), 2) <= EFFORTS.index(session.effort)


def doubts(tests: Sequence[SweatTest]) -> tuple[str, ...]:
    """Sentences on tests that can be used and are odd."""
    found = []
    for place, test in enumerate(tests, 1):
        if test.rate_l_per_h > DOUBTED_RATE:
            found.append(
                f"doubted: sweat test {place} makes {test.rate_l_per_h:.1f} L/h, which is rare; weigh again before "
                "you rely on it"
            )
        for other in tests[: place - 1]:
            alike = (other.kind, other.conditions, other.effort) == (test.kind, test.conditions, test.effort)
            rates = sorted((other.rate_l_per_h, test.rate_l_per_h))
            if alike and rates[1] > DOUBTED_FACTOR * rates[0]:
                found.append(
                    f"doubted: two sweat tests under the same conditions make {rates[0]:.1f} and {rates[1]:.1f} L/h; "
                    "the lower one counts until you test again"
                )
    return tuple(found)
