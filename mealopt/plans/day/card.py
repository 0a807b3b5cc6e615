"""The day's card: for each slot, the plates that fit it, in the order in which this day's dishes come.

Every athlete, day and slot has an order of its own, so that days differ; what is preferred comes first, then what can
serve the slot's purpose (its energy within its window, its protein), what is marked "less" last. A plate's place is
charged, so a plate far down the card can be ruled out without looking at it.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

from mealopt.core.filters import FoodFilter
from mealopt.core.nutrients import FIBRE
from mealopt.core.slots import KINDS, Slot
from mealopt.menu.dishes import Menu
from mealopt.menu.fit import fills_stores, misfit, price_per_kcal, protein_per_kcal
from mealopt.menu.plates import Larder, Plate, draw, plate, seldom

#: A dish may hold so much more than its share of a low-fibre day's fibre, for others hold less.
FIBRE_ROOM = 1.25

#: A plate may cost so much more per kcal than the day's budget leaves, for others cost less.
MONEY_ROOM = 1.0

#: Where no more than this share of a slot's plates can be as rich in protein as the whole day must be, those come
#: first: the day leans on them, and far down the card they would cost it dear.
SCARCE = 0.25


class Card:
    """The plates of each slot. protein_wanted: the day's protein, grams per kcal.

    settled: slot index -> the one plate that stands there. breakfast: the seed of a breakfast that should be the same
    every day; "" where days differ. laid: the plates of each slot in their order, where that is known already.
    fibre_share: grams of fibre per kcal that the day leaves, where it is held low; starch_share: grams of carbohydrate
    per kcal that it then asks for; money: per kcal, where the day has a budget. Dishes that keep to these come first.
    """

    def __init__(
        self,
        slots: tuple[Slot, ...],
        larder: Larder,
        seed: str,
        protein_wanted: float = 0.0,
        settled: Mapping[int, Plate] | None = None,
        breakfast: str = "",
        laid: Sequence[Sequence[Plate]] | None = None,
        fibre_share: float | None = None,
        money: float | None = None,
        starch_share: float = 0.0,
    ) -> None:
        self._fibre_share, self._money, self._starch_share = fibre_share, money, starch_share
        self._slots = slots
        self._breakfast = breakfast
        given = settled or {}
        self._all = [list(plates) for plates in laid or ()] or [
            [given[slot.index]] if slot.index in given else self._ordered(slot, larder, seed, protein_wanted)
            for slot in slots
        ]
        self._places = 0

    def _ordered(self, slot: Slot, larder: Larder, seed: str, protein_wanted: float) -> list[Plate]:
        wishes = larder.filter
        own = self._breakfast if self._breakfast and slot.kind == "breakfast" else f"{seed}|{slot.index}"
        purpose = slot
        if self._fibre_share is not None and slot.kind != "during":
            most = min(FIBRE_ROOM * self._fibre_share * slot.energy_aim, slot.limits.get(FIBRE, math.inf))
            purpose = replace(slot, limits={**slot.limits, FIBRE: most})

        fitting = (plate(dish, slot, larder) for dish in larder.menu.for_slot(slot))
        found = [one for one in fitting if one is not None]
        rich = frozenset(one.dish.id for one in found if protein_per_kcal(one) >= protein_wanted > 0)
        if len(rich) > SCARCE * len(found):
            rich = frozenset()

        def key(one: Plate) -> tuple[int, bool, bool, int, bytes]:
            liked, unfit, drawn = place_on_card(one, purpose, wishes, protein_wanted, own)
            dear = self._money is not None and price_per_kcal(one) > MONEY_ROOM * self._money
            share = self._fibre_share
            poor = share is not None and not fills_stores(one, self._starch_share, share)
            return liked, one.dish.id not in rich, poor, unfit + dear, drawn

        return sorted(found, key=key)

    def deal(self, places: int) -> None:
        """Show so many plates of each slot, or all that there are."""
        self._places = places

    def serve(self, dishes: Sequence[str]) -> None:
        """Show one plate of each slot, at the place that it has. dishes: their ids, in the slots' order."""
        found = []
        for drawn, dish in zip(self._all, dishes, strict=True):
            place, one = next((n, one) for n, one in enumerate(drawn) if one.dish.id == dish)
            found.append([one if one.place is not None else replace(one, place=place)])
        self._all = found
        self._places = 1

    @property
    def plates(self) -> tuple[tuple[Plate, ...], ...]:
        """The plates of each slot that are shown."""
        return tuple(tuple(drawn[: self._places]) for drawn in self._all)

    @property
    def all(self) -> tuple[tuple[Plate, ...], ...]:
        """Every plate of each slot, shown or not."""
        return tuple(tuple(drawn) for drawn in self._all)

    @property
    def beyond(self) -> frozenset[str]:
        """Names of dishes and foods that only plates hold which are not shown."""
        shown = {name for drawn in self._all for found in drawn[: self._places] for name in _names(found)}
        hidden = {name for drawn in self._all for found in drawn[self._places :] for name in _names(found)}
        return frozenset(hidden - shown)

    @property
    def ended(self) -> bool:
        """Whether every plate that fits is shown."""
        return all(len(drawn) <= self._places for drawn in self._all)

    def empty(self) -> list[Slot]:
        """Slots that no plate fits."""
        return [slot for slot, drawn in zip(self._slots, self._all, strict=True) if not drawn]


def place_on_card(
    fitting: Plate, slot: Slot, wishes: FoodFilter, protein_wanted: float, seed: str
) -> tuple[int, int, bytes]:
    """What a slot's plates are sorted by: liked, then serving the slot's purpose, then as the seed draws."""
    liked = 0 if _names(fitting) & wishes.prefer else 2 if fitting.dish.id in wishes.less else 1
    rare = any(
        part.pick[0] > 0 and all(seldom(choice.name, wishes) for choice in part.choices) for part in fitting.parts
    )
    return liked, misfit(fitting, slot, protein_wanted) + rare, draw(seed, fitting.dish.id)


def _names(fitting: Plate) -> set[str]:
    """The plate's dish and every food that may stand on it."""
    return {fitting.dish.id, *(choice.name for part in fitting.parts for choice in part.choices)}


def quickest(menu: Menu) -> dict[str, int]:
    """Minutes of the quickest dish that there is for each kind of slot."""
    return {kind: min((dish.minutes for dish in menu.by_slot(kind)), default=0) for kind in KINDS}
