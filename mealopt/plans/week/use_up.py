"""Foods that want to be eaten this week: their words checked."""

from __future__ import annotations

from collections.abc import Mapping

from mealopt.errors import BadInput
from mealopt.menu.dishes import Menu
from mealopt.people.case import Case
from mealopt.plans.day.pose import food_filter
from mealopt.rules.weekly.use_up import is_of
from mealopt.table.find import nearest


def checked_use_up(case: Case, menu: Menu, asked: Mapping[str, float]) -> dict[str, float]:
    """Word -> grams as bought. Raises BadInput for a word that no food goes by, or none that the athlete eats."""
    eater = food_filter(case)
    for word in asked:
        foods = [food for food in menu.pantry.foods.values() if is_of(word, food.name, food.kin)]
        if not foods:
            raise BadInput(f"--use-up: {word!r} is no food of the pantry{nearest(word, menu.pantry)}")
        eaten = (
            food.name not in eater.never and not eater.refuses(food.diet, frozenset(food.allergens)) for food in foods
        )
        if not any(eaten):
            raise BadInput(
                f"--use-up: {word!r} is left out by the case's own kitchen; a food that is eaten is expected"
            )
    return dict(asked)
