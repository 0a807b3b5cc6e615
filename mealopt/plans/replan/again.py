"""A day that was planned anew, posed once more as it stands: what swaps and questions then begin with."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from mealopt.core.bands import Band
from mealopt.core.clock import clock, minutes_of
from mealopt.documents.plan import Meal, PlanDay, Solve
from mealopt.errors import BadInput
from mealopt.people.case import Case
from mealopt.plans.day.document import SALT, chosen_foods, meal_entry
from mealopt.plans.day.pose import PosedDay
from mealopt.plans.day.solve import SolvedDay
from mealopt.plans.held.standing import StandingMeal
from mealopt.plans.replan.anew import Asked, band_of, pose_anew
from mealopt.plans.replan.document import off_bands, written_day
from mealopt.plans.replan.near import lift
from mealopt.plans.replan.past import GivenMeal, is_beside
from mealopt.plans.replan.rest import first_planned
from mealopt.rules.problem import Problem
from mealopt.targets.day import day_targets


def posed_again(case: Case, entry: PlanDay, where: str) -> PosedDay:
    """The day as a problem: what is past stands, each other meal keeps its time, and no number gets worse.

    Raises BadInput where its meals are not those that its case and its sessions give; Refused as planning does.
    """
    given = [GivenMeal(meal, extra=is_beside(meal)) for meal in entry.meals]
    day = pose_anew(
        Asked(
            case=case,
            entry=entry,
            targets=day_targets(case, entry.day),
            bands=band_of(entry),
            now=minutes_of(entry.now or "00:00"),
            past=tuple(one for one in given if one.meal.eaten),
            rest=tuple(one for one in given if not one.meal.eaten),
            free=False,
        )
    )
    laid = [(clock(slot.start), clock(slot.end)) for slot in day.posed.slots]
    if laid != [(meal.time, meal.ends) for meal in entry.meals]:
        raise BadInput(f"{where}, {entry.day}: read meals that its sessions do not give; another replan is expected")
    bands = {key: _as_it_is(band, entry.totals.get(key, 0.0)) for key, band in day.posed.bands.items()}
    # What the eater and the kitchen wish for over a whole day may be past keeping; it is not asked of the rest.
    wishes = replace(
        day.posed.wishes,
        minutes_most=max(day.posed.wishes.minutes_most, float(sum(meal.minutes for meal in entry.meals))),
        budget=None,
        whole_food_share=0.0,
        added_sugar_share=1.0,
        produce_kinds=0,
    )
    return replace(day.posed, bands=bands, wishes=wishes, anew=entry)


def _as_it_is(band: Band, value: float) -> Band:
    """The band, widened to the value where that lies outside."""
    least = None if band.least is None else min(band.least, value)
    most = None if band.most is None else max(band.most, value)
    return Band(least, band.aim, most)


def let_stand(problem: Problem, meals: Sequence[StandingMeal]) -> None:
    """What was eaten and what stands may stand together, whatever comes again in it."""
    lift(problem, {one.index: one for one in meals if one.foods})


def entry_again(solved: SolvedDay, solve: Solve, before: PlanDay) -> PlanDay:
    """The day of the document after a change of what was still to come. before: the day as it was."""
    posed, values = solved.posed, solved.answer.values
    menu = posed.larder.menu
    standing = {(meal.time, meal.ends): meal for meal in before.meals}
    salted = SALT not in posed.case.kitchen.never
    meals: list[Meal] = []
    for slot, options in zip(posed.slots, solved.problem.servings, strict=True):
        old = standing[clock(slot.start), clock(slot.end)]
        if slot.given:
            meals.append(old)
            continue
        serving = next(one for one in options if round(values[one.served]) == 1)
        chosen = chosen_foods(serving, values, menu.pantry, salted)
        meal = meal_entry(slot, serving.plate.dish, chosen, {}, menu.pantry)
        meals.append(meal.model_copy(update={"planned": {} if slot.kind == "during" else first_planned(old)}))
    written = written_day(meals, before.skipped, menu)
    offs = off_bands(written.totals, band_of(before))
    shares = solved.problem.shares(values)
    return before.model_copy(
        update={
            "meals": written.meals,
            "totals": written.totals,
            "coverage": written.coverage,
            "missed": tuple(dict.fromkeys(one.key for one in offs)),
            "penalty": {term: round(points, 2) for term, points in shares.items() if points >= 0.005},
            "solve": solve,
        }
    )
