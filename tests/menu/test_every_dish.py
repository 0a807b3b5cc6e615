"""Every dish, cooked at its least, in the middle and at its most, and each of its foods used once."""

from __future__ import annotations

import pytest

from mealopt.core.nutrients import ENERGY, FRUIT_VEGETABLE, PROTEIN
from mealopt.menu.dishes import Dish, shipped_menu
from tests.menu.cooked import Cooked, Kitchen

MENU = shipped_menu()
DISHES = list(MENU.dishes.values())
MAINS = [dish for dish in DISHES if {"lunch", "dinner"} & set(dish.slots)]

#: kcal that the largest plate may hold, by the slots that a dish is for (the design, section 9).
MOST_KCAL = {"main": 1200.0, "snack": 600.0, "after": 950.0}


def most_kcal(dish: Dish) -> float:
    """What the design lets one plate of this dish hold."""
    slots = set(dish.slots)
    if {"breakfast", "lunch", "dinner"} & slots:
        return MOST_KCAL["main"]
    return MOST_KCAL["after" if "after" in slots else "snack"]


def complaints(cooked: Cooked) -> list[str]:
    """What is wrong with a plate, by plain arithmetic on the dish's own words."""
    dish, found = cooked.dish, []
    for (role, name), grams in cooked.grams.items():
        food = MENU.pantry.foods[name]
        steps = grams / food.step_g
        if abs(steps - round(steps)) > 1e-6 or not food.least_g - 1e-6 <= grams <= food.most_meal_g + 1e-6:
            found.append(f"{role}: {grams:g} g of {name}")
    for part in dish.component:
        count = sum(role == part.role for role, _ in cooked.grams)
        if not part.pick[0] <= count <= part.pick[1]:
            found.append(f"{count} foods as {part.role}")
        if count and not part.grams[0] - 1e-6 <= cooked.of(part.role) <= part.grams[1] + 1e-6:
            found.append(f"{cooked.of(part.role):g} g of {part.role}")
    for ratio in dish.ratio:
        of, to = cooked.of(ratio.of), cooked.of(ratio.to)
        if of and to and not ratio.least * to - 1e-6 <= of <= ratio.most * to + 1e-6:
            found.append(f"{ratio.of} is {of / to:g} times {ratio.to}")
    there = {name for _, name in cooked.grams}
    found += [f"together: {group}" for group in dish.apart if len(there & set(group)) > 1]
    energy = sum(
        MENU.pantry.row(MENU.pantry.foods[name]).per_100g[ENERGY] * grams / 100.0
        for (_, name), grams in cooked.grams.items()
    )
    if not dish.energy[0] - 1e-3 <= energy <= dish.energy[1] + 1e-3:
        found.append(f"{energy:g} kcal")
    return found


@pytest.mark.parametrize("dish", DISHES, ids=lambda dish: dish.id)
def test_it_cooks_at_its_least_middle_and_most(dish: Dish) -> None:
    kitchen = Kitchen(dish, MENU)
    middle = sum(dish.energy) / 2.0
    near = (0.95 * middle, 1.05 * middle)
    plates = (kitchen.cook(ENERGY, 1.0), kitchen.cook(ENERGY, near=near), kitchen.cook(ENERGY, -1.0))
    amounts = []
    for cooked in plates:
        assert cooked is not None, "no plate within its own limits"
        assert complaints(cooked) == []
        amounts.append(cooked.amount(ENERGY))
    least, _, most = amounts
    assert least <= 1.15 * dish.energy[0], f"its least plate holds {least:.0f} kcal"
    assert most >= 0.9 * dish.energy[1], f"its largest plate holds {most:.0f} kcal"
    assert dish.energy[1] <= most_kcal(dish)


def used_by(kitchen: Kitchen, wanted: set[tuple[str, str]]) -> set[tuple[str, str]]:
    """Of these (role, food), those that some plate of this eater holds."""
    if kitchen.found is None:
        return set()
    engine = kitchen.engine()
    seen: set[tuple[str, str]] = set()
    for part in kitchen.serving.parts:
        for food in part.foods:
            where = (part.part.role, food.choice.name)
            if where in seen or where not in wanted:
                continue
            if food.used != kitchen.serving.served:
                engine.set_least(food.used, 1.0)
            cooked = kitchen.read(engine)
            engine.set_least(food.used, 0.0)
            if cooked is not None:
                seen |= set(cooked.grams)
    return seen


@pytest.mark.parametrize("dish", DISHES, ids=lambda dish: dish.id)
def test_each_of_its_foods_can_be_used(dish: Dish) -> None:
    listed = {(part.role, name) for part in dish.component for name in part.foods}
    kitchen = Kitchen(dish, MENU)
    assert listed - used_by(kitchen, listed) == set()


@pytest.mark.parametrize("dish", MAINS, ids=lambda dish: dish.id)
def test_a_main_meal_has_protein_and_vegetables(dish: Dish) -> None:
    """0.25 g/kg of protein for 115 kg is 29 g; 80 g is one portion of fruit or vegetables.

    The portion: WHO, Healthy diet: 400 g a day, five portions; the protein: the plan's own least of a main meal.
    """
    kitchen = Kitchen(dish, MENU)
    protein, produce = kitchen.cook(PROTEIN, -1.0), kitchen.cook(FRUIT_VEGETABLE, -1.0)
    assert protein is not None
    assert protein.amount(PROTEIN) >= 29.0
    assert produce is not None
    assert produce.amount(FRUIT_VEGETABLE) >= 80.0


def test_most_main_meals_never_go_without_a_portion_of_vegetables() -> None:
    """Sandwiches and what is eaten before sessions may hold less; three in four of the others may not."""
    others = [
        dish
        for dish in MAINS
        if "before" not in dish.slots and dish.kind not in ("sandwich", "open sandwich", "stuffed pitta", "wrap")
    ]
    holds = 0
    for dish in others:
        cooked = Kitchen(dish, MENU).cook(FRUIT_VEGETABLE, 1.0)
        assert cooked is not None
        holds += cooked.amount(FRUIT_VEGETABLE) >= 75.0
    assert holds >= 0.75 * len(others)
