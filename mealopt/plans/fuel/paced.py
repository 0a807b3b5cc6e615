"""Food for a session that its clock has room for: packed, laid into the hours, and packed again with less."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import replace

from mealopt.core.nutrients import CARBOHYDRATE
from mealopt.menu.plates import Larder
from mealopt.plans.fuel.clock_plan import bites, by_hour, fullest_hour, left_over, sips
from mealopt.plans.fuel.need import FILL_LEAST, Need
from mealopt.plans.fuel.pose import ClockRoom
from mealopt.plans.fuel.solve import Packed, pack, resalted, salt_off

#: So often it is packed anew for the clock; after that, what has no place in an hour stays at home.
TRIES = 7

#: ml less in each bottle that are tried in turn where salt in whole steps misses its band.
LESS_FILLED = (0, 50, 100, 150)

#: Grams of carbohydrate without a place, and mg of sodium in a litre outside the band, that are rounding.
NOTHING = 0.01

#: A gram of carbohydrate under the least counts as so many under the aim, and a mg of sodium for each litre likewise.
UNDER_LEAST, OFF_BAND = 10.0, 1000.0

#: A whole hour should hold this share of the mean, where that is so many g/h; a gram less counts as so many.
EVENLY, EVENLY_FROM, UNEVEN = 0.4, 15.0, 2.0


def paced(need: Need, larder: Larder, seed: str, room: Mapping[str, float], seconds: float = 5.0) -> Packed:
    """What is packed for a session, all of it eaten without any sixty minutes that pass the most of an hour.

    Where salt in whole steps misses its band, the bottles are filled a little less. room: kin -> share of a day's most
    that is left. seconds: for each solve. Raises OutOfTime.
    """
    found: list[tuple[float, Packed]] = []
    for less in LESS_FILLED:
        if found and need.fill_ml - less < FILL_LEAST:
            break
        for packed in _tries(replace(need, fill_ml=need.fill_ml - less), larder, seed, room, seconds):
            points = _misses(packed) + OFF_BAND * salt_off(packed, larder) + UNEVEN * _empty(packed)
            found.append((points, packed))
        best = min(found, key=lambda entry: entry[0])[1]
        if salt_off(best, larder) <= NOTHING:
            return best
    return min(found, key=lambda entry: entry[0])[1]


def _tries(need: Need, larder: Larder, seed: str, room: Mapping[str, float], seconds: float) -> Iterator[Packed]:
    """What is packed with what the clock is known to have room for, until all of it has a place.

    What is filled at home is drunk first and can leave nothing for the last hours: then without such drinks too.
    """
    for dry in (False, True):
        clock, good, fits = ClockRoom(dry=dry), False, 0.0
        for number in range(TRIES):
            packed = pack(need, larder, seed, room, seconds, clock)
            order = sips(packed)
            over = left_over(packed, bites(packed, order))
            kept = packed if over <= NOTHING else resalted(_that_fits(packed), larder)
            good = good or (_grams(kept) >= need.least * need.hours and _empty(kept) <= NOTHING)
            fits = max(fits, _grams(kept))
            yield kept
            if over <= NOTHING:
                break
            # First sittings that suit what the bottles leave of an hour, then less in all: halfway to what fits.
            drunk = fullest_hour(order, (), need.session.minutes)
            most_g = math.inf if number == 0 else (_grams(packed) + max(_grams(packed) - over, fits)) / 2.0
            clock = replace(clock, most_g=most_g, drunk_g=drunk)
        if good or need.bottles <= need.at_hand:
            return


def _grams(packed: Packed) -> float:
    eaten = sum(count * thing.holds[CARBOHYDRATE] for thing, count in packed.things)
    return eaten + sum(count * mix.holds.get(CARBOHYDRATE, 0.0) for mix, count in packed.mixes)


def _misses(packed: Packed) -> float:
    """How far its carbohydrate lies under the aim, g; what is under the least counts many times."""
    need, grams = packed.need, _grams(packed)
    short = max(0.0, need.least * need.hours - grams)
    return max(0.0, need.aim * need.hours - grams) + UNDER_LEAST * short


def _empty(packed: Packed) -> float:
    """How far the emptiest whole hour lies under its share of the mean, g."""
    need, order = packed.need, sips(packed)
    mean = _grams(packed) / need.hours
    whole = by_hour(packed, order, bites(packed, order))[: need.session.minutes // 60]
    return max(0.0, EVENLY * mean - min(whole)) if mean >= EVENLY_FROM else 0.0


def _that_fits(packed: Packed) -> Packed:
    """The same without the pieces that have no place in the clock."""
    while True:
        placed = bites(packed, sips(packed))
        if left_over(packed, placed) <= NOTHING:
            return packed
        eaten = Counter(id(bite.thing) for bite in placed)
        things = tuple((thing, eaten[id(thing)] // thing.thing.bites) for thing, _ in packed.things)
        packed = replace(packed, things=tuple(entry for entry in things if entry[1]))
