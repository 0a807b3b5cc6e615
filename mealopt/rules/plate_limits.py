"""What a slot asks of its meal, asked of each plate that may be served there.

Implied by the slot's own rows once one plate is served; written out so that the linear program cannot meet a limit by
serving half of one plate and half of another. Left out where a clash is explained.
"""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, PROTEIN
from mealopt.core.slots import Slot
from mealopt.milp.model import Row, Term
from mealopt.rules.meal_energy import most_grams
from mealopt.rules.problem import Problem, Serving
from mealopt.rules.registry import family

NAME = "limits of a plate"


@family(NAME)
def plate_limits(problem: Problem) -> Iterator[Row]:
    """Hold each plate within what its slot asks for (shape: a row a plate, nutrient and side that it could break)."""
    for slot in problem.slots:
        sides = tuple(_asked(slot))
        for serving in problem.servings[slot.index]:
            name = f"plate_{serving.plate.dish.id}_{slot.index}"
            for key, least, most in sides:
                yield from _held(serving, f"{name}_{key}", key, least, most)
            if slot.kind != "during":
                yield from _held(serving, f"{name}_grams", "", 0.0, most_grams(slot))


def _asked(slot: Slot) -> Iterator[tuple[str, float, float | None]]:
    """(nutrient, least, most) that the slot asks of its meal."""
    yield ENERGY, slot.energy_least, slot.energy_most
    for key, most in slot.limits.items():
        yield key, 0.0, most
    if slot.protein_least > 0:
        yield PROTEIN, slot.protein_least, None
    if slot.carbohydrate_least > 0 or slot.carbohydrate_most is not None:
        yield CARBOHYDRATE, slot.carbohydrate_least, slot.carbohydrate_most


def _held(serving: Serving, name: str, key: str, least: float, most: float | None) -> Iterator[Row]:
    lowest, highest = _reach(serving, key)
    if least > lowest + 1e-9:
        yield Row(f"{name}_least", (*_terms(serving, key), (serving.served, -least)), least=0.0)
    if most is not None and highest > most + 1e-9:
        yield Row(f"{name}_most", (*_terms(serving, key), (serving.served, -most)), most=0.0)


def _terms(serving: Serving, key: str) -> tuple[Term, ...]:
    return tuple(
        term
        for food in serving.foods
        if (amount := food.choice.per_gram.get(key, 0.0) if key else 1.0)
        for term in food.amounts(amount)
    )


def _reach(serving: Serving, key: str) -> tuple[float, float]:
    """The least and most that the plate could hold by its parts alone."""
    lowest = highest = 0.0
    for part in serving.parts:
        per = [(food.choice.per_gram.get(key, 0.0) if key else 1.0, food.choice) for food in part.foods]
        fewest, most = part.part.pick
        ends = sorted(amount * choice.most_g for amount, choice in per)[-most:]
        highest += min(sum(ends), part.part.grams[1] * max(amount for amount, _ in per))
        lowest += sum(sorted(amount * choice.least_g for amount, choice in per)[:fewest])
    return lowest, highest
