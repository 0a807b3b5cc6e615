"""What remains after the plan's last day, and what does not keep until it is eaten."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from mealopt.core.words import DAY_NAMES
from mealopt.documents.plan import Plan
from mealopt.plans.groceries.needs import Thing, day_at
from mealopt.plans.groceries.shopping import Left
from mealopt.plans.groceries.shops import Part, Shops, tenth_down

#: Less than this share of a pack is a crumb, and not counted as left [common practice, no source].
TRIFLE = 0.03


@dataclass(frozen=True, slots=True)
class Pack:
    """One pack in use: the places of the days on which it is begun and last used."""

    begun: int
    last: int


def packs_in_use(part: Part, pack_g: float) -> list[Pack]:
    """The packs that a part buys, in the order of use; what is at home goes first."""
    packs: dict[int, Pack] = {}
    used = -part.at_home_g
    for place, grams in sorted(part.by_day.items()):
        begin, used = max(used, 0.0), used + grams
        if used <= 1e-6 or grams <= 0:
            continue
        first, last = int(begin / pack_g + 1e-9), max(math.ceil(used / pack_g - 1e-9) - 1, 0)
        for number in range(min(first, last), last + 1):
            packs[number] = Pack(packs[number].begun if number in packs else place, place)
    return [packs[number] for number in sorted(packs)]


def left_of(thing: Thing, parts: Sequence[Part], shops: Shops, last: int, from_home: int | None) -> Left | None:
    """What remains of a thing; None where nothing does. last: the place of the plan's last day.

    from_home: days after it that what was at home keeps, None where its age is not known.
    """
    grams = math.fsum(part.left_g for part in parts)
    whole = tenth_down(grams)
    if whole <= TRIFLE * thing.pack_g:
        return None
    bought = [part for part in parts if part.packs]
    if not bought:
        return Left(thing.food, thing.name, whole, False, from_home)
    newest = bought[-1]
    in_use = packs_in_use(newest, thing.pack_g)
    until = shops.bought(newest.shop) + thing.keeps_days
    # Of loose pieces the last is cut where its rest is more than a crumb.
    cut = TRIFLE < newest.left_g / thing.pack_g % 1.0 < 1.0 - TRIFLE
    opened = bool(in_use) and (bool(thing.sold.pack) or cut)
    if opened and thing.sold.opened_days is not None:
        until = min(until, in_use[-1].begun + thing.sold.opened_days)
    return Left(thing.food, thing.name, whole, opened, max(0, until - last))


def spoilt(plan: Plan, bought: Sequence[tuple[Thing, Part]], shops: Shops) -> Iterator[str]:
    """Sentences on food that does not keep until it is eaten, unopened or once its pack is opened."""
    for shop in (1, 2):
        found = [words for thing, part in bought if part.shop == shop for words in _late(plan, thing, part, shops)]
        if found:
            again = "shop twice, or buy it later" if shops.second is None else "buy it later, or eat it sooner"
            day = _days(plan, [shops.bought(shop)])
            yield f"Does not keep until it is eaten, bought on {day}: {', '.join(found)}: {again}"
    opened = [words for thing, part in bought for words in _opened(plan, thing, part, shops)]
    if opened:
        yield f"Does not keep once it is opened until it is used again: {', '.join(dict.fromkeys(opened))}"


def _late(plan: Plan, thing: Thing, part: Part, shops: Shops) -> Iterator[str]:
    """ "spinach 5 days (needed on Saturday, after 6)"."""
    places = _too_late(thing, part, shops)
    if places:
        after = places[-1] - shops.bought(part.shop)
        yield f"{thing.name} {_count(thing.keeps_days)} (needed on {_days(plan, places)}, after {after})"


def _opened(plan: Plan, thing: Thing, part: Part, shops: Shops) -> Iterator[str]:
    """ "tinned chickpeas 3 days (Monday to Saturday)"; of packs, for loose pieces are cut as they are needed."""
    days = thing.sold.opened_days
    if days is None or not thing.sold.pack or not part.packs:
        return
    late = _too_late(thing, part, shops)
    for pack in packs_in_use(part, thing.pack_g):
        if pack.last - pack.begun > days and pack.last not in late:
            yield f"{thing.name} {_count(days)} ({_days(plan, [pack.begun])} to {_days(plan, [pack.last])})"


def _too_late(thing: Thing, part: Part, shops: Shops) -> list[int]:
    """The places of days on which what the part buys is past its keeping."""
    if not part.packs:
        return []
    needed = _after(part.by_day, part.at_home_g)
    return [place for place in needed if place - shops.bought(part.shop) > thing.keeps_days]


def _after(by_day: Mapping[int, float], at_home_g: float) -> list[int]:
    """The places that what is at home does not serve to the end."""
    found, used = [], -at_home_g
    for place, grams in sorted(by_day.items()):
        used += grams
        if used > 1e-6:
            found.append(place)
    return found


def _days(plan: Plan, places: Sequence[int]) -> str:
    names = [DAY_NAMES[day_at(plan, place)] for place in places]
    return " and ".join([*([", ".join(names[:-1])] if len(names) > 1 else []), names[-1]])


def _count(days: int) -> str:
    return "1 day" if days == 1 else f"{days} days"
