"""Sodium in a session: by what is drunk, not by what is lost."""

from __future__ import annotations

from dataclasses import dataclass

from mealopt.people.case import Athlete, Session
from mealopt.targets.fluid import Fluid
from mealopt.targets.session_coefficients import (
    SODIUM_AIM,
    SODIUM_CEILING,
    SODIUM_FROM_MINUTES,
    SODIUM_FROM_RATE,
    SODIUM_NEAR,
)


@dataclass(frozen=True, slots=True)
class Sodium:
    """mg for each litre drunk, what is eaten included. asked: whether any is; own: the athlete's own concentration.

    lost_mg_per_h: with the sweat, where both are known; shown, not replaced in full.
    """

    asked: bool
    least: float
    aim: float
    most: float
    ceiling: float
    own: float | None
    lost_mg_per_h: float | None
    how: str


def sodium_in(session: Session, athlete: Athlete, fluid: Fluid) -> Sodium:
    """What a session's drink should hold: 460-690 mg/L, or as much as one's own sweat; never over 1,150 mg/L.

    Nothing is asked under 2 h, unless sweat is over 1.2 L/h or salty.
    """
    salty = athlete.sweat is not None and athlete.sweat.salty
    heavy = fluid.tested and fluid.loss_l_per_h > SODIUM_FROM_RATE
    asked = session.minutes >= SODIUM_FROM_MINUTES or heavy or salty
    own = None if fluid.sweat is None else fluid.sweat.sodium_mg_per_l
    least, most = (float(limit) for limit in SODIUM_AIM)
    ceiling = float(SODIUM_CEILING)
    if own is not None:
        aim, how = min(own, ceiling), f"your own sweat, {own:.0f} mg/L"
        how += f", held at {ceiling:,.0f}" if own > ceiling else ""
    else:
        aim = most if salty else (least + most) / 2
        how = "460-690 mg/L, the upper end because your sweat is salty" if salty else "460-690 mg/L"
    lost = own * fluid.loss_l_per_h if own is not None and fluid.tested else None
    return Sodium(asked, (1 - SODIUM_NEAR) * aim, aim, min((1 + SODIUM_NEAR) * aim, ceiling), ceiling, own, lost, how)
