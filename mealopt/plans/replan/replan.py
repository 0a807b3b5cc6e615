"""A day of a plan planned anew from some minute on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from mealopt.core.clock import clock, minutes_of
from mealopt.core.nutrients import ENERGY
from mealopt.documents.plan import Meal, Plan, PlanDay, SkippedMeal
from mealopt.menu.dishes import Menu
from mealopt.milp.effort import spent
from mealopt.people.reading import case_from_dict
from mealopt.plans.held.standing import plan_entry
from mealopt.plans.held.whole import check_whole
from mealopt.plans.own import case_menu, own_table
from mealopt.plans.replan.anew import Asked, DayAnew, band_of, pose_anew, with_case_numbers
from mealopt.plans.replan.changed import ChangedDay, changed_day, check_now
from mealopt.plans.replan.document import day_entry, rest_meals, with_day, written_day
from mealopt.plans.replan.events import Events
from mealopt.plans.replan.happened import Happened, what_happened
from mealopt.plans.replan.off import Off, off_bands, off_own
from mealopt.plans.replan.options import options_of
from mealopt.plans.replan.past import EATING, GivenMeal
from mealopt.plans.replan.pots import from_one_pot, without_a_pot
from mealopt.plans.replan.search import RestFound, seek
from mealopt.plans.replan.words import (
    CUT,
    NEAREST,
    NO_PAYING,
    NOTHING_TO_MAKE_UP,
    ONLY_SESSIONS,
    MealPair,
    offer_for,
    paired,
    said_off,
)
from mealopt.plans.week.refresh import refreshed
from mealopt.recheck.check import assert_plan

GUARDED = "past_eating_disorder"


@dataclass(frozen=True, slots=True)
class Replanned:
    """A day planned anew.

    plan: the whole document with that day in it; day: its name. meals: before and after, in order of time. short,
    over: nutrient key -> how far the day is under its least or over its most, in the key's unit. words: sentences on
    what was taken as eaten, what gives, and what tomorrow may take. lines: for the case file, where something is
    offered to the next day.
    """

    plan: Plan
    day: str
    meals: tuple[MealPair, ...]
    short: dict[str, float]
    over: dict[str, float]
    words: tuple[str, ...]
    lines: tuple[str, ...] = ()


def replan_day(
    plan: Plan, events: Events, day: str | None, folder: Path | None, seconds: float, where: str
) -> Replanned:
    """What is past is as eaten, the rest is planned anew, and as little of it changes as need be.

    day: of a week's plan, None for its only one. folder: that of the case file. seconds: of work, reading counted; a
    busy machine takes longer by the clock. where: the words that a refusal of the plan begins with. Raises BadInput,
    Refused, OutOfTime; Unplannable where a meal cannot be served at all.
    """
    start = spent()
    entry = with_case_numbers(plan_entry(plan, day, where))
    check_whole(plan, folder, where)
    case = case_from_dict(plan.case, f"{where}, case").beside(folder)
    check_now(case, entry, events.now)
    changed = changed_day(case, entry, events)
    menu = case_menu(changed.case, changed.targets.maintenance_only)
    past = what_happened(entry, events, changed, menu)
    guarded = GUARDED in (case.athlete.cautions or ())
    sought = _rest(plan, entry, events, changed, past, guarded=guarded, limit=(start, seconds))
    return _replanned(plan, entry, events, changed, past, sought, menu, guarded=guarded)


#: The meals to come, the day as it was posed, and what was found; None where the planned meals stand.
Sought = tuple[tuple[Meal, ...], DayAnew, RestFound | None]


def _replanned(
    plan: Plan,
    entry: PlanDay,
    events: Events,
    changed: ChangedDay,
    past: Happened,
    sought: Sought,
    menu: Menu,
    *,
    guarded: bool,
) -> Replanned:
    """The answer written down, rechecked, and told."""
    rest, posed, found = sought
    kept = tuple(one.meal for one in (*past.eaten, *past.beside))
    written = written_day([*kept, *rest], (*entry.skipped, *(_skipped(meal) for meal in past.skipped)), menu)
    bands = posed.posed.bands if events.changes_sessions else band_of(entry)
    offs = (*off_bands(written.totals, bands), *off_own(changed.case, entry.day, written.meals))
    cut = found is not None and found.cut
    words, lines = _words(events, changed, past, offs, guarded=guarded, cut=cut)
    new_day = day_entry(entry, events, changed, posed, found, written, (offs, bands, words))
    after = with_day(plan, new_day, changed.case if events.changes_sessions else None)
    after, said = without_a_pot(after, new_day, menu)
    if plan.kind == "week" or plan.groceries:
        after = refreshed(after, menu)
    assert_plan(after, menu.pantry.composition, menu.pantry, own_table(menu))
    moved = {
        one.coming.planned.time: clock(one.coming.occasion.start)
        for one in posed.meals
        if one.coming is not None and one.coming.planned is not None
    }
    short = {one.key: round(one.by, 2) for one in offs if one.short and not one.at}
    over = {one.key: round(one.by, 2) for one in offs if not one.short and not one.at}
    pairs = paired(entry.meals, new_day.meals, moved)
    return Replanned(after, entry.day, pairs, short, over, (*words, *said), lines)


def _rest(
    plan: Plan,
    entry: PlanDay,
    events: Events,
    changed: ChangedDay,
    past: Happened,
    *,
    guarded: bool,
    limit: tuple[float, float],
) -> Sought:
    """limit: when the work began, and how many seconds of it there are."""
    start, seconds = limit
    asked = Asked(
        case=changed.case,
        entry=entry,
        targets=changed.targets,
        bands=None if events.changes_sessions else band_of(entry),
        now=events.now,
        past=(*past.eaten, *past.beside),
        rest=past.rest,
        new=changed.new,
        changed=events.changes_sessions,
    )
    if guarded and not events.changes_sessions:
        return tuple(one.meal for one in past.rest), pose_anew(replace(asked, free=False)), None
    if guarded:
        asked = replace(asked, past=(_as_if_planned(entry, past, events.now),))
    day = pose_anew(asked)
    struck = frozenset(one.what for one in entry.struck)
    found = seek(day, options_of(day, struck, from_one_pot(plan, entry)), seconds, start)
    return rest_meals(day, found), day, found


def _as_if_planned(entry: PlanDay, past: Happened, now: int) -> GivenMeal:
    """What the past was to hold by the day's aims: what was eaten then changes nothing of the rest."""
    rest = [one.meal for one in past.rest]
    holds = {
        key: max(0.0, (band.aim or band.least or band.most or 0.0) - sum(meal.totals.get(key, 0.0) for meal in rest))
        for key, band in entry.targets.items()
    }
    first = past.eaten[0].meal if past.eaten else None
    start = minutes_of(first.time) if first is not None else now - EATING
    meal = Meal(
        number=1, slot="snack", time=clock(start), ends=clock(start + 1), dish="what was planned", dish_id=None,
        minutes=0, before_session=None, lead_minutes=None, limits={}, items=(), totals={ENERGY: holds[ENERGY]},
        eaten=True,
    )  # fmt: skip
    return GivenMeal(meal, extra=True, holds=holds)


def _skipped(meal: Meal) -> SkippedMeal:
    return SkippedMeal(number=meal.number, slot=meal.slot, time=meal.time, ends=meal.ends)


def _words(
    events: Events, changed: ChangedDay, past: Happened, offs: Sequence[Off], *, guarded: bool, cut: bool
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    words = [*changed.words, *past.words]
    if guarded:
        # No count of what was too much or too little: the meals that are to come are what matters.
        return (*words, ONLY_SESSIONS if events.changes_sessions else NOTHING_TO_MAKE_UP), ()
    if offs:
        words.append(CUT if cut else NEAREST)
        words += [said_off(one) for one in offs]
    if past.rest and any(one.key == ENERGY and not (one.short or one.at) for one in offs):
        words.append(NO_PAYING)
    offer = offer_for(changed.case, changed.targets.day, offs)
    lines = (offer.lines,) if offer is not None and offer.lines else ()
    return (*words, *((offer.words,) if offer is not None else ())), lines
