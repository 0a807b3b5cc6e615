"""What a person asks of a plan, and what it means for each meal."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace

from mealopt.documents.plan import Struck
from mealopt.errors import BadInput
from mealopt.plans.held.standing import StandingDay, StandingMeal
from mealopt.plans.swap.aims import Aim, Coming
from mealopt.plans.swap.names import coming, dish_of, listed, one_of, same_head

ALL = "all"


@dataclass(frozen=True, slots=True)
class Wishes:
    """One or several wishes at once, as they were written.

    meal: a meal's number, "all", or None where meals are only held or dropped. out: foods that are to leave; into: what
    is to come, foods (with grams: "rice, white=200g") or a dish. dish: the whole dish is swapped. hold, drop: numbers.
    """

    meal: int | str | None = None
    out: tuple[str, ...] = ()
    into: tuple[str, ...] = ()
    dish: bool = False
    hold: tuple[int, ...] = ()
    drop: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Asked:
    """The wishes as the search takes them. day: without the dropped meals. struck: what the document is to remember."""

    day: StandingDay
    aims: tuple[Aim, ...]
    struck: tuple[Struck, ...]
    dropped: tuple[int, ...]


def asked(day: StandingDay, wishes: Wishes) -> Asked:
    """What the wishes mean. Raises BadInput where one names what is not there, or nothing is asked."""
    check(day, wishes)
    struck = list(day.entry.struck)
    aims: dict[int, Aim] = {}
    if wishes.meal is not None:
        targets = [one for one in day.meals if one.foods] if wishes.meal == ALL else [meal_at(day, wishes.meal)]
        for aim in _meant(day, wishes, targets):
            aims[aim.standing.meal.number] = aim
            back = {*aim.asked_for, aim.dish}
            number = aim.standing.meal.number
            struck = [one for one in struck if one.what not in back or one.meal not in (None, number)]
    struck = _remembered(struck, wishes, aims)
    left, pots = day.without(frozenset(wishes.drop)), _pots(day)
    found = []
    for standing in left.meals:
        number = standing.meal.number
        aim = replace(aims[number], standing=standing) if number in aims else Aim(standing)
        tied = not aim.asked and standing.meal.number in pots
        found.append(_with_memory(aim, struck, held=number in wishes.hold or tied or not standing.foods))
    return Asked(left, tuple(found), tuple(struck), wishes.drop)


def _pots(day: StandingDay) -> set[int]:
    """Numbers of meals that are cooked for another day too, or come from another day's pot: they stay unless asked."""
    later = {meal.dish_id for one in day.plan.days for meal in one.meals if meal.cooked_on == day.entry.day}
    return {meal.number for meal in day.entry.meals if meal.cooked_on is not None or meal.dish_id in later}


def check(day: StandingDay, wishes: Wishes) -> None:
    """Raise BadInput where the wishes name a meal that is not there, contradict each other, or ask nothing."""
    for number in (*wishes.hold, *wishes.drop):
        meal_at(day, number)
    both = set(wishes.hold) & set(wishes.drop)
    if both:
        raise BadInput(f"read meal {min(both)} as held and as dropped; one of the two is expected")
    if wishes.meal is None and (wishes.out or wishes.into or wishes.dish):
        raise BadInput("read no meal; the number of one is expected, or all")
    if wishes.meal is None and not wishes.drop:
        raise BadInput("read nothing to change; a food to leave or to come, a dish, or a meal to drop is expected")
    if wishes.meal is not None and not (wishes.out or wishes.into or wishes.dish):
        raise BadInput("read a meal and nothing to change in it; a food to leave or to come is expected, or its dish")
    if wishes.meal == ALL and wishes.dish:
        raise BadInput("read all meals for a swap of the dish; the number of one meal is expected")
    for number in (*wishes.hold, *wishes.drop):
        if number == wishes.meal:
            raise BadInput(f"read meal {number} as one to change and as held or dropped; one of the two is expected")
    if len(day.meals) == len(set(wishes.drop)):
        raise BadInput("read every meal as dropped; one that stays is expected")


def meal_at(day: StandingDay, number: int | str) -> StandingMeal:
    """The meal of this number. Raises BadInput."""
    found = day.at(number) if isinstance(number, int) else None
    if found is not None:
        return found
    skipped = any(entry.number == number for entry in day.entry.skipped)
    there = ", ".join(str(one.meal.number) for one in day.meals)
    raise BadInput(f"read meal {number}{', which is skipped' if skipped else ''}; the day has the meals {there}")


def _meant(day: StandingDay, wishes: Wishes, targets: list[StandingMeal]) -> list[Aim]:
    """An aim for each meal that the wishes are about."""
    for standing in targets:
        if not standing.foods:
            why = "worked out for its session" if standing.meal.slot == "during" else "settled by the case"
            raise BadInput(f"read meal {standing.meal.number}; {standing.meal.dish} is {why} and stays as it is")
    pantry = day.wide.menu.pantry.foods
    outs = {words: _leaving(words, wishes, targets, pantry) for words in wishes.out}
    aims = []
    for standing in targets:
        out = frozenset(name for names in outs.values() for name in names)
        if wishes.meal == ALL and not out & standing.names and wishes.out:
            continue
        aims.append(_aim(day, wishes, standing, out))
    return aims


def _leaving(words: str, wishes: Wishes, targets: list[StandingMeal], pantry: Collection[str]) -> Collection[str]:
    """The foods that the words mean: one of these meals, or all of a kind ("rice") where one of them is there.

    None where they are the name of the dish that is swapped.
    """
    if wishes.dish and dish_of(words, {one.plate.dish.id for one in targets}, targets[0].meal):
        return ()
    names = sorted({name for standing in targets for name in standing.names})
    where = "in the day" if wishes.meal == ALL else f"in meal {targets[0].meal.number}"
    kinds = same_head(words, pantry)
    if set(kinds) & set(names):
        return kinds
    holds = "the day" if wishes.meal == ALL else "it"
    return (one_of(words, names, where, f"{holds} holds {listed(names)}"),)


def _aim(day: StandingDay, wishes: Wishes, standing: StandingMeal, out: frozenset[str]) -> Aim:
    number, index = standing.meal.number, standing.index
    came: list[Coming] = []
    dish: str | None = None
    for text in wishes.into:
        named = dish_of(text, day.wide.menu.dishes)
        if named is None:
            came.append(coming(text, day, index, number))
            continue
        if dish is not None and dish != named:
            raise BadInput(f"in meal {number}: read the dishes {dish} and {named}; one is expected")
        if day.plate(index, named) is None:
            kind = day.posed.slots[index].kind
            raise BadInput(f"in meal {number}: read the dish {named}; it cannot be served to this athlete as {kind}")
        dish = named
    came = [Coming(one.names - out, one.grams) for one in came]
    if any(not one.names for one in came):
        raise BadInput(f"in meal {number}: read the same food as leaving and as coming; one of the two is expected")
    own = standing.plate.dish.id
    whole = wishes.dish or (dish is not None and dish != own)
    gone = frozenset({own}) if wishes.dish and dish != own else frozenset()
    return Aim(standing, True, out, gone, tuple(came), dish, whole)


def _remembered(struck: list[Struck], wishes: Wishes, aims: Mapping[int, Aim]) -> list[Struck]:
    """What was struck out before, and what is now: for every meal where all were meant."""
    found = list(struck)
    for number, aim in aims.items():
        for what in sorted({*aim.out, *aim.out_dishes}):
            found.append(Struck(meal=None if wishes.meal == ALL else number, what=what))
    return list(dict.fromkeys(found))


def _with_memory(aim: Aim, struck: Collection[Struck], *, held: bool) -> Aim:
    """The aim with what was struck out of its meal before, and now."""
    mine = {one.what for one in struck if one.meal in (None, aim.standing.meal.number)} - aim.asked_for - {aim.dish}
    gone = frozenset(mine) - {aim.standing.plate.dish.id} if not aim.asked else frozenset(mine)
    return replace(aim, out=aim.out | gone, out_dishes=aim.out_dishes | gone, held=held)
