"""What a session asks of its food and drink, in numbers: bands, ceilings, bottles and what a pocket holds."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from mealopt.core.nutrients import CARBOHYDRATE
from mealopt.people.case import Athlete, Case, OwnBand, Session
from mealopt.targets.fluid import Fluid, fluid_in
from mealopt.targets.fuelling import aim_in
from mealopt.targets.model import SessionEnergy
from mealopt.targets.session_coefficients import FLUID_ROOM
from mealopt.targets.sodium import Sodium, sodium_in
from mealopt.targets.timing import DURING_FROM

#: ml of a bottle and bottles at hand at once, by kind [common practice, no source]; the swimmer's stands at the wall.
BOTTLES: dict[str, tuple[int, int]] = {
    "run": (500, 2),
    "ride": (750, 2),
    "swim": (750, 1),
    "row": (750, 2),
    "walk": (750, 2),
    "ski": (500, 2),
    "other": (500, 2),
}

#: Grams to eat that pockets hold, at the start and more for each hour that is planned for (project's assumption).
POCKETS: dict[str, tuple[float, float]] = {"run": (100.0, 45.0)}
POCKETS_OTHER = (200.0, 75.0)

#: Bottles are filled in steps of so many ml, and not at all for less than so much.
FILL_STEP, FILL_LEAST = 50, 150

#: Times in a session fall on whole fives; eating begins after so many minutes and ends so long before the end.
GRID, FIRST, LAST = 5, 15, 10

#: Share of a bottle that is left out rather than carried in one more.
SPARE = 0.2

#: Salt is asked for from so many ml in all on.
SALTED_FROM = 300

#: Different things to eat, by hours: below this many hours at most so many.
THINGS: tuple[tuple[float, int], ...] = ((3.0, 2), (5.0, 3), (8.0, 4), (99.0, 6))


@dataclass(frozen=True, slots=True)
class Need:
    """One session to fuel. number: in its day, from 1. least, aim, most: carbohydrate, g/h; aim 0: nothing to eat.

    fluid, sodium: None where no drinking plan may be made. bottles: how many are filled in all, fill_ml: in each;
    at_hand: how many are carried at once. things: how many different ones. pockets_g: to eat. drink_most: strongest
    drink, g in 100 ml.
    """

    case: Case
    day: str
    number: int
    energy: SessionEnergy
    least: float
    aim: float
    most: float
    fluid: Fluid | None
    sodium: Sodium | None
    bottles: int
    fill_ml: int
    at_hand: int
    things: int
    pockets_g: float
    drink_most: float

    @property
    def session(self) -> Session:
        """The session."""
        return self.energy.session

    @property
    def hours(self) -> float:
        """How long it lasts, h."""
        return self.session.minutes / 60.0

    @property
    def litres(self) -> float:
        """What all bottles hold, L."""
        return self.bottles * self.fill_ml / 1000.0


def is_fuelled(session: Session) -> bool:
    """Whether a session gets a plan: endurance of more than an hour."""
    return session.endurance and session.minutes > DURING_FROM


def need_of(case: Case, day: str, number: int, energy: SessionEnergy) -> Need:
    """What a session asks for. energy: with the band that the day leaves it."""
    session, athlete = energy.session, case.athlete
    least, most = energy.carbohydrate_g_per_h
    hours = session.minutes / 60.0
    own = own_mosts(case, day)
    asked = [band.least for band in _own(case, day) if band.nutrient == CARBOHYDRATE and band.least is not None]
    most = min(most, own.get(CARBOHYDRATE, math.inf) / hours)
    least = min(most, max([least, *(grams / hours for grams in asked)]))
    aim = max(least, aim_in(session, athlete, most, case.fuel.rate))
    fluid = sodium = None
    bottles = fill = 0
    size, at_hand = BOTTLES[session.kind]
    at_hand = at_hand if session.bottles is None else session.bottles
    if "hyponatraemia_before" not in (athlete.cautions or ()):
        fluid = fluid_in(session, athlete, gross_kcal_per_h(energy, athlete))
        sodium = sodium_in(session, athlete, fluid)
        if at_hand:
            bottles, fill = _filled(fluid, hours, size)
        if bottles * fill < SALTED_FROM:
            # In so little drink the smallest spoon of salt is too much of it.
            sodium = replace(sodium, asked=False)
    base, more = POCKETS.get(session.kind, POCKETS_OTHER)
    return Need(
        case, day, number, energy, min(least, aim), aim, most, fluid, sodium, bottles, fill, min(at_hand, bottles),
        next(things for limit, things in THINGS if hours < limit), base + more * hours,
        case.fuel.drink_percent_most,
    )  # fmt: skip


def _own(case: Case, day: str) -> list[OwnBand]:
    """The case's own bands for what is eaten in sessions of a day."""
    return [band for band in case.goal.band if band.slot == "during" and band.day in (None, day)]


def own_mosts(case: Case, day: str) -> dict[str, float]:
    """Nutrient -> the most of it in a session, where the case sets one."""
    found: dict[str, float] = {}
    for band in _own(case, day):
        if band.most is not None:
            found[band.nutrient] = min(band.most, found.get(band.nutrient, math.inf))
    return found


def gross_kcal_per_h(energy: SessionEnergy, athlete: Athlete) -> float:
    """Energy of the work an hour, rest included at 1 kcal/kg/h."""
    return energy.net_kcal / (energy.session.minutes / 60.0) + athlete.mass_kg


def _filled(fluid: Fluid, hours: float, size: int) -> tuple[int, int]:
    """How many bottles, and ml in each: the aim, never so much that food's water would pass the ceiling."""
    ml = 1000.0 * min(fluid.aim, FLUID_ROOM * fluid.ceiling) * hours
    if ml < FILL_LEAST:
        return 0, 0
    # A mouthful more than full bottles hold is no reason for another bottle.
    count = max(1, math.ceil(ml / size - SPARE))
    fill = min(size, math.floor(ml / count / FILL_STEP + 1e-9) * FILL_STEP)
    return count, fill


def bottle_edges(minutes: int, count: int) -> list[int]:
    """The minutes at which so many bottles are begun, and the session's end: one lasts about as long as another."""
    return [round(minutes * place / count / GRID) * GRID for place in range(count)] + [minutes] if count else []


def last_sitting(minutes: int) -> int:
    """The minute of a session at which something is eaten last."""
    return max(FIRST, (minutes - LAST) // GRID * GRID)


def hours_to_eat(minutes: int) -> int:
    """How many sittings a session has room for that lie an hour apart."""
    return (last_sitting(minutes) - FIRST) // 60 + 1
