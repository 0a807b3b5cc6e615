"""The least that a day can cost, with prices on the week's rows, where it uses a plate beyond the card."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from mealopt.core.nutrients import ENERGY
from mealopt.core.slots import Slot
from mealopt.menu.plates import Choice, Plate
from mealopt.plans.day.pose import PosedDay
from mealopt.rules import weights
from mealopt.rules.weekly.registry import WeekRow


def priced_beyond(posed: PosedDay, rows: Sequence[WeekRow], prices: Mapping[str, float], places: int) -> float:
    """A bound for days that use a plate beyond so many places of the card; infinity where there is none.

    In each slot a plate costs its place and its minutes at least, less the most that its foods could be credited with;
    one slot at least takes a plate from beyond, the others their cheapest of all.
    """
    once = sum(max(0.0, prices.get(row.name, 0.0)) for row in rows if row.form == "days")
    cheapest: list[float] = []
    further: list[float] = []
    for slot, plates in zip(posed.slots, posed.card().all, strict=True):
        quickest = posed.wishes.quickest.get(slot.kind, 0)
        costs = []
        for place, plate in enumerate(plates):
            minutes = 0.0 if slot.settled is not None else max(0, plate.dish.minutes - quickest)
            own = weights.PLACE * place + weights.MINUTE * minutes
            costs.append(own - _most_credit(plate, slot, rows, prices))
        cheapest.append(min(costs, default=0.0))
        further.append(min(costs[places:], default=float("inf")))
    total = sum(cheapest)
    return min((total - here + beyond for here, beyond in zip(cheapest, further, strict=True)), default=0.0) - once


def _most_credit(plate: Plate, slot: Slot, rows: Sequence[WeekRow], prices: Mapping[str, float]) -> float:
    """No more than this can the plate's foods be credited with: by their parts' grams, and by the meal's energy."""
    credits, energy_credit = 0.0, 0.0
    for part in plate.parts:
        each = [(_credit(choice, rows, prices), choice) for choice in part.choices]
        left, total = part.grams[1], 0.0
        for (per_gram, _), choice in sorted(each, key=lambda entry: -entry[0][0])[: part.pick[1]]:
            grams = min(left, choice.most_g)
            total += max(0.0, per_gram) * grams
            left -= grams
        kinds_most = sum(sorted((kinds for (_, kinds), _ in each), reverse=True)[: part.pick[1]])
        credits += total + kinds_most
        energy_credit += kinds_most
    dense = max(
        (
            max(0.0, _credit(choice, rows, prices)[0]) / choice.per_gram[ENERGY]
            if choice.per_gram.get(ENERGY, 0.0) > 0
            else (float("inf") if _credit(choice, rows, prices)[0] > 0 else 0.0)
            for part in plate.parts
            for choice in part.choices
        ),
        default=0.0,
    )
    return min(credits, energy_credit + dense * min(slot.energy_most, plate.dish.energy[1]))


def _credit(choice: Choice, rows: Sequence[WeekRow], prices: Mapping[str, float]) -> tuple[float, float]:
    """Points credited for a gram of a food, and for its being there."""
    grams, there = 0.0, 0.0
    for row in rows:
        price = prices.get(row.name, 0.0)
        if price and row.form == "sum" and row.per_gram is not None:
            grams += price * row.per_gram(choice)
        elif price and row.form == "kinds" and row.kind is not None and row.kind(choice) is not None:
            there += max(0.0, price)
    return grams, there
