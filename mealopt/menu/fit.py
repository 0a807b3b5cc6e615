"""How far a plate can go towards what its slot is for: energy within the window's limits, protein and price
for its energy."""

from __future__ import annotations

from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FIBRE, PROTEIN
from mealopt.core.slots import Slot
from mealopt.menu.plates import Choice, Part, Plate

#: A plate suits its slot where it can hold this share of the energy that suits the slot.
ENERGY_SHARE = 0.9

#: A main plate suits the day where its protein for its energy can reach this share of the day's.
PROTEIN_SHARE = 0.75


def _most_of(part: Part, key: str) -> float:
    """The most of a nutrient that a part can hold."""
    ends = sorted(choice.per_gram.get(key, 0.0) * choice.most_g for choice in part.choices)[-part.pick[1] :]
    return min(sum(ends), part.grams[1] * max(choice.per_gram.get(key, 0.0) for choice in part.choices))


def energy_within(plate: Plate, limits: dict[str, float]) -> float:
    """An upper bound, kcal, of the plate's energy under each of the limits taken by itself."""
    highest = sum(_most_of(part, ENERGY) for part in plate.parts)
    for key, most in limits.items():
        highest = min(highest, _energy_under(plate, key, most))
    return highest


def _energy_under(plate: Plate, key: str, most: float) -> float:
    """Fill the plate with what brings most energy for the limited nutrient, until the limit is reached."""
    energy, left = 0.0, most
    free = {part.role: part.grams[1] for part in plate.parts}
    offers = [
        (choice.per_gram.get(ENERGY, 0.0) / max(choice.per_gram.get(key, 0.0), 1e-9), part.role, choice)
        for part in plate.parts
        for choice in part.choices
    ]
    for _, role, choice in sorted(offers, key=lambda offer: -offer[0]):
        per = choice.per_gram.get(key, 0.0)
        grams = min(choice.most_g, free[role], left / per if per > 1e-9 else choice.most_g)
        energy += grams * choice.per_gram.get(ENERGY, 0.0)
        free[role] -= grams
        left -= grams * per
    return energy


def protein_per_kcal(plate: Plate) -> float:
    """Grams of protein per kcal where each part is filled with the food that has most protein for its energy."""
    protein = energy = 0.0
    for part in plate.parts:
        if part.pick[0] == 0 and energy > 0:
            continue
        best = max(
            part.choices,
            key=lambda choice: choice.per_gram.get(PROTEIN, 0.0) / max(choice.per_gram.get(ENERGY, 0.0), 0.1),
        )
        rich = best.per_gram.get(PROTEIN, 0.0) > 0.1
        grams = min(best.most_g, part.grams[1]) if rich else max(best.least_g, part.grams[0])
        protein += grams * best.per_gram.get(PROTEIN, 0.0)
        energy += grams * best.per_gram.get(ENERGY, 0.0)
    return protein / energy if energy > 0 else 0.0


def fills_stores(plate: Plate, starch_share: float, fibre_share: float) -> bool:
    """Whether the plate's parts can be filled so that it has as much carbohydrate and as little fibre for its energy as
    is asked for, or makes up for the one by the other. starch_share, fibre_share: grams per kcal.
    """
    trade = starch_share / fibre_share

    def worth(choice: Choice) -> float:
        per = choice.per_gram
        starch, fibre, energy = per.get(CARBOHYDRATE, 0.0), per.get(FIBRE, 0.0), per.get(ENERGY, 0.0)
        return (starch - starch_share * energy) - trade * (fibre - fibre_share * energy)

    total = 0.0
    for part in plate.parts:
        best = max(part.choices, key=worth)
        value = worth(best)
        if value > 0:
            total += value * max(best.least_g, min(best.most_g, part.grams[1]))
        elif part.pick[0] > 0:
            total += value * max(best.least_g, part.grams[0])
    return total >= 0.0


def _rate(choice: Choice) -> float:
    """Money per kcal of a food."""
    return (choice.price_per_gram or 0.0) / max(choice.per_gram.get(ENERGY, 0.0), 0.05)


def price_per_kcal(plate: Plate) -> float:
    """Money per kcal where each part holds its cheapest food, much of it where that lowers the whole and little where
    not; foods without a price count as free. Infinite for a plate without energy.
    """
    offers = []
    for part in plate.parts:
        if part.pick[0] == 0:
            continue
        choice = min(part.choices, key=_rate)
        least, most = max(choice.least_g, part.grams[0]), max(choice.least_g, min(choice.most_g, part.grams[1]))
        energy = choice.per_gram.get(ENERGY, 0.0)
        offers.append((_rate(choice), energy, least, most, choice.price_per_gram or 0.0))
    money = sum(least * price for _, _, least, _, price in offers)
    kcal = sum(least * energy for _, energy, least, _, _ in offers)
    for rate, energy, least, most, price in sorted(offers):
        if kcal > 0 and rate >= money / kcal:
            break
        money, kcal = money + (most - least) * price, kcal + (most - least) * energy
    return money / kcal if kcal > 0 else float("inf")


def misfit(plate: Plate, slot: Slot, protein_wanted: float) -> int:
    """How many of a slot's purposes the plate cannot serve: 0 to 2. protein_wanted: the day's grams per kcal."""
    short = energy_within(plate, slot.limits) < ENERGY_SHARE * slot.energy_aim
    lean = slot.main and protein_per_kcal(plate) < PROTEIN_SHARE * protein_wanted
    return int(short) + int(lean)
