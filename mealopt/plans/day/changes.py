"""What else than a band would free a day: wishes that are dropped, minutes, meals, energy moved to another day."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from mealopt.core.clock import clock
from mealopt.core.filters import DIETS
from mealopt.errors import MealoptError
from mealopt.people.case import Case, Move
from mealopt.people.goal import OwnBand
from mealopt.plans.day.eased import Line, case_with
from mealopt.targets.day import week_targets

#: Kitchen minutes that are tried where dishes take too long.
MINUTES = (30, 60, 120)

#: Energy that is tried on another day, kcal: the most that one day may give.
MOVED = 500


#: Stands wherever a food is offered that somebody wished to avoid.
CAUTION = (
    "only where leaving it out is a choice: with an allergy, an intolerance or coeliac disease, ask a doctor or a "
    "registered dietitian instead"
)

#: Marks lines that change what the case says already.
NO_BAND = "# no band helps here; change these keys"


@dataclass(frozen=True, slots=True)
class Change:
    """One change of the case. allow: what to do, in words; wish: what stands in the way, in words.

    table, line: where it is written and what; table is "" where line is whole tables. apply: the case with it.
    harms: whether it could harm somebody whose wish is no choice.
    """

    allow: str
    wish: str
    table: str
    line: str
    apply: Callable[[Case], Case]
    harms: bool = False


def _kitchen(allow: str, wish: str, line: str, values: dict[str, object], harms: bool = False) -> Change:
    def apply(case: Case) -> Case:
        return case.model_copy(update={"kitchen": case.kitchen.model_copy(update=values)})

    return Change(allow, wish, "[kitchen]", line, apply, harms)


def dropped_wishes(case: Case) -> Iterator[Change]:
    """Each wish about foods, dropped by itself: the list of never, wider diets, allergens one by one, gluten."""
    kitchen = case.kitchen
    if kitchen.never:
        some = ", ".join(kitchen.never[:3]) + (" and others" if len(kitchen.never) > 3 else "")
        yield _kitchen('empty the list "never"', f"never {some}", "never = []", {"never": ()}, harms=True)
    for wider in reversed(DIETS[: DIETS.index(kitchen.diet)]):
        yield _kitchen(f"eat {wider}", f"{kitchen.diet} only", f'diet = "{wider}"', {"diet": wider})
    for allergen in kitchen.avoid_allergens:
        kept = [one for one in kitchen.avoid_allergens if one != allergen]
        yield _allergens(f"allow {allergen}", f"no {allergen}", kept)
    if kitchen.gluten_free:
        yield _kitchen("allow gluten", "gluten-free", "gluten_free = false", {"gluten_free": False}, harms=True)


def _allergens(allow: str, wish: str, kept: Sequence[str]) -> Change:
    listed = ", ".join(f'"{one}"' for one in kept)
    values: dict[str, object] = {"avoid_allergens": tuple(kept)}
    return _kitchen(allow, wish, f"avoid_allergens = [{listed}]", values, harms=True)


def widest(case: Case, day: str) -> tuple[Change, ...]:
    """Every kind of change once, as far as it goes; those that ask least of the eater last."""
    kitchen = case.kitchen
    changes: dict[str, Change] = {}
    if kitchen.avoid_allergens:
        listed = " and ".join(kitchen.avoid_allergens)
        changes["avoid_allergens"] = _allergens(f"allow {listed}", f"no {listed}", [])
    for change in (*reversed(tuple(dropped_wishes(case))), *more_room(case, day)):
        key = change.line.split(" ")[0] if change.table else change.line.split("\n")[1]
        # Of two changes of one key, the later goes further; all allergens go further than any one.
        if key not in ("avoid_allergens", "meals_per_day", "diet") or key not in changes:
            changes[key] = change
    return tuple(changes.values())


def more_room(case: Case, day: str) -> Iterator[Change]:
    """More minutes, a stove, other numbers of meals, and less energy on the day, each by itself."""
    kitchen = case.kitchen_on(day)
    for minutes in MINUTES:
        if minutes > kitchen.cook_minutes:
            yield _minutes(case, day, minutes)
    if kitchen.can_cook is not None:
        span = f"{clock(kitchen.wake)}-{clock(kitchen.sleep)}"
        at_hand = f'can_cook = ["{span}"]'
        yield _of_the_day(case, day, "have a stove all day", "no stove at hand", at_hand, can_cook=(span,))
    if kitchen.away == "no_kitchen":
        words = "have a microwave where you are"
        yield _of_the_day(case, day, words, "meals away from any kitchen", 'away = "microwave"', away="microwave")
    for meals in (kitchen.meals_per_day + 1, kitchen.meals_per_day + 2, kitchen.meals_per_day - 1):
        if 2 <= meals <= 8:
            line = f"meals_per_day = {meals}"
            words = f"{kitchen.meals_per_day} meals a day"
            yield _of_the_day(case, day, f"eat {meals} meals", words, line, meals_per_day=meals)
    yield from _less_energy(case, day)


def _minutes(case: Case, day: str, minutes: int) -> Change:
    band = OwnBand.model_validate({"nutrient": "kitchen_minutes", "most": minutes, "day": day})
    target = (band.nutrient, band.day)
    before = next((own for own in case.goal.band if (own.nutrient, own.day) == target), None)
    line = Line(band, before)
    least = case.kitchen_on(day).cook_minutes
    allow, wish = f"take {minutes} min in the kitchen", f"{least} min in the kitchen"
    return Change(allow, wish, "", line.text, lambda one: case_with(one, (line,)))


def _of_the_day(case: Case, day: str, allow: str, wish: str, line: str, **values: object) -> Change:
    """A change where the case writes the key for this day: in its own entry, if there is one."""
    entry = case.kitchen.entry(day)
    if entry is None or all(getattr(entry, key) is None for key in values):
        return _kitchen(allow, wish, line, values)

    def apply(one: Case) -> Case:
        days = tuple(other.model_copy(update=values) if other.day == day else other for other in one.kitchen.day)
        return one.model_copy(update={"kitchen": one.kitchen.model_copy(update={"day": days})})

    return Change(allow, wish, f'[[kitchen.day]]\nday = "{day}"', line, apply)


def _less_energy(case: Case, day: str) -> Iterator[Change]:
    """Energy moved to the day that holds least, or spread evenly."""
    try:
        energy = {name: targets.bands["energy_kcal"].aim or 0.0 for name, targets in week_targets(case).days.items()}
    except MealoptError:
        return
    lightest = min(energy, key=lambda name: energy[name])
    used = sum(move.kcal for move in case.goal.move if move.from_day == day)
    into = sum(move.kcal for move in case.goal.move if move.to_day == lightest)
    kcal = MOVED - max(used, into)
    if lightest != day and kcal >= 100:
        move = Move.model_validate({"from": day, "to": lightest, "kcal": kcal})
        text = f'[[goal.move]]\nfrom = "{day}"\nto = "{lightest}"\nkcal = {kcal:g}'
        allow, wish = f"move {kcal:g} kcal to {lightest}", f"{energy[day]:,.0f} kcal on {day}"
        yield Change(allow, wish, "", text, lambda one: _with_goal(one, move=(*one.goal.move, move)))
    if case.goal.spread == "by_day" and energy[day] > sum(energy.values()) / len(energy):
        allow, wish = "spread the energy evenly over the week", f"{energy[day]:,.0f} kcal on {day}"
        yield Change(allow, wish, "[goal]", 'spread = "even"', lambda one: _with_goal(one, spread="even"))


def _with_goal(case: Case, **values: object) -> Case:
    return case.model_copy(update={"goal": case.goal.model_copy(update=values)})


def remedies_of(changes: tuple[Change, ...]) -> tuple[str, ...]:
    """The changes as lines for the case file: one text for each table, marked as no band where it is none."""
    tables: dict[str, list[str]] = {}
    whole = []
    for change in changes:
        if change.table:
            tables.setdefault(change.table, []).append(change.line)
        else:
            whole.append(change.line)
    written = ["\n".join((NO_BAND, table, *lines)) for table, lines in tables.items()]
    if any(change.harms for change in changes):
        written[0] = f"# {CAUTION}\n{written[0]}"
    return (*whole, *written)
