"""Every dish is for some athlete: it lies on the card of a made-up day, and fits that meal in whole steps."""

from __future__ import annotations

from mealopt.core.nutrients import ENERGY, PROTEIN
from mealopt.core.slots import Slot
from mealopt.menu.dishes import Dish, shipped_menu
from mealopt.people.reading import case_from_dict
from mealopt.plans.day.pose import PosedDay, pose_day
from tests.menu.cooked import Kitchen
from tests.plans.random_cases import KINDS, make

MENU = shipped_menu()

#: Days looked at, at most; each kind of eater in turn.
DAYS = 24


def fits(dish: Dish, slot: Slot, posed: PosedDay) -> bool:
    """Whether whole steps of the dish meet the meal's energy, window and protein."""
    limits = {key: most for key, most in slot.limits.items() if key != ENERGY}
    kitchen = Kitchen(dish, MENU, posed.larder.filter, limits, slot.energy_least)
    if kitchen.found is None:
        return False
    plate = kitchen.cook(ENERGY, near=(slot.energy_least, slot.energy_most))
    if plate is None or slot.protein_least <= 0:
        return plate is not None
    richest = kitchen.cook(PROTEIN, -1.0)
    return richest is not None and richest.amount(PROTEIN) >= slot.protein_least


def test_every_dish_is_for_somebody() -> None:
    waiting = set(MENU.dishes)
    for number in range(DAYS):
        case = case_from_dict(make(number, KINDS[number % len(KINDS)]), "random")
        posed = pose_day(case, "tue")
        card = posed.card()
        card.deal(10_000)
        for slot, plates in zip(posed.slots, card.plates, strict=True):
            for plate in plates:
                if plate.dish.id in waiting and fits(plate.dish, slot, posed):
                    waiting.discard(plate.dish.id)
        if not waiting:
            break
    assert waiting == set()
