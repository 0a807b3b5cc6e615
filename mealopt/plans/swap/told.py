"""What a swap changed, meal by meal, as lines before and after that stand beside each other."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from mealopt.core.words import duration, number, portion
from mealopt.documents.plan import Item, Meal, Plan, PlanDay, SessionEntry
from mealopt.plans.swap.written import same_items

SALT = "salt"


@dataclass(frozen=True, slots=True)
class MealChange:
    """One meal that changed. before, after: as many lines each, a food a line, "" where it is not there.

    number, slot, time: of the meal; dish_before, dish_after: "" for a meal that is not there.
    """

    number: int
    slot: str
    time: str
    dish_before: str
    dish_after: str
    before: tuple[str, ...]
    after: tuple[str, ...]


def changes(before: PlanDay, after: PlanDay) -> tuple[MealChange, ...]:
    """Every meal that is not as it was, in the day's order."""
    left = {meal.number: meal for meal in after.meals}
    found = []
    for meal in before.meals:
        now = left.get(meal.number)
        if now is None or now.dish_id != meal.dish_id or not same_items(meal, now):
            found.append(_change(meal, now))
    return tuple(found)


def _change(before: Meal, after: Meal | None) -> MealChange:
    rows = _rows(before.items, after.items if after is not None else ())
    return MealChange(
        number=before.number,
        slot=before.slot,
        time=before.time,
        dish_before=before.dish,
        dish_after=after.dish if after is not None else "",
        before=tuple(left for left, _ in rows),
        after=tuple(right for _, right in rows),
    )


def _rows(before: Collection[Item], after: Collection[Item]) -> list[tuple[str, str]]:
    """Foods that stay beside themselves; those that leave beside those that come."""
    now = {item.food: item for item in after}
    was = {item.food for item in before}
    coming = [item for item in after if item.food not in was and item.food != SALT]
    salt = [("", portion(item)) for item in after if item.food == SALT and SALT not in was]
    rows = []
    for item in before:
        if item.food in now:
            rows.append((portion(item), portion(now[item.food])))
        else:
            rows.append((portion(item), portion(coming.pop(0)) if coming and item.food != SALT else ""))
    return [*rows, *(("", portion(item)) for item in coming), *salt]


def foods_changed(before: PlanDay, after: PlanDay) -> list[tuple[int, str, str]]:
    """(meal's number, food that left, "") and (number, "", food that came), salt aside, in the day's order."""
    left = {meal.number: {item.food for item in meal.items} - {SALT} for meal in after.meals}
    found: list[tuple[int, str, str]] = []
    for meal in before.meals:
        was, now = {item.food for item in meal.items} - {SALT}, left.get(meal.number, set())
        found += [(meal.number, food, "") for food in sorted(was - now)]
        found += [(meal.number, "", food) for food in sorted(now - was)]
    return found


def pots(days: Sequence[PlanDay], before: PlanDay, after: PlanDay) -> tuple[str, ...]:
    """What is to be heard at the other end of a meal that is cooked for another day. days: the plan's, before."""
    left = {meal.number: meal for meal in after.meals}
    found = []
    for meal in before.meals:
        if left.get(meal.number) is meal:
            continue
        if meal.cooked_on is not None:
            found.append(f"{meal.dish} was to come from what is cooked on {meal.cooked_on}: cook less there")
        for day in days:
            found += [
                f"{day.day}, meal {one.number}: {one.dish} was to come from {before.day}'s pot: it is cooked on its day"
                for one in day.meals
                if one.cooked_on == before.day and one.dish_id == meal.dish_id
            ]
    return tuple(found)


def unfuelled(before: PlanDay, after: PlanDay) -> tuple[str, ...]:
    """Sessions whose food and drink left the day, with what is asked for in them."""
    left = {meal.number for meal in after.meals}
    gone = {meal.time for meal in before.meals if meal.slot == "during" and meal.number not in left}
    return tuple(_unfuelled(one) for one in after.sessions if one.start in gone)


def _unfuelled(session: SessionEntry) -> str:
    asks = session.during_g
    amount = "" if asks is None else f", and {asks.least or 0:.0f}-{asks.most or 0:.0f} g of carbohydrate suit it"
    which = f"Session {session.number} ({session.effort} {session.kind}, {duration(session.minutes)})"
    return f"{which} has no food or drink any more{amount}: go shorter or easier, or carry something all the same"


def rules_lost(before: Plan, after: Plan) -> tuple[str, ...]:
    """Rules of the week that were met and are not any more, in words."""
    met = {check.rule for check in before.week.checks if check.met}
    return tuple(
        f"the week no longer meets: {check.rule} (now {number(check.value)})"
        for check in after.week.checks
        if not check.met and check.rule in met
    )
