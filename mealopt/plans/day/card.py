"""The day's card: for each slot, the plates that fit it, in the order in which this day's dishes come.

Every athlete, day and slot has an order of its own, so that days differ; what is preferred comes first, what is marked
"less" last. A plate's place is charged, so a plate far down the card can be ruled out without looking at it.
"""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.core.slots import KINDS, Slot
from mealopt.menu.dishes import Dish, Menu
from mealopt.menu.plates import Larder, Plate, draw, plate


class Card:
    """The plates of each slot, drawn as they are asked for."""

    def __init__(self, slots: tuple[Slot, ...], larder: Larder, seed: str) -> None:
        self._larder = larder
        self._slots = slots
        self._orders: list[Iterator[Dish]] = [iter(self._order(slot, seed)) for slot in slots]
        self.plates: list[list[Plate]] = [[] for _ in slots]
        self._ended = [False] * len(slots)

    def _order(self, slot: Slot, seed: str) -> list[Dish]:
        wishes = self._larder.filter

        def key(dish: Dish) -> tuple[int, bytes]:
            names = {dish.id, *(food for part in dish.component for food in part.foods)}
            liked = 0 if names & wishes.prefer else 2 if dish.id in wishes.less else 1
            return liked, draw(f"{seed}|{slot.index}", dish.id)

        return sorted((dish for dish in self._larder.menu.dishes.values() if slot.kind in dish.slots), key=key)

    def deal(self, places: int) -> None:
        """Draw until each slot has so many plates, or all that there are."""
        for index, slot in enumerate(self._slots):
            drawn = self.plates[index]
            while len(drawn) < places and not self._ended[index]:
                dish = next(self._orders[index], None)
                if dish is None:
                    self._ended[index] = True
                elif (fitting := plate(dish, slot, self._larder)) is not None:
                    drawn.append(fitting)

    @property
    def ended(self) -> bool:
        """Whether every plate that fits has been drawn."""
        return all(self._ended)

    def empty(self) -> list[Slot]:
        """Slots that no plate fits, once all are drawn."""
        return [slot for slot, drawn in zip(self._slots, self.plates, strict=True) if not drawn]


def quickest(menu: Menu) -> dict[str, int]:
    """Minutes of the quickest dish that there is for each kind of slot."""
    return {
        kind: min((dish.minutes for dish in menu.dishes.values() if kind in dish.slots), default=0) for kind in KINDS
    }
