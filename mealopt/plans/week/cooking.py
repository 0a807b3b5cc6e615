"""The cooking sheet: what is cooked on a day for later meals too, how much in all, and for which meals."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from mealopt.documents.plan import Cooking, CookingDay, Meal, PlanDay
from mealopt.menu.dishes import Menu


def cooking_sheet(days: Sequence[PlanDay], menu: Menu) -> tuple[CookingDay, ...]:
    """Days on which a dish is cooked for another day as well, in the plan's order."""
    sheet = []
    for place, day in enumerate(days):
        cooked = [entry for meal in day.meals if (entry := _cooking(day, meal, days[place + 1 :], menu)) is not None]
        if cooked:
            sheet.append(CookingDay(day=day.day, cook=tuple(cooked)))
    return tuple(sheet)


def _cooking(day: PlanDay, meal: Meal, later: Sequence[PlanDay], menu: Menu) -> Cooking | None:
    """A meal with those that are eaten from the same pot later; None where there are none."""
    if meal.cooked_on is not None or meal.dish_id is None:
        return None
    also = [
        (other, again)
        for other in later
        for again in other.meals
        if again.cooked_on == day.day and again.dish_id == meal.dish_id
    ]
    if not also:
        return None
    grams: Counter[str] = Counter()
    for _, one in [(day, meal), *also]:
        for item in one.items:
            grams[item.food] += item.grams  # type: ignore[assignment]
    dish = menu.dishes.get(meal.dish_id)
    return Cooking(
        dish=meal.dish,
        minutes=meal.minutes,
        grams={food: round(amount, 1) for food, amount in grams.items()},
        meals=tuple(f"{where.day} {one.time} {one.slot}" for where, one in [(day, meal), *also]),
        keeps_days=dish.fridge_days if dish is not None else 0,
    )
