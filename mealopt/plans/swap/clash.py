"""What clashes where no day meets the wishes, and by how much the day falls short with them."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.errors import Unplannable
from mealopt.plans.day.explain import at_slot, in_a_row
from mealopt.plans.day.found import NothingFits
from mealopt.plans.day.must_give import find_least
from mealopt.plans.swap.aims import Aim
from mealopt.plans.swap.wishes import Asked

#: Share of the time for what must give.
SHARE = 0.8


def clash(wanted: Asked, nothing: NothingFits, seconds: float) -> Unplannable:
    """The clash as an error to raise: the wishes, the limits that they clash with, and how far the day falls short."""
    wishes = tuple(_wishes(wanted))
    posed = nothing.posed
    if nothing.empty:
        what = f"nothing that fits this athlete and hour can be served at {in_a_row(nothing.empty)}"
        return Unplannable(f"{posed.day}: with {in_a_row(wishes)}, {what}", (*wishes, what))
    least = find_least(posed, SHARE * seconds, meals_stay=True)
    if least is None or not least.eases:
        what = "no dishes make a day of meals within their sizes, windows before sessions and what may come again"
        return Unplannable(f"{posed.day}: with {in_a_row(wishes)}, {what}", wishes)
    missing = [ease.missing(at_slot(None if ease.slot is None else posed.slots[ease.slot])) for ease in least.eases]
    message = f"{posed.day}: with {in_a_row(wishes)}, no dishes meet all of these: {in_a_row(least.clashes)}"
    return Unplannable(f"{message}: {in_a_row(missing)}", (*wishes, *least.clashes))


def _wishes(wanted: Asked) -> Iterator[str]:
    """The wishes in words."""
    for aim in wanted.aims:
        number = aim.standing.meal.number
        if aim.held and aim.standing.foods:
            yield f"meal {number} held"
        if aim.asked:
            yield from _asked(aim, number)
    for number in wanted.dropped:
        yield f"meal {number} dropped"


def _asked(aim: Aim, number: int) -> Iterator[str]:
    struck = sorted(aim.out & aim.standing.names)
    if struck:
        yield f"no {in_a_row(struck)} in meal {number}"
    if aim.whole and aim.dish is None:
        yield f"another dish for meal {number}"
    if aim.dish is not None:
        yield f"the dish {aim.dish} for meal {number}"
    for one in aim.came:
        grams = "" if one.grams is None else f"{one.grams:g} g of "
        yield f"{grams}{' or '.join(sorted(one.names))} in meal {number}"
