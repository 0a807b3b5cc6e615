"""The day's meals sorted by what became of them: eaten, eaten beside the plan, skipped, still to come."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from mealopt.core.clock import clock, minutes_of, on_the_clock
from mealopt.core.slots import MAIN
from mealopt.documents.plan import Meal, PlanDay
from mealopt.errors import BadInput
from mealopt.menu.dishes import Menu
from mealopt.people.case import Case
from mealopt.plans.replan.changed import ChangedDay
from mealopt.plans.replan.events import Ate, Events
from mealopt.plans.replan.found import FoundFood, find_ate
from mealopt.plans.replan.past import EATING, GivenMeal, eaten_beside, is_beside


@dataclass(frozen=True, slots=True)
class Happened:
    """The day's meals, sorted. words: what is to be said of them."""

    eaten: tuple[GivenMeal, ...]
    beside: tuple[GivenMeal, ...]
    skipped: tuple[Meal, ...]
    rest: tuple[GivenMeal, ...]
    words: tuple[str, ...]


def what_happened(entry: PlanDay, events: Events, changed: ChangedDay, menu: Menu) -> Happened:
    """The meals of the day, sorted. Raises BadInput for a food that nobody knows or a meal that cannot have been
    skipped."""
    numbers = {meal.number: meal for meal in entry.meals}
    for number in events.skipped:
        _check_skipped(number, numbers, entry, events.now)
    gone = {number for number, now in changed.numbers.items() if now is None}
    dropped = [meal for meal in entry.meals if meal.slot == "during" and _session_of(meal, entry) in gone]
    words = [f"what was to be eaten in session {_session_of(meal, entry)} is left out" for meal in dropped]
    eaten, rest, skipped = [], [], []
    for meal in entry.meals:
        if meal in dropped:
            continue
        if meal.number in events.skipped:
            skipped.append(meal)
        elif meal.eaten or minutes_of(meal.time) < events.now:
            eaten.append(GivenMeal(_as_eaten(meal, changed), extra=is_beside(meal)))
        else:
            rest.append(GivenMeal(meal))
    words += [f"meal {meal.number} ({meal.dish}, {on_the_clock(meal.time)}) was skipped" for meal in skipped]
    beside = _beside(events, eaten, skipped, menu, changed.case, entry.day)
    words += [said for one in beside for said in one.meal.notes[1:]]
    return Happened(tuple(eaten), tuple(beside), tuple(skipped), tuple(rest), tuple(words))


def _check_skipped(number: int, numbers: dict[int, Meal], entry: PlanDay, now: int) -> None:
    meal = numbers.get(number)
    if meal is None:
        listed = ", ".join(str(one) for one in numbers)
        raise BadInput(f"--skipped: read {number}; {entry.day} has the meals {listed}")
    if meal.eaten:
        raise BadInput(f"--skipped: read {number}, which is written down as eaten; a meal that was not is expected")
    if minutes_of(meal.time) > now:
        raise BadInput(
            f"--skipped: read {number}, the {meal.slot} at {meal.time}; only what was to be eaten by {clock(now)} "
            "can have been skipped"
        )


def _session_of(meal: Meal, entry: PlanDay) -> int:
    """Number of the session that a meal is eaten in; 0 where there is none."""
    return next((one.number for one in entry.sessions if one.start == meal.time and one.ends == meal.ends), 0)


def _as_eaten(meal: Meal, changed: ChangedDay) -> Meal:
    """The meal marked as eaten; of its session the number of now."""
    before = meal.before_session
    now = None if before is None else changed.numbers.get(before, before)
    gone = before is not None and now is None
    place: dict[str, object] = {"lead_minutes": None, "limits": {}} if gone else {}
    return meal.model_copy(update={"eaten": True, "before_session": now, **place})


def _beside(
    events: Events, eaten: Sequence[GivenMeal], skipped: Sequence[Meal], menu: Menu, case: Case, day: str
) -> list[GivenMeal]:
    """What was eaten beside the plan: one meal for each time, and for what is known by its energy alone."""
    wake = case.kitchen_on(day).wake
    groups: dict[tuple[int, bool], list[FoundFood]] = {}
    instead = max(skipped, key=lambda meal: (meal.slot in MAIN, meal.time), default=None)
    usual = events.now if instead is None else minutes_of(instead.time) + EATING
    for one in events.ate:
        _check_time(one, events.now, wake)
        minute = usual if one.minute is None else one.minute + EATING
        groups.setdefault((min(minute, events.now), one.kcal is not None), []).append(find_ate(one, menu.pantry))
    beside: list[GivenMeal] = []
    for (minute, _), found in sorted(groups.items(), key=lambda group: group[0]):
        takes_place = instead is not None and minute == min(usual, events.now) and instead.slot in MAIN
        kind = instead.slot if takes_place and instead is not None else "snack"
        beside.append(eaten_beside(found, minute, kind, [*eaten, *beside], wake, menu.pantry))
    return beside


def _check_time(one: Ate, now: int, wake: int) -> None:
    if one.minute is not None and not wake <= one.minute < now:
        raise BadInput(
            f"--ate: read {one.words!r}; a time from waking at {clock(wake)} to before {clock(now)} is expected"
        )
