"""The salt that meals are cooked with, as whole tenths of a gram: what a plan document adds to a dish when written."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.core.slots import Slot
from mealopt.menu.salting import LEAST_TENTHS, MOST_TENTHS, TIE
from mealopt.milp.model import Row, Term
from mealopt.rules.problem import Problem, Serving

#: Half a tenth less so much is rounded down, half a tenth up.
_DOWN = 0.5 - 10.0 * TIE


def cooked_salt(problem: Problem, slot: Slot) -> tuple[dict[str, float], int, list[Row]] | None:
    """Nutrients in a tenth of a gram of salt, the column of the slot's tenths, and the rows that tie it to the foods.

    None where the slot's dishes take no salt, or nothing that the day asks for is in salt.
    """
    salted = [one for one in problem.servings[slot.index] if one.plate.salt]
    if not salted:
        return None
    holds = {key: 0.1 * amount for key, amount in salted[0].plate.salt.items() if amount and key in problem.keys}
    if not holds:
        return None
    tenths = problem.model.column(0, MOST_TENTHS, whole=True)
    return holds, tenths, list(_rows(problem, slot, salted, tenths))


def _rows(problem: Problem, slot: Slot, salted: list[Serving], tenths: int) -> Iterator[Row]:
    """Tenths are the dish's share of its foods rounded, none under the least that is tasted, and no more than the most
    (shape: two to five rows a slot)."""
    share = tuple(
        term for one in salted for food in one.foods for term in food.amounts(-one.plate.dish.salt_percent / 10.0)
    )
    least = min(_tenths(one, 0) for one in salted)
    most = max(_tenths(one, 1) for one in salted)
    below: list[Term] = [(tenths, 1.0), *share]
    at_least = -_DOWN
    yield Row(f"salt_{slot.index}_most", ((tenths, 1.0), *share), most=0.5)
    if most > MOST_TENTHS:
        full = problem.model.column(0, 1, whole=True)
        below.append((full, most - MOST_TENTHS))
        yield Row(f"salt_{slot.index}_full", ((tenths, 1.0), (full, -float(MOST_TENTHS))), least=0.0)
    if least < LEAST_TENTHS - 0.5:
        tasted = problem.model.column(0, 1, whole=True)
        below.append((tasted, -(LEAST_TENTHS - 1.0)))
        at_least -= LEAST_TENTHS - 1.0
        yield Row(f"salt_{slot.index}_tasted", ((tenths, 1.0), (tasted, -float(LEAST_TENTHS))), least=0.0)
        yield Row(f"salt_{slot.index}_none", ((tenths, 1.0), (tasted, -float(MOST_TENTHS))), most=0.0)
    yield Row(f"salt_{slot.index}_least", tuple(below), least=at_least)


def _tenths(serving: Serving, end: int) -> float:
    """The least or the most that a dish's share can be, in tenths of a gram."""
    parts = (part for part in serving.plate.parts if end or part.pick[0])
    return sum(part.grams[end] for part in parts) * serving.plate.dish.salt_percent / 10.0
