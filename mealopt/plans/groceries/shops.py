"""One shop or two: on which day, and which days' food is bought in which."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from mealopt.plans.groceries.needs import Thing


@dataclass(frozen=True, slots=True)
class Shops:
    """When things are bought. first: the place of the day of the first shop.

    second: the first place whose food the second shop buys, on the day before; None with one shop only.
    """

    first: int
    second: int | None

    def bought(self, shop: int) -> int:
        """The place of the day on which a shop is done."""
        return self.first if shop == 1 or self.second is None else self.second - 1


@dataclass(frozen=True, slots=True)
class Part:
    """What one shop buys of one thing. by_day: place -> grams needed from it; at_home_g: what there is already."""

    shop: int
    by_day: Mapping[int, float]
    at_home_g: float
    packs: int
    buy_g: float

    @property
    def need_g(self) -> float:
        """Grams as bought that these days need, rounded up to a tenth."""
        return tenth_up(math.fsum(self.by_day.values()))

    @property
    def left_g(self) -> float:
        """Grams that remain."""
        return self.at_home_g + self.buy_g - self.need_g


def tenth_up(grams: float) -> float:
    """Grams rounded up to a tenth, so that a list never asks for less than is eaten."""
    return math.ceil(grams * 10.0 - 1e-6) / 10.0


def tenth_down(grams: float) -> float:
    """Grams rounded down to a tenth, so that no more is said to be there than is."""
    return math.floor(grams * 10.0 + 1e-6) / 10.0


def whole_packs(grams: float, pack_g: float) -> int:
    """Packs that hold so many grams; a trifle below what a scale shows asks for no pack more."""
    return max(0, math.ceil(grams / pack_g - 1e-9))


def choose_shops(things: Iterable[Thing], last: int, shops: int, today: int | None = None) -> Shops:
    """When to shop: on the day before food is first needed; a second time as near to the middle as lets most food keep.

    last: the place of the plan's last day. today: that of a day that was planned anew, before which nobody can shop.
    """
    fresh = [(place, thing.keeps_days) for thing in things if thing.keeps_days for place in thing.by_day]
    needed = min((place for thing in things for place in thing.by_day), default=0)
    first = needed - 1 if today is None else max(needed - 1, today)
    if shops == 1 or last - needed < 1:
        return Shops(first, None)

    def spoilt(second: int) -> tuple[int, float]:
        late = sum(place - (second - 1 if place >= second else first) > keeps for place, keeps in fresh)
        return late, abs(second - (needed + last + 1) / 2)

    return Shops(first, min(range(needed + 1, last + 1), key=spoilt))


def parts_of(thing: Thing, at_home_g: float, shops: Shops) -> list[Part]:
    """What is bought of one thing in each shop, in as few packs as can be; what is at home is used first.

    The second shop sells what would not keep from the first; for days that either could serve, what is left of the
    first shop's packs goes first.
    """
    by_day = thing.by_day
    late = {place for place in by_day if _second_only(place, thing, shops)}
    if not late:
        return [_part(thing, 1, by_day, at_home_g)]
    sure = {place: grams for place, grams in by_day.items() if place < (shops.second or 0)}
    between = {place: grams for place, grams in by_day.items() if place not in sure and place not in late}
    first, second = dict(sure), dict[int, float]()
    short = max(0.0, tenth_up(math.fsum(sure.values())) - at_home_g)
    packed = whole_packs(short, thing.pack_g) * thing.pack_g if thing.pack_g else short
    _share(between, tenth_down(at_home_g + packed), first, second)
    _share({place: by_day[place] for place in sorted(late)}, tenth_down(at_home_g), first, second)
    parts = [_part(thing, 1, first, at_home_g)] if first or at_home_g else []
    return [*parts, *([_part(thing, 2, second, 0.0)] if second else [])]


def _share(days: Mapping[int, float], held: float, first: dict[int, float], second: dict[int, float]) -> None:
    """Give what these days need to the first shop as far as it holds out, and the rest to the second."""
    for place, grams in days.items():
        taken = min(grams, max(0.0, held - math.fsum(first.values())))
        if taken > 0:
            first[place] = taken
        if grams > taken:
            second[place] = grams - taken


def _second_only(place: int, thing: Thing, shops: Shops) -> bool:
    if shops.second is None or place < shops.second or not thing.keeps_days:
        return False
    return place - shops.bought(1) > thing.keeps_days


def _part(thing: Thing, shop: int, by_day: Mapping[int, float], at_home_g: float) -> Part:
    short = max(0.0, tenth_up(math.fsum(by_day.values())) - at_home_g)
    if not thing.pack_g:
        return Part(shop, by_day, at_home_g, 0, short)
    packs = whole_packs(short, thing.pack_g)
    return Part(shop, by_day, at_home_g, packs, packs * thing.pack_g)
