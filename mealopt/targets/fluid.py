"""Fluid in a session: to thirst, under a ceiling that no input lifts above what is lost."""

from __future__ import annotations

from dataclasses import dataclass

from mealopt.people.case import Athlete, Session
from mealopt.targets.session_coefficients import (
    EVAPORATION_KCAL,
    FLUID_AFTER,
    FLUID_BEFORE,
    FLUID_GUIDE_LEAST,
    FLUID_GUIDE_MOST,
    FLUID_MOST,
    FLUID_OF_CEILING,
    FLUID_ROOM,
    HEAT_SHARE,
    LOSS_AIM,
    SWEAT_OF_HEAT,
)
from mealopt.targets.sweat import KnownSweat, known_sweat

#: What stands beside every volume.
CAUTION = (
    "Drink to thirst: these volumes are the most to have at hand, not a duty. Drinking more than you sweat lowers "
    "blood sodium and can kill. Headache, nausea, swelling, confusion or a rise on the scale in long work: stop "
    "drinking and get help."
)
TEST_ADVICE = (
    "no sweat test fits this session, so the volumes are a range by size, work and weather: weigh yourself undressed "
    "before and after an hour of such work, note what you drank, and write it as [[athlete.sweat.test]]"
)


@dataclass(frozen=True, slots=True)
class Fluid:
    """Litres an hour: least and aim of the bottles, and the ceiling. sweat: what is known; loss_l_per_h: the rate
    where a test fits, else the low estimate that the ceiling rests on. how: where the ceiling comes from.
    """

    least: float
    aim: float
    ceiling: float
    tested: bool
    loss_l_per_h: float
    sweat: KnownSweat | None
    how: str


def likely_loss(gross_kcal_per_h: float, conditions: str | None) -> float:
    """Sweat that work of so much energy makes at the least, L/h: its heat, the share that sweat carries away."""
    return gross_kcal_per_h * HEAT_SHARE * SWEAT_OF_HEAT[conditions or "mild"] / EVAPORATION_KCAL


def fluid_in(session: Session, athlete: Athlete, gross_kcal_per_h: float) -> Fluid:
    """What a session leaves room to drink. gross_kcal_per_h: of the work, rest included.

    With a test that fits: at most the lower of its rate and 1.0 L/h. Without one: 0.4-0.8 L/h as an upper guide, less
    for the small, the slow and the cold, never more than the work is likely to cost.
    """
    known = known_sweat(session, athlete)
    guide = min(float(FLUID_GUIDE_MOST), likely_loss(gross_kcal_per_h, session.conditions))
    if known is not None and known.fits:
        rate = known.rate_l_per_h
        ceiling = min(rate, float(FLUID_MOST))
        needed = rate - LOSS_AIM * athlete.mass_kg / (session.minutes / 60)
        least = min(max(0.0, needed), FLUID_ROOM * ceiling)
        return Fluid(least, max(least, FLUID_OF_CEILING * ceiling), ceiling, True, rate, known, known.how)
    rate = guide if known is None else min(guide, known.rate_l_per_h)
    share = FLUID_GUIDE_LEAST / FLUID_GUIDE_MOST
    how = "no test: an upper guide of 0.4-0.8 L/h, less for small bodies, slow work and cold"
    if known is not None:
        how = f"{known.how}, made in more heat or harder work, so the guide counts: 0.4-0.8 L/h at most"
    return Fluid(share * rate, FLUID_OF_CEILING * rate, rate, False, rate, known, how)


def fluid_before_ml(mass_kg: float, share_of_window: float = 1.0) -> tuple[int, int]:
    """ml to drink in the 2 to 4 h before: 5-10 ml/kg, less where there is less time."""
    least, most = (round(per_kg * mass_kg * share_of_window, -1) for per_kg in FLUID_BEFORE)
    return int(least), int(most)


def fluid_after_l(loss_kg: float) -> tuple[float, float]:
    """Litres to drink over the hours after: 1.25 to 1.5 for each kg lost."""
    least, most = (per_kg * max(0.0, loss_kg) for per_kg in FLUID_AFTER)
    return least, most
