"""How much one meal may be: energy and weight."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.core.nutrients import ENERGY
from mealopt.core.slots import Slot
from mealopt.milp.model import Row
from mealopt.rules.problem import Problem, Serving
from mealopt.rules.registry import family

#: A plate that somebody finishes: grams of a main meal and of any other (project's assumption).
MAIN_MOST_G = 900.0
OTHER_MOST_G = 650.0

#: A meal whose foods are given weighs what it weighs: 30 foods of 2 kg are the most that a case may write.
GIVEN_MOST_G = 60_000.0


def most_grams(slot: Slot) -> float:
    """Grams that a meal of this slot may weigh."""
    return GIVEN_MOST_G if slot.given else MAIN_MOST_G if slot.main else OTHER_MOST_G


@family("size of a meal", unit="kcal")
def meal_energy(problem: Problem) -> Iterator[Row]:
    """Hold each meal's energy and weight (shape: two rows a slot, and one or two a plate that could leave its own)."""
    for slot in problem.slots:
        says = f"{slot.label}: {slot.energy_least:.0f} to {slot.energy_most:.0f} kcal"
        terms = (problem.sum_of(slot, ENERGY),)
        yield Row(f"energy_{slot.index}", terms, slot.energy_least or None, slot.energy_most, says=says)
        if slot.kind != "during":
            most = most_grams(slot)
            grams = tuple(term for food in problem.foods([slot]) for term in food.amounts())
            yield Row(f"grams_{slot.index}", grams, most=most, says=f"{slot.label}: at most {most:.0f} g", unit="g")
    for serving in problem.all_servings:
        yield from _plate_energy(serving)


def _plate_energy(serving: Serving) -> Iterator[Row]:
    least, most = serving.plate.dish.energy
    name = f"{serving.plate.dish.id}_{serving.slot.index}"
    terms = tuple(term for food in serving.foods for term in food.amounts(food.choice.per_gram.get(ENERGY, 0.0)))
    says = f"{serving.plate.dish.id}: {least:.0f} to {most:.0f} kcal a plate"
    lowest = highest = 0.0
    for part in serving.parts:
        per = [food.choice.per_gram.get(ENERGY, 0.0) for food in part.foods]
        highest += part.part.grams[1] * max(per)
        lowest += part.part.grams[0] * min(per) if part.part.pick[0] else 0.0
    if lowest < max(least, serving.slot.energy_least):
        yield Row(f"{name}_energy_least", (*terms, (serving.served, -least)), least=0.0, says=says)
    if highest > most and most < serving.slot.energy_most:
        yield Row(f"{name}_energy_most", (*terms, (serving.served, -most)), most=0.0, says=says)
