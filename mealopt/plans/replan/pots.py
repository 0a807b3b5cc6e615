"""Meals of a week that are cooked together on one day and eaten on several: what a change of one day does to them."""

from __future__ import annotations

from collections.abc import Sequence

from mealopt.core.clock import on_the_clock
from mealopt.documents.plan import Meal, Plan, PlanDay
from mealopt.menu.dishes import Menu


def later_days(plan: Plan, entry: PlanDay) -> tuple[PlanDay, ...]:
    """The days of the plan after this one, in its order."""
    place = next(index for index, one in enumerate(plan.days) if one.day == entry.day)
    return plan.days[place + 1 :]


def from_one_pot(plan: Plan, entry: PlanDay) -> frozenset[str]:
    """Times of the day's meals that come out of an earlier day's pot, or are cooked for a later day too."""
    later = [meal for day in later_days(plan, entry) for meal in day.meals if meal.cooked_on == entry.day]
    dishes = {meal.dish_id for meal in later}
    return frozenset(
        meal.time for meal in entry.meals if meal.cooked_on is not None or (meal.dish_id and meal.dish_id in dishes)
    )


def without_a_pot(plan: Plan, day: PlanDay, menu: Menu) -> tuple[Plan, tuple[str, ...]]:
    """The plan with later meals, whose pot of this day is not cooked, cooked on their own day; and words for each."""
    cooked = {meal.dish_id for meal in day.meals if meal.cooked_on is None}
    words: list[str] = []
    later = {one.day for one in later_days(plan, day)}

    def fresh(entry: PlanDay, meal: Meal) -> Meal:
        if entry.day not in later or meal.cooked_on != day.day or meal.dish_id in cooked:
            return meal
        at = on_the_clock(meal.time)
        words.append(f"{meal.dish} on {entry.day} at {at} is cooked on {entry.day}: {day.day} has no pot of it")
        dish = menu.dishes.get(meal.dish_id or "")
        return meal.model_copy(update={"cooked_on": None, "minutes": meal.minutes if dish is None else dish.minutes})

    days: Sequence[PlanDay] = [
        one.model_copy(update={"meals": tuple(fresh(one, meal) for meal in one.meals)}) for one in plan.days
    ]
    return plan.model_copy(update={"days": tuple(days)}), tuple(words)
