"""What is preferred, shared out over the days of a week: wanted every other day, not on each.

A day by itself misses each preferred food that it does not hold. Seven such days in a row would serve salmon seven
times; a week wants it about every other day, and what is preferred beside it on the days between.
"""

from __future__ import annotations

from dataclasses import replace

from mealopt.menu.plates import Larder
from mealopt.plans.day.pose import PosedDay


def wanted_on(preferred: frozenset[str], place: int) -> frozenset[str]:
    """Of what is preferred, the names that the day at this place of the week (from 0) asks for: every other one."""
    return frozenset(name for number, name in enumerate(sorted(preferred)) if (number + place) % 2 == 0)


def with_shared_wishes(posed: PosedDay, place: int) -> PosedDay:
    """The day at this place of the week, with its share of what is preferred.

    A breakfast that should be the same every day keeps all of it, or it could not be the same.
    """
    preferred = posed.wishes.prefer
    if not preferred or posed.breakfast_seed:
        return posed
    wanted = wanted_on(preferred, place)
    larder = posed.larder
    foods = replace(larder.filter, prefer=wanted)
    return replace(
        posed,
        wishes=replace(posed.wishes, prefer=wanted),
        larder=Larder(larder.menu, foods, larder.prices, posed.seed, larder.thrifty),
    )
