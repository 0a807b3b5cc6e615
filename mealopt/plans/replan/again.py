"""A day that was planned anew, posed once more as it stands: what swaps and questions then begin with."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from mealopt.core.bands import Band
from mealopt.core.clock import clock, minutes_of
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, PROTEIN
from mealopt.core.slots import Slot
from mealopt.documents.plan import Meal, PlanDay, Solve
from mealopt.errors import BadInput
from mealopt.menu.plates import Choice
from mealopt.people.case import Case
from mealopt.plans.day.document import SALT, chosen_foods, meal_entry
from mealopt.plans.day.found import SolvedDay
from mealopt.plans.day.pose import PosedDay
from mealopt.plans.held.standing import StandingDay, StandingMeal
from mealopt.plans.replan.anew import Asked, band_of, pose_anew
from mealopt.plans.replan.document import written_day
from mealopt.plans.replan.near import lift
from mealopt.plans.replan.off import off_bands, off_own
from mealopt.plans.replan.past import GivenMeal, is_beside
from mealopt.plans.replan.rest import first_planned
from mealopt.rules.problem import Problem, Wishes
from mealopt.targets.day import day_targets

#: What rounding may add to a share or a price that stands, and as a share to a total.
ROUNDED = 1e-4


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
    own = tuple(
        replace(one, band=_as_it_is(one.band, entry.meals[one.slot].totals.get(one.key, 0.0))) for one in day.posed.own
    )
    slots = tuple(_slot_as_it_is(slot, meal) for slot, meal in zip(day.posed.slots, entry.meals, strict=True))
    return replace(day.posed, bands=bands, own=own, slots=slots, anew=entry)


def _slot_as_it_is(slot: Slot, meal: Meal) -> Slot:
    """The slot, asking for no more than its meal holds."""
    protein, carbohydrate = (meal.totals.get(key, 0.0) for key in (PROTEIN, CARBOHYDRATE))
    most = slot.carbohydrate_most
    return replace(
        slot,
        protein_least=min(slot.protein_least, protein * (1 - ROUNDED)),
        carbohydrate_least=min(slot.carbohydrate_least, carbohydrate * (1 - ROUNDED)),
        carbohydrate_most=None if most is None else max(most, carbohydrate * (1 + ROUNDED)),
    )


def wishes_as_it_is(day: StandingDay) -> Wishes:
    """What the eater and the kitchen wish for over the whole day, no further than the day that stands keeps it.

    What is past may have put a wish out of reach; a change of the rest then makes it no worse.
    """
    wishes = day.posed.wishes
    foods = list(_foods(day))
    outside = [(choice, grams * choice.per_gram[ENERGY]) for slot, choice, grams in foods
               if slot.kind != "during" and slot.given != "energy"]  # fmt: skip
    kcal = math.fsum(energy for _, energy in outside) or 1.0

    def share(count: str) -> float:
        return math.fsum(energy for choice, energy in outside if count in choice.counts) / kcal

    price = math.fsum(grams * (choice.price_per_gram or 0.0) for _, choice, grams in foods)
    kinds = {choice.kin for _, choice, _ in foods if {"fruit", "vegetable"} & choice.counts}
    return replace(
        wishes,
        minutes_most=max(wishes.minutes_most, float(sum(one.plate.dish.minutes for one in day.meals))),
        budget=None if wishes.budget is None else max(wishes.budget, price + ROUNDED),
        whole_food_share=max(0.0, min(wishes.whole_food_share, share("whole_food") - ROUNDED)),
        added_sugar_share=max(wishes.added_sugar_share, share("added_sugar") + ROUNDED),
        produce_kinds=min(wishes.produce_kinds, len(kinds)),
    )


def _foods(day: StandingDay) -> Iterator[tuple[Slot, Choice, float]]:
    """Every food that stands in the day, given ones among them, with its grams."""
    for slot, one in zip(day.posed.slots, day.meals, strict=True):
        if one.foods:
            yield from ((slot, food.choice, food.steps * food.choice.step_g) for food in one.foods)
        else:
            yield from ((slot, choice, choice.least_g) for part in one.plate.parts for choice in part.choices)


def _as_it_is(band: Band, value: float) -> Band:
    """The band, widened to the value where that lies outside; values are written rounded."""
    least = None if band.least is None else min(band.least, value * (1 - ROUNDED))
    most = None if band.most is None else max(band.most, value * (1 + ROUNDED))
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
        first = {} if slot.kind == "during" else first_planned(old)
        meals.append(meal.model_copy(update={"planned": first, "case_number": old.case_number}))
    written = written_day(meals, before.skipped, menu)
    offs = (*off_bands(written.totals, band_of(before)), *off_own(posed.case, posed.day, written.meals))
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
