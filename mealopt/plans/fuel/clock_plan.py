"""The clock of a session: when each bottle is begun, when what is eaten, and what each hour then holds."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from mealopt.core.nutrients import CARBOHYDRATE
from mealopt.people.case import Session
from mealopt.people.splits import split
from mealopt.plans.fuel.choices import Eaten, Mix
from mealopt.plans.fuel.solve import Packed

#: Eating begins after so many minutes and ends so long before the end; times fall on whole fives.
FIRST, LAST, GRID = 15, 10, 5

#: What does not keep comes before all else, the shorter the earlier.
KEEPS_FIRST = 100.0


@dataclass(frozen=True, slots=True)
class Sip:
    """One bottle. number: from 1; begins, ends: minutes of the session."""

    number: int
    mix: Mix
    begins: int
    ends: int


@dataclass(frozen=True, slots=True)
class Bite:
    """One sitting: minute of the session, of which thing, and the carbohydrate in it, g."""

    minute: int
    thing: Eaten
    carbohydrate_g: float


def sips(packed: Packed) -> tuple[Sip, ...]:
    """The bottles in the order in which they are drunk: what is filled at home first, plain water among the rest."""
    count, minutes = packed.need.bottles, packed.need.session.minutes
    home = [mix for mix, many in packed.mixes for _ in range(many) if mix.drink and not mix.drink.dry]
    rest = [(mix, many) for mix, many in packed.mixes if mix.drink is None or mix.drink.dry]
    order = [*home, *_mixed(rest)]
    edges = [round(minutes * place / count / GRID) * GRID for place in range(count)] + [minutes] if count else []
    return tuple(
        Sip(number, mix, begins, ends)
        for number, (mix, (begins, ends)) in enumerate(zip(order, pairwise(edges), strict=True), start=1)
    )


def _mixed(kinds: Sequence[tuple[Mix, int]]) -> list[Mix]:
    """Bottles of several kinds in turn, each spread over the whole."""
    places = [((place + 0.5) / many, index, mix) for index, (mix, many) in enumerate(kinds) for place in range(many)]
    return [mix for _, _, mix in sorted(places, key=lambda entry: entry[:2])]


def drunk_by(bottles: Sequence[Sip], minute: float) -> float:
    """Carbohydrate that was drunk by a minute, g."""
    found = 0.0
    for sip in bottles:
        share = min(1.0, max(0.0, (minute - sip.begins) / (sip.ends - sip.begins)))
        found += share * sip.mix.holds.get(CARBOHYDRATE, 0.0)
    return found


def bites(packed: Packed, bottles: Sequence[Sip]) -> tuple[Bite, ...]:
    """When what is eaten: whenever the sum lags half a bite behind an even line, never in the first minutes or the
    last; seldom twice the same in a row, and what does not keep in its time."""
    minutes = packed.need.session.minutes
    left = {index: count * thing.thing.bites for index, (thing, count) in enumerate(packed.things)}
    whole = dict(left)
    total = sum(count * thing.holds[CARBOHYDRATE] for thing, count in packed.things) + drunk_by(bottles, minutes)
    last = max(FIRST, (minutes - LAST) // GRID * GRID)
    found: list[Bite] = []
    eaten = 0.0
    for minute in range(FIRST, last + 1, GRID):
        while any(left.values()):
            lags = total * (minute + GRID / 2) / minutes - drunk_by(bottles, minute + GRID / 2) - eaten
            index = _next(packed, left, whole, found)
            each = _each(packed.things[index][0])
            if lags < each / 2 and minute < last:
                break
            left[index] -= 1
            eaten += each
            found.append(Bite(minute, packed.things[index][0], each))
    return tuple(found)


def _next(packed: Packed, left: dict[int, int], whole: dict[int, int], found: list[Bite]) -> int:
    """Which thing comes next: what does not keep, then another flavour, then what there is most of."""

    def score(index: int) -> float:
        thing = packed.things[index][0]
        again = bool(found) and found[-1].thing.thing.flavour == thing.thing.flavour
        hours = thing.thing.hours_out
        first = 0.0 if hours is None else KEEPS_FIRST - hours
        return again - 2.0 * left[index] / whole[index] - first

    return min((index for index in left if left[index]), key=score)


def _each(thing: Eaten) -> float:
    return thing.holds[CARBOHYDRATE] / thing.thing.bites


def by_hour(packed: Packed, bottles: Sequence[Sip], eaten: Sequence[Bite]) -> tuple[float, ...]:
    """Carbohydrate in each hour of the session, g; the last may be a part of one."""
    minutes = packed.need.session.minutes
    edges = [*range(0, minutes, 60), minutes]
    return tuple(
        drunk_by(bottles, end) - drunk_by(bottles, start)
        + sum(bite.carbohydrate_g for bite in eaten if start <= bite.minute < end)
        for start, end in pairwise(edges)
    )  # fmt: skip


def km_at(session: Session, minute: float) -> float | None:
    """Where the athlete is at a minute: by the expected splits, else at an even pace; None without a distance."""
    known = [(0.0, 0.0)] + [(float(at), km) for km, at in (split(text) for text in session.splits)]
    if session.distance_km is not None and known[-1][0] < session.minutes:
        known.append((float(session.minutes), session.distance_km))
    if len(known) < 2 or minute > known[-1][0]:
        return None
    for (before, km), (after, farther) in pairwise(known):
        if before <= minute <= after:
            return round(km + (farther - km) * (minute - before) / (after - before), 1)
    return None
