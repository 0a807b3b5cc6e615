"""The clock of a session: when each bottle is begun, when what is eaten, and what each hour then holds.

No sixty minutes hold more than the most of an hour, wherever they begin: not the session's mean alone.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from mealopt.core.nutrients import CARBOHYDRATE
from mealopt.people.case import Session
from mealopt.people.splits import split
from mealopt.plans.fuel.choices import Eaten, Mix
from mealopt.plans.fuel.need import FIRST, GRID, bottle_edges, last_sitting
from mealopt.plans.fuel.solve import Packed

HOUR = 60

#: How far behind an even line something is eaten, in bites: half a bite, or sooner where the clock needs it.
LAGS = (0.5, 0.0, -0.5, -1.0)

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
    edges = bottle_edges(minutes, count)
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
    last; seldom twice the same in a row, and what does not keep in its time.

    What would bring any sixty minutes over the most of an hour waits. Where something then finds no place, all is
    eaten a little sooner; what still finds none is left out, and `left_over` says so.
    """
    best: tuple[Bite, ...] = ()
    least = math.inf
    for lag in LAGS:
        found = _bites(packed, bottles, lag)
        over = left_over(packed, found)
        if over < least - 1e-6:
            best, least = found, over
        if over < 1e-6:
            break
    return best


def _bites(packed: Packed, bottles: Sequence[Sip], lag: float) -> tuple[Bite, ...]:
    """The same with one lag, in bites, behind the even line."""
    minutes, most = packed.need.session.minutes, packed.need.most
    left = {index: count * thing.thing.bites for index, (thing, count) in enumerate(packed.things)}
    whole = dict(left)
    total = sum(count * thing.holds[CARBOHYDRATE] for thing, count in packed.things) + drunk_by(bottles, minutes)
    last = last_sitting(minutes)
    found: list[Bite] = []
    eaten = 0.0
    for minute in range(FIRST, last + 1, GRID):
        if not any(left.values()):
            break
        room = _room_at(minute, minutes, most, bottles, found)
        even = total * (minute + GRID / 2) / minutes - drunk_by(bottles, minute + GRID / 2)
        while fits := [index for index, many in left.items() if many and packed.things[index][0].sitting_g <= room]:
            index = _next(packed, fits, left, whole, found)
            each = packed.things[index][0].sitting_g
            if even - eaten < lag * each and minute < last:
                break
            left[index] -= 1
            eaten += each
            room -= each
            found.append(Bite(minute, packed.things[index][0], each))
    return tuple(found)


def left_over(packed: Packed, eaten: Sequence[Bite]) -> float:
    """Carbohydrate of what is packed to eat and found no place in the clock, g."""
    carried = sum(count * thing.holds[CARBOHYDRATE] for thing, count in packed.things)
    return max(0.0, carried - sum(bite.carbohydrate_g for bite in eaten))


def fullest_hour(bottles: Sequence[Sip], eaten: Sequence[Bite], minutes: int) -> float:
    """The most carbohydrate that any sixty minutes hold, g; a session's last minutes are counted with those before."""
    starts = range(0, max(1, minutes - HOUR + GRID), GRID)
    return max(_held(at, bottles, eaten) for start in starts for at in (start, start + 1))


def _held(start: int, bottles: Sequence[Sip], eaten: Sequence[Bite]) -> float:
    drunk = drunk_by(bottles, start + HOUR) - drunk_by(bottles, start)
    return drunk + sum(bite.carbohydrate_g for bite in eaten if start <= bite.minute < start + HOUR)


def _room_at(minute: int, minutes: int, most: float, bottles: Sequence[Sip], eaten: Sequence[Bite]) -> float:
    """What can still be eaten at a minute so that no sixty minutes about it pass the most, g."""
    last = min(minute, max(0, minutes - HOUR + GRID))
    starts = {start for edge in range(minute - HOUR, last + 1, GRID) for start in (edge, edge + 1)}
    within = [start for start in starts if max(0, minute - HOUR + 1) <= start <= last] or [0]
    return most - max(_held(start, bottles, eaten) for start in within) + 1e-6


def _next(packed: Packed, fits: Sequence[int], left: dict[int, int], whole: dict[int, int], found: list[Bite]) -> int:
    """Which of the things that fit comes next: what does not keep, then another flavour, then what there is most of."""

    def score(index: int) -> float:
        thing = packed.things[index][0]
        again = bool(found) and found[-1].thing.thing.flavour == thing.thing.flavour
        hours = thing.thing.hours_out
        first = 0.0 if hours is None else KEEPS_FIRST - hours
        return again - 2.0 * left[index] / whole[index] - first

    return min(fits, key=score)


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
