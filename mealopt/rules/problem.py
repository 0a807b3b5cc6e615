"""A posed day: slots, plates and limits as numbers, with a column for each thing that may be chosen.

For a plate in a slot there is a column that says whether it is served; for each of its foods one that says whether it
is used (the plate's own where there is no choice) and one that counts the kitchen steps above its least. So the grams
of a food are used x least + steps x step, and no row needs a large constant to switch an amount off.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from mealopt.core.bands import Band
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FAT, FIBRE, FRUIT_VEGETABLE, PROTEIN, SATURATED
from mealopt.core.slots import RefuelWindow, Slot
from mealopt.menu.plates import Choice, Part, Plate
from mealopt.milp.model import Model, Row, Term

#: Summed for each meal, whatever else a day asks for.
SUMMED = (ENERGY, PROTEIN, CARBOHYDRATE, FAT, FIBRE, SATURATED, FRUIT_VEGETABLE)


@dataclass(frozen=True, slots=True)
class FoodColumn:
    """A food that a plate may hold. used: 0/1 column; more: steps above the least (None where there is one amount)."""

    choice: Choice
    used: int
    more: int | None

    def amounts(self, per_gram: float = 1.0) -> Iterator[Term]:
        """Terms of per_gram x grams of this food."""
        yield self.used, per_gram * self.choice.least_g
        if self.more is not None:
            yield self.more, per_gram * self.choice.step_g

    def grams(self, values: list[float]) -> float:
        """Grams of it at these column values, in whole steps."""
        if round(values[self.used]) == 0:
            return 0.0
        more = 0 if self.more is None else round(values[self.more])
        return (self.choice.steps[0] + more) * self.choice.step_g


@dataclass(frozen=True, slots=True)
class PartColumns:
    """A part of a plate with its foods' columns."""

    part: Part
    foods: tuple[FoodColumn, ...]


@dataclass(frozen=True, slots=True)
class Serving:
    """A plate in a slot: served is its 0/1 column."""

    slot: Slot
    plate: Plate
    served: int
    parts: tuple[PartColumns, ...]

    @property
    def foods(self) -> Iterator[FoodColumn]:
        """Every food column of it."""
        return (food for part in self.parts for food in part.foods)


@dataclass(frozen=True, slots=True)
class Wishes:
    """What one day's kitchen and eater ask for, as rules see it.

    minutes_most: kitchen minutes of the day; budget: price of the day's food, None where free; prefer, less: names of
    foods or dishes; whole_food_share: least, added_sugar_share: most of the energy outside sessions (WHO healthy diet:
    free sugars under 10 % of energy); warm_main: one warm main meal; produce_kinds: least kinds of fruit and
    vegetables; quickest: slot kind -> minutes of the quickest dish that there is for it; beyond: preferred names that
    only plates beyond the card hold, which are missed all the same.
    """

    minutes_most: float = 240.0
    budget: float | None = None
    prefer: frozenset[str] = frozenset()
    less: frozenset[str] = frozenset()
    whole_food_share: float = 0.7
    added_sugar_share: float = 0.1
    warm_main: bool = True
    produce_kinds: int = 3
    quickest: dict[str, int] = field(default_factory=dict)
    beyond: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class OwnLimit:
    """A band that the case sets itself for one meal. slot: index; key: nutrient."""

    slot: int
    key: str
    band: Band


class Problem:
    """A posed day. bands: the day's, by nutrient; plates: for each slot, the plates that fit it, in the day's order."""

    def __init__(
        self,
        slots: tuple[Slot, ...],
        plates: tuple[tuple[Plate, ...], ...],
        bands: dict[str, Band],
        wishes: Wishes,
        refuel: tuple[RefuelWindow, ...] = (),
        own_limits: tuple[OwnLimit, ...] = (),
    ) -> None:
        self.slots = slots
        self.bands = bands
        self.wishes = wishes
        self.refuel = refuel
        self.own_limits = own_limits
        self.model = Model()
        self.costs: dict[str, list[Term]] = {}
        self.never_split: list[int] = []
        self.servings: tuple[tuple[Serving, ...], ...] = tuple(
            tuple(self._serving(slot, plate) for plate in fitting) for slot, fitting in zip(slots, plates, strict=True)
        )
        keys = dict.fromkeys((*SUMMED, *bands, *(limit.key for limit in own_limits)))
        self.sums: dict[tuple[int, str], int] = {
            (slot.index, key): self.model.column() for slot in slots for key in keys if key in keys
        }
        self.keys = tuple(keys)

    def _serving(self, slot: Slot, plate: Plate) -> Serving:
        served = self.model.column(0, 1, whole=True)
        parts = []
        for part in plate.parts:
            alone = part.pick[0] == len(part.choices)
            foods = tuple(
                FoodColumn(
                    choice,
                    served if alone else self.model.column(0, 1, whole=True),
                    self.model.column(0, choice.steps[1] - choice.steps[0], whole=True)
                    if choice.steps[1] > choice.steps[0]
                    else None,
                )
                for choice in part.choices
            )
            parts.append(PartColumns(part, foods))
        return Serving(slot, plate, served, tuple(parts))

    # --- what rules ask for -------------------------------------------------------------------------------------

    @property
    def all_servings(self) -> Iterator[Serving]:
        """Every plate of every slot."""
        return (serving for options in self.servings for serving in options)

    def foods(self, slots: Iterable[Slot] | None = None) -> Iterator[FoodColumn]:
        """Every food column, of all slots or of these."""
        chosen = range(len(self.slots)) if slots is None else [slot.index for slot in slots]
        return (food for index in chosen for serving in self.servings[index] for food in serving.foods)

    def nutrient_terms(self, slot: Slot, key: str) -> list[Term]:
        """Terms whose sum is this nutrient in this meal, from its foods."""
        return [
            term
            for serving in self.servings[slot.index]
            for food in serving.foods
            if (amount := food.choice.per_gram.get(key))
            for term in food.amounts(amount)
        ]

    def sum_of(self, slot: Slot, key: str) -> Term:
        """The column that holds this nutrient of this meal, as a term."""
        return self.sums[slot.index, key], 1.0

    def day_sum(self, key: str) -> list[Term]:
        """Terms of this nutrient over the day, what is eaten in sessions included."""
        return [self.sum_of(slot, key) for slot in self.slots]

    def slots_with_limit(self, key: str) -> Iterator[Slot]:
        """The slots whose window limits this nutrient."""
        return (slot for slot in self.slots if key in slot.limits)

    @property
    def main_slots(self) -> tuple[Slot, ...]:
        """The main meals."""
        return tuple(slot for slot in self.slots if slot.main)

    # --- the penalty --------------------------------------------------------------------------------------------

    def charge(self, term: str, column: int, cost: float) -> None:
        """Charge the penalty this much per unit of a column; cost is never negative."""
        if cost > 0:
            self.model.cost[column] += cost
            self.costs.setdefault(term, []).append((column, cost))

    def cost_column(self, term: str, cost: float, most: float | None = None) -> int:
        """A new column that the penalty charges."""
        column = self.model.column(0.0, most)
        self.charge(term, column, cost)
        return column

    def charged_beyond(self, term: str, cost: float, row: str, terms: Iterable[Term], most: float) -> Row:
        """A row whose terms may pass their most, each unit at this cost of the penalty's term."""
        over = self.cost_column(term, cost)
        return Row(row, (*terms, (over, -1.0)), most=most)

    def decisive(self) -> list[int]:
        """Columns of foods that cost something themselves, or that somebody prefers, and whatever a rule of the week
        has put into `never_split`: no stage should split them."""
        wanted = self.wishes.prefer
        return [
            food.used
            for serving in self.all_servings
            for food in serving.foods
            if food.used != serving.served and (self.model.cost[food.used] > 0 or food.choice.name in wanted)
        ] + self.never_split

    def shares(self, values: list[float]) -> dict[str, float]:
        """Each term's share of the penalty at these column values, in points."""
        return {term: sum(cost * values[column] for column, cost in terms) for term, terms in self.costs.items()}
