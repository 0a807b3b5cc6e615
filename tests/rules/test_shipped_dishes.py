"""Every dish of the shipped menu, at random amounts: its rows hold where its own words do, and nowhere else.

The words are read again here, from the dish's file and the pantry, by plain arithmetic that knows no column.
"""

from __future__ import annotations

import math
import random
from collections import Counter
from collections.abc import Iterator

import pytest

from mealopt.core.filters import FoodFilter
from mealopt.core.slots import Slot
from mealopt.menu.dishes import Component, Dish, shipped_menu
from mealopt.menu.plates import Larder, Plate, plate
from mealopt.milp.answer import Status
from mealopt.milp.highs import Highs
from mealopt.milp.model import Row
from mealopt.rules.problem import Problem, Serving, Wishes
from tests.rules import tiny

MENU = shipped_menu()
FILTERS = {
    "everything": FoodFilter(),
    "vegan": FoodFilter(diet="vegan"),
    "no gluten, milk or nuts": FoodFilter(gluten_free=True, avoid_allergens=frozenset({"milk", "nuts", "peanuts"})),
    "no fish, eggs or soya": FoodFilter(avoid_allergens=frozenset({"fish", "eggs", "soybeans", "sesame"})),
}

#: Role -> food -> grams; only what is there.
Amounts = dict[str, dict[str, float]]


def any_slot(kind: str) -> Slot:
    """A meal of this kind that limits nothing."""
    return tiny.slot(0, kind, energy_most=20000.0)


def plates(foods: FoodFilter) -> Iterator[Plate]:
    """Each dish as it stands for this eater, in the first kind of meal that it suits."""
    larder = Larder(MENU, foods)
    for dish in MENU.dishes.values():
        found = plate(dish, any_slot(dish.slots[0]), larder)
        if found is not None:
            yield found


def complaints(dish: Dish, eaten: Amounts) -> list[str]:
    """What in these amounts is against the dish's words or the pantry's limits of one meal."""
    found = [
        f"{name}: {grams:g} g"
        for foods in eaten.values()
        for name, grams in foods.items()
        if not _kitchen_amount(name, grams)
    ]
    for component in dish.component:
        found += _of_component(component, eaten.get(component.role, {}))
    totals = {role: sum(foods.values()) for role, foods in eaten.items() if foods}
    for ratio in dish.ratio:
        if ratio.of in totals and ratio.to in totals:
            share = totals[ratio.of] / totals[ratio.to]
            if not ratio.least - 1e-9 <= share <= ratio.most + 1e-9:
                found.append(f"{ratio.of} is {share:g} times {ratio.to}")
    there = {name for foods in eaten.values() for name in foods}
    found += [f"together: {group}" for group in dish.apart if len(there & set(group)) > 1]
    return found


def _kitchen_amount(name: str, grams: float) -> bool:
    """Whole kitchen steps, between what makes sense at all and what one meal may hold (at least one least amount)."""
    food = MENU.pantry.foods[name]
    steps = grams / food.step_g
    most = max(food.most_meal_g, math.ceil(max(food.least_g, food.step_g) / food.step_g - 1e-9) * food.step_g)
    return abs(steps - round(steps)) < 1e-9 and food.least_g - 1e-9 <= grams <= most + 1e-9


def _of_component(component: Component, foods: dict[str, float]) -> list[str]:
    found = [f"{name} is no {component.role}" for name in foods if name not in component.foods]
    if not component.pick[0] <= len(foods) <= component.pick[1]:
        found.append(f"{len(foods)} foods as {component.role}")
    total = sum(foods.values())
    if foods and not component.grams[0] - 1e-9 <= total <= component.grams[1] + 1e-9:
        found.append(f"{total:g} g of {component.role}")
    return found


def random_point(serving: Serving, chance: random.Random, columns: int) -> list[float]:
    """Whole numbers within the columns' bounds; picks and steps mostly, not always, of a sensible number."""
    values = [0.0] * columns
    values[serving.served] = 1.0
    for part in serving.parts:
        count = chance.randint(*part.part.pick) if chance.random() < 0.9 else chance.randint(0, len(part.foods))
        chosen = chance.sample(part.foods, min(count, len(part.foods)))
        low = chance.random() < 0.5
        for food in part.foods:
            if food in chosen and food.used != serving.served:
                values[food.used] = 1.0
            if food.more is not None and values[food.used]:
                span = food.choice.steps[1] - food.choice.steps[0]
                values[food.more] = float(chance.randint(0, max(1, span // 3) if low else span))
    return values


def amounts(serving: Serving, values: list[float]) -> Amounts:
    """The point in grams."""
    return {
        part.part.role: {food.choice.name: food.grams(values) for food in part.foods if values[food.used]}
        for part in serving.parts
    }


def broken(rows: list[Row], values: list[float]) -> list[str]:
    return [
        row.name
        for row in rows
        if (row.least is not None and row.activity(values) < row.least - 1e-6)
        or (row.most is not None and row.activity(values) > row.most + 1e-6)
    ]


@pytest.mark.parametrize("foods", FILTERS.values(), ids=FILTERS)
def test_the_rows_of_a_dish_are_its_words(foods: FoodFilter) -> None:
    chance = random.Random(7)
    seen: Counter[bool] = Counter()
    possible: set[str] = set()
    dishes = 0
    for made in plates(foods):
        dishes += 1
        problem = Problem((any_slot(made.dish.slots[0]),), ((made,),), {}, Wishes())
        ((serving,),) = problem.servings
        rows = list(tiny.entry("dish").rows(problem))
        for _ in range(40):
            values = random_point(serving, chance, problem.model.columns)
            said = complaints(made.dish, amounts(serving, values))
            assert bool(said) == bool(broken(rows, values)), (made.dish.id, amounts(serving, values), said)
            seen[not said] += 1
            if not said:
                possible.add(made.dish.id)
    assert dishes > 100
    assert min(seen[True], seen[False]) > dishes, "the amounts tried are one-sided"
    assert len(possible) > 0.8 * dishes


def test_nothing_of_a_dish_without_the_dish() -> None:
    """Where it is not served, no food of it may be used, and none of them counted in steps."""
    for made in plates(FoodFilter()):
        problem = Problem((any_slot(made.dish.slots[0]),), ((made,),), {}, Wishes())
        ((serving,),) = problem.servings
        rows = list(tiny.entry("dish").rows(problem))
        nothing = [0.0] * problem.model.columns
        assert broken(rows, nothing) == []
        for food in serving.foods:
            for column in {food.used, food.more} - {serving.served, None}:
                spoilt = list(nothing)
                spoilt[column or 0] = 1.0
                assert broken(rows, spoilt), (made.dish.id, food.choice.name)


def test_every_dish_can_be_served_as_it_is_written() -> None:
    """For an eater of everything each dish has amounts that its words, its energy and its ratios allow together."""
    stuck = []
    for made in plates(FoodFilter()):
        problem = Problem((any_slot(made.dish.slots[0]),), ((made,),), {}, Wishes())
        for name in ("sums", "one plate a meal", "dish", "size of a meal"):
            problem.model.rows += list(tiny.entry(name).rows(problem))
        found = Highs(problem.model).solve()
        if found.status is not Status.OPTIMAL:
            stuck.append(made.dish.id)
            continue
        ((serving,),) = problem.servings
        values = [float(round(value)) for value in found.values]
        assert complaints(made.dish, amounts(serving, values)) == []
    assert stuck == []
