"""What each meal holds, as columns that other rules add up."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.core.nutrients import FRUIT_VEGETABLE, UNITS
from mealopt.milp.model import Row
from mealopt.rules.problem import Problem
from mealopt.rules.registry import family
from mealopt.rules.salt import cooked_salt

#: Juice counts once, as one portion of 150 ml at most (WHO healthy diet counts fruit; the share of juice is common
#: practice, no source here).
JUICE_MOST_G = 150.0


@family("sums", unit="")
def sums(problem: Problem) -> Iterator[Row]:
    """Tie each meal's sum columns to its foods (shape: one row a slot and nutrient, one a day for juice).

    Where the day asks for something that is in salt, two to five more a slot for the salt that it is cooked with.
    """
    juice = problem.model.column(0.0, JUICE_MOST_G)
    first = problem.slots[0].index if problem.slots else None
    for slot in problem.slots:
        salt = cooked_salt(problem, slot)
        if salt is not None:
            yield from salt[2]
        for key in problem.keys:
            terms = [*problem.nutrient_terms(slot, key), (problem.sums[slot.index, key], -1.0)]
            if key == FRUIT_VEGETABLE and slot.index == first:
                terms.append((juice, 1.0))
            if salt is not None and key in salt[0]:
                terms.append((salt[1], salt[0][key]))
            yield Row(f"sum_{key}_{slot.index}", tuple(terms), 0.0, 0.0, unit=UNITS.get(key, ""))
    grams = [
        (column, -amount)
        for food in problem.foods()
        if "juice" in food.choice.counts
        for column, amount in food.amounts()
    ]
    yield Row("juice_counts", ((juice, 1.0), *grams), most=0.0, says="juice counts once", unit="g")
