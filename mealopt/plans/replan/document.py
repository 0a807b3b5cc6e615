"""The day as it stands after all that happened, written down."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from mealopt import __version__
from mealopt.core.bands import Band
from mealopt.core.clock import clock, minutes_of
from mealopt.core.nutrients import ENERGY, LABELS, PROTEIN, UNITS
from mealopt.core.slots import Slot
from mealopt.core.words import number
from mealopt.documents.fuel import FuelPlan
from mealopt.documents.plan import Meal, Plan, PlanDay, SkippedMeal, Solve, Struck
from mealopt.documents.totals import day_totals
from mealopt.menu.dishes import Menu
from mealopt.people.case import Case
from mealopt.people.reading import case_to_dict
from mealopt.plans.day.document import (
    SALT,
    Chosen,
    chosen_foods,
    day_cautions,
    meal_entry,
    refuel_notes,
    session_entry,
    target_band,
)
from mealopt.plans.fuel.in_day import as_fuelled
from mealopt.plans.own import menu_cautions
from mealopt.plans.replan.anew import KEEPS, DayAnew
from mealopt.plans.replan.changed import ChangedDay
from mealopt.plans.replan.events import Events
from mealopt.plans.replan.off import Off
from mealopt.plans.replan.past import known_totals, portion_of
from mealopt.plans.replan.rest import first_planned
from mealopt.plans.replan.search import RestFound
from mealopt.targets.model import SessionEnergy

#: What is said of a day that misses its numbers.
NEAR = "comes as near to the day's numbers as it can"

#: By this share a meal may fall under what it keeps: rounding, and less than anybody can weigh.
KEPT = 0.0015


def rest_meals(day: DayAnew, found: RestFound) -> tuple[Meal, ...]:
    """The meals that are still to come, as found; one that is as planned is written as it was."""
    posed, values = day.posed, found.answer.values
    pantry = posed.larder.menu.pantry
    salted = SALT not in posed.case.kitchen.never
    meals = []
    for slot, one, options in zip(posed.slots, day.meals, found.problem.servings, strict=True):
        if one.given is not None:
            if not one.given.meal.eaten:
                meals.append(one.given.meal)
            continue
        serving = next(each for each in options if round(values[each.served]) == 1)
        chosen = chosen_foods(serving, values, pantry, salted)
        planned = one.coming.planned if one.coming is not None else None
        if planned is not None and _as_planned(planned, slot, serving.plate.dish.id, chosen):
            meals.append(planned.model_copy(update=_place_of(slot)))
        else:
            meal = as_fuelled(meal_entry(slot, serving.plate.dish, chosen, {}, pantry), slot, posed.fuel)
            first = {} if planned is None or slot.kind == "during" else first_planned(planned)
            pot = {} if planned is None or planned.cooked_on is None else {
                "cooked_on": planned.cooked_on, "minutes": planned.minutes, "notes": planned.notes
            }  # fmt: skip
            meals.append(meal.model_copy(update={"planned": first, "case_number": one.case_number, **pot}))
    return tuple(meals)


def _as_planned(planned: Meal, slot: Slot, dish_id: str, chosen: Sequence[Chosen]) -> bool:
    same_time = (minutes_of(planned.time), minutes_of(planned.ends)) == (slot.start, slot.end)
    before = sorted((item.food, item.grams) for item in planned.items)
    after = sorted((one.food, one.grams) for one in chosen)
    return same_time and planned.slot == slot.kind and planned.dish_id == dish_id and before == after


def _place_of(slot: Slot) -> dict[str, object]:
    """What of a meal hangs on the day's sessions."""
    return {
        "before_session": slot.before_session,
        "lead_minutes": slot.lead_minutes,
        "limits": dict(slot.limits) if slot.kind != "during" else {},
    }


@dataclass(frozen=True, slots=True)
class WrittenDay:
    """All meals in order of time, with their numbers and totals; what was skipped; the day's totals and coverage."""

    meals: tuple[Meal, ...]
    skipped: tuple[SkippedMeal, ...]
    totals: dict[str, float]
    coverage: dict[str, float]


def written_day(meals: Sequence[Meal], skipped: Sequence[SkippedMeal], menu: Menu) -> WrittenDay:
    """The meals numbered by time together with those that are skipped, and added up anew."""
    entries: list[Meal | SkippedMeal] = [*meals, *skipped]
    entries.sort(key=lambda one: (minutes_of(one.time), minutes_of(one.ends)))
    numbers = {id(one): number for number, one in enumerate(entries, start=1)}
    ordered = [one for one in entries if isinstance(one, Meal)]
    given = {place: known for place, one in enumerate(ordered) if (known := known_totals(one)) is not None}
    totals = day_totals([[portion_of(item, menu.pantry) for item in one.items] for one in ordered], given)
    return WrittenDay(
        meals=tuple(
            _as_kept(one.model_copy(update={"number": numbers[id(one)], "totals": held}))
            for one, held in zip(ordered, totals.meals, strict=True)
        ),
        skipped=tuple(
            one.model_copy(update={"number": numbers[id(one)]}) for one in entries if isinstance(one, SkippedMeal)
        ),
        totals=totals.day,
        coverage=totals.coverage,
    )


def _as_kept(meal: Meal) -> Meal:
    """The meal; where it could not keep what was first planned, that is said, and what it holds is what it keeps."""
    planned, notes = dict(meal.planned), list(meal.notes)
    for key, share in ((ENERGY, KEEPS), (PROTEIN, 1.0)):
        held, first = meal.totals.get(key, 0.0), planned.get(key, 0.0)
        if not meal.eaten and held < share * first * (1 - KEPT):
            planned[key] = held / share
            now, was = number(held), number(first)
            notes += [f"{LABELS[key]}: {now} of the {was} {UNITS[key]} that were planned here"] if now != was else []
    return meal.model_copy(update={"planned": planned, "notes": tuple(notes)}) if planned != meal.planned else meal


def day_entry(
    entry: PlanDay,
    events: Events,
    changed: ChangedDay,
    day: DayAnew,
    found: RestFound | None,
    written: WrittenDay,
    said: tuple[Sequence[Off], dict[str, Band], tuple[str, ...]],
) -> PlanDay:
    """The day of the document. said: how far its totals are off, its bands, and what there is to say."""
    offs, bands, words = said
    posed, targets = day.posed, changed.targets
    base: tuple[str, ...] = entry.notes
    if events.changes_sessions:
        base = (*targets.notes, *posed.notes, *refuel_notes(posed, written.meals))
    notes = (*base, f"planned anew from {clock(events.now)}", *words)
    update: dict[str, object] = {
        "meals": written.meals,
        "skipped": written.skipped,
        "totals": written.totals,
        "coverage": written.coverage,
        "missed": tuple(dict.fromkeys(one.key for one in offs)),
        "cautions": (*day_cautions(posed.case, targets, written.meals), *menu_cautions(posed.larder.menu)),
        "notes": tuple(dict.fromkeys(note[:2000] for note in notes)),
        "now": clock(events.now),
        "struck": _struck(entry, written.meals),
    }
    if events.changes_sessions:
        update["sessions"] = tuple(
            session_entry(one, number, _fuel_of(number, one, entry, day, events.now))
            for number, one in enumerate(targets.sessions, start=1)
        )
        update["targets"] = {key: target_band(band) for key, band in bands.items()}
    if found is not None:
        values = found.answer.values
        shares = found.problem.shares(values)
        update["penalty"] = {term: round(points, 2) for term, points in shares.items() if points >= 0.005}
        update["solve"] = _solve(found)
    return entry.model_copy(update=update)


def _struck(before: PlanDay, meals: Sequence[Meal]) -> tuple[Struck, ...]:
    """What was struck out of the day's meals, by their numbers of now."""
    times = {meal.number: meal.time for meal in before.meals}
    numbers = {meal.time: meal.number for meal in meals}
    return tuple(
        one if one.meal is None else one.model_copy(update={"meal": numbers[times[one.meal]]})
        for one in before.struck
        if one.meal is None or times.get(one.meal) in numbers
    )


def _fuel_of(number: int, one: SessionEnergy, entry: PlanDay, day: DayAnew, now: int) -> FuelPlan | None:
    """What is packed for a session: anew where it is to come, as it was where it is past and stayed as planned."""
    session = one.session
    if session.start_minute >= now and number in day.posed.fuel:
        return day.posed.fuel[number].plan
    for old in entry.sessions:
        same = (old.kind, minutes_of(old.start), old.minutes) == (session.kind, session.start_minute, session.minutes)
        if same and old.fuel is not None:
            return old.fuel.model_copy(update={"session": number})
    return None


def _solve(found: RestFound) -> Solve:
    penalty = sum(found.problem.shares(found.answer.values).values())
    near = "comes as near to the day's numbers as was found in the time" if found.cut else NEAR
    near = "meets the day's numbers" if found.harm < 0.05 else near
    return Solve(
        solver=found.answer.solver or "HiGHS",
        status="optimal" if found.answer.status.value in ("optimal", "gap") else "gap",
        objective=round(penalty, 4),
        bound=None,
        gap=None,
        seconds=round(found.seconds, 3),
        rows=found.rows,
        columns=found.columns,
        says=f"the rest of the day {near}, and then changes as little as need be",
    )


def with_day(plan: Plan, day: PlanDay, case: Case | None) -> Plan:
    """The plan with this day in it. case: of now, None where it is as it was."""
    days = tuple(day if one.day == day.day else one for one in plan.days)
    update: dict[str, object] = {"days": days, "program": f"mealopt {__version__}"}
    if case is not None:
        update["case"] = case_to_dict(case)
        update["sessions_before"] = (*plan.sessions_before, tuple(plan.case.get("session", ())))
    if plan.kind == "day" and day.solve is not None:
        update["solve"] = day.solve
    return plan.model_copy(update=update)
