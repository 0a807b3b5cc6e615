"""A changed day written into its plan document; what did not change stays as it was written."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from mealopt.core.nutrients import FRUIT_VEGETABLE
from mealopt.documents.plan import Meal, Plan, PlanDay, SkippedMeal
from mealopt.menu.dishes import Menu
from mealopt.milp.answer import Answer, Status
from mealopt.plans.day.document import plan_day_entry, solve_entry
from mealopt.plans.day.found import SolvedDay
from mealopt.plans.own import own_table
from mealopt.plans.swap.wishes import Asked
from mealopt.plans.week.refresh import refreshed
from mealopt.recheck.check import assert_plan
from mealopt.rules.problem import Problem


@dataclass(frozen=True, slots=True)
class Found:
    """What the search found. penalty: the day's own; bound: no plan of the day is below it, None where not known.

    proven: as the search says of itself in `says`.
    """

    problem: Problem
    answer: Answer
    penalty: float
    bound: float | None
    proven: bool
    says: str
    seconds: float


def rewritten(asked: Asked, found: Found) -> Plan:
    """The plan with the day as it was found, rechecked. Raises BrokenPlan."""
    day = asked.day
    answer = replace(
        found.answer,
        status=Status.OPTIMAL if found.proven else Status.LIMIT,
        objective=found.penalty,
        bound=float("-inf") if found.bound is None else min(found.bound, found.penalty),
    )
    model = found.problem.model
    solve = solve_entry(answer, len(model.rows), model.columns, found.seconds).model_copy(update={"says": found.says})
    solved = SolvedDay(day.posed, found.problem, answer, found.seconds)
    entry = _entry(asked, plan_day_entry(solved, solve))
    days = untied(day.plan.days, day.entry, entry, day.wide.menu)
    plan = day.plan.model_copy(update={"days": days} | ({"solve": solve} if day.plan.kind == "day" else {}))
    menu = day.wide.menu
    if plan.kind == "week" or plan.groceries:
        plan = refreshed(plan, menu)
    assert_plan(plan, menu.pantry.composition, menu.pantry, own_table(menu))
    return plan


def _entry(asked: Asked, entry: PlanDay) -> PlanDay:
    before = asked.day.entry
    meals = tuple(_as_it_was(meal, standing.meal) for meal, standing in zip(entry.meals, asked.day.meals, strict=True))
    gone = [meal for meal in before.meals if meal.number in asked.dropped]
    unfuelled = {meal.time for meal in gone if meal.slot == "during"}
    sessions = tuple(one.model_copy(update={"fuel": None}) if one.start in unfuelled else one for one in entry.sessions)
    skipped = [SkippedMeal(number=one.number, slot=one.slot, time=one.time, ends=one.ends) for one in gone]
    return entry.model_copy(
        update={
            "sessions": sessions,
            "meals": meals,
            "skipped": tuple(sorted((*before.skipped, *skipped), key=lambda one: one.number)),
            "struck": asked.struck,
            "notes": tuple(dict.fromkeys((*before.notes, *entry.notes))) if before.skipped else entry.notes,
        }
    )


def untied(days: Sequence[PlanDay], before: PlanDay, after: PlanDay, menu: Menu) -> tuple[PlanDay, ...]:
    """The days with the changed one; a later meal that was to come from a changed pot is cooked on its own day."""
    pots = {(before.day, dish) for dish in changed_pots(before, after)}

    def mended(day: PlanDay) -> PlanDay:
        meals = tuple(on_its_day(meal, menu) if (meal.cooked_on, meal.dish_id) in pots else meal for meal in day.meals)
        return day if meals == day.meals else day.model_copy(update={"meals": meals})

    return tuple(after if one.day == after.day else mended(one) for one in days)


def on_its_day(meal: Meal, menu: Menu) -> Meal:
    """A meal from an earlier day's pot, cooked on its own day instead."""
    dish = menu.dishes.get(meal.dish_id or "")
    notes = tuple(note for note in meal.notes if not note.startswith(f"cooked on {meal.cooked_on}"))
    minutes = meal.minutes if dish is None else dish.minutes
    return meal.model_copy(update={"cooked_on": None, "notes": notes, "minutes": minutes})


def changed_pots(before: PlanDay, after: PlanDay) -> set[str]:
    """Ids of the dishes that the day was to cook and now cooks otherwise or not at all."""
    left = {meal.number: meal for meal in after.meals}
    return {
        meal.dish_id
        for meal in before.meals
        if meal.dish_id is not None and meal.cooked_on is None and not _same(left.get(meal.number), meal)
    }


def _same(after: Meal | None, before: Meal) -> bool:
    return after is not None and after.dish_id == before.dish_id and same_items(after, before)


def _as_it_was(meal: Meal, before: Meal) -> Meal:
    """The meal with its number of the document; the document's own where it holds the same."""
    if _same(meal, before):
        counted = meal.totals.get(FRUIT_VEGETABLE)
        if counted is None or counted == before.totals.get(FRUIT_VEGETABLE):
            return before
        # Juice counts once a day: with juice in an earlier meal, or none there any more, this one counts otherwise.
        return before.model_copy(update={"totals": {**before.totals, FRUIT_VEGETABLE: counted}})
    return meal.model_copy(update={"number": before.number})


def same_items(one: Meal, other: Meal) -> bool:
    """Whether two meals hold the same foods to the gram."""
    return _weights(one) == _weights(other)


def _weights(meal: Meal) -> Sequence[tuple[str, float]]:
    return sorted((item.food, round(item.grams, 1)) for item in meal.items)
