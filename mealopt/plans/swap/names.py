"""Foods, dishes and amounts as a person writes them, found among what stands or could stand in a meal."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence

from mealopt.documents.plan import Meal
from mealopt.errors import BadInput
from mealopt.plans.held.standing import StandingDay
from mealopt.plans.swap.aims import Coming
from mealopt.table.find import nearest, plain

_WORD = re.compile(r"[a-z0-9]+")
_AMOUNT = re.compile(r"\s*(\d+(?:[.,]\d+)?)\s*g\s*", re.IGNORECASE)

#: Names told at most where one was not understood.
TOLD = 8


def matches(words: str, names: Collection[str]) -> list[str]:
    """The names that these words mean: the same name, else those that hold all the words whole, in any order."""
    wanted = plain(" ".join(words.split()))
    same = [name for name in names if plain(name) == wanted]
    asked = set(_WORD.findall(wanted))
    return same or sorted(name for name in names if asked and asked <= set(_WORD.findall(plain(name))))


def head(name: str) -> str:
    """What a food is, before how it is: "rice" of "rice, white"."""
    return plain(name.partition(",")[0]).strip()


def same_head(words: str, names: Collection[str]) -> list[str]:
    """The names that these words are the head of: all kinds of rice for "rice"; none where one has just this name."""
    wanted = plain(" ".join(words.split()))
    if any(plain(name) == wanted for name in names):
        return []
    return sorted(name for name in names if head(name) == wanted)


def one_of(words: str, names: Collection[str], where: str, none: str) -> str:
    """The one name that these words mean. none: the end of the sentence where no name does. Raises BadInput."""
    found = matches(words, names)
    if len(found) == 1:
        return found[0]
    if found:
        raise BadInput(f"{where}: read {words!r}, which may be {listed(found, 'or')}; the name of one is expected")
    raise BadInput(f"{where}: read {words!r}; {none}")


def listed(names: Collection[str], last: str = "and") -> str:
    """The names in a row, at most so many of them."""
    told = list(names)[:TOLD]
    if len(names) > TOLD:
        return f"{'; '.join(told)} and {len(names) - TOLD} more"
    return f" {last} ".join(["; ".join(told[:-1]), told[-1]]) if len(told) > 1 else "".join(told)


def weighed(text: str, where: str) -> tuple[str, float | None]:
    """The name and the grams of "rice, white=200g"; None where no amount is given. Raises BadInput."""
    name, sign, amount = text.rpartition("=")
    if not sign:
        return text.strip(), None
    found = _AMOUNT.fullmatch(amount)
    if not found or not name.strip():
        raise BadInput(f'{where}: read {text!r}; a food and its grams are expected, as in "rice, white=200g"')
    return name.strip(), float(found[1].replace(",", "."))


def dish_of(words: str, menu_dishes: Collection[str], meal: Meal | None = None) -> str | None:
    """The dish that these words are the id of, or the name of in this meal; None where they are neither."""
    wanted = "_".join(_WORD.findall(plain(words)))
    if meal is not None and meal.dish_id is not None and plain(words) == plain(meal.dish):
        return meal.dish_id
    return wanted if wanted in menu_dishes else None


def standing_foods(day: StandingDay, index: int) -> dict[str, list[str]]:
    """Every food that may stand in a slot -> the dishes that hold it there."""
    found: dict[str, list[str]] = {}
    settled = day.posed.settled_plates.get(index)
    slot = day.posed.slots[index]
    made = [settled] if settled else (day.plate(index, dish.id) for dish in day.wide.menu.for_slot(slot))
    for plate in made:
        for part in plate.parts if plate is not None else ():
            for choice in part.choices:
                found.setdefault(choice.name, []).append(plate.dish.id if plate is not None else "")
    return found


def coming(text: str, day: StandingDay, index: int, number: int) -> Coming:
    """What is to come into a meal: a food, or any of a kind. Raises BadInput where no dish of that meal holds it."""
    where = f"in meal {number}"
    name, grams = weighed(text, where)
    may = standing_foods(day, index)
    pantry = day.wide.menu.pantry
    kinds = same_head(name, pantry.foods)
    found = sorted(set(kinds) & may.keys()) or matches(name, may)
    known = kinds or matches(name, pantry.foods)
    if not found and known:
        why = _kept_out(known[0], day) or f"no dish for {_meal(day.posed.slots[index].kind)} that fits here holds it"
        raise BadInput(f"{where}: read {name!r}; {why}")
    if not kinds:
        found = [one_of(name, may, where, f"no food or dish is called that{nearest(name, pantry)}")]
    if grams is not None:
        found = _in_steps(found, grams, day, where)
    return Coming(frozenset(found), grams)


def _meal(kind: str) -> str:
    words: Mapping[str, str] = {
        "before": "a meal before a session",
        "during": "eating in a session",
        "after": "a meal after a session",
    }
    return words.get(kind, f"a {kind}")


def _kept_out(food: str, day: StandingDay) -> str:
    wishes, row = day.wide.filter, day.wide.menu.pantry.foods[food]
    if food in wishes.never:
        return f"{food} is on the case's list of what is never planned"
    why = wishes.refuses(row.diet, frozenset(row.allergens))
    return "" if why is None else f"{food} is kept out by the case: {why}"


def _in_steps(foods: Sequence[str], grams: float, day: StandingDay, where: str) -> list[str]:
    """The foods of which so many grams are whole kitchen steps. Raises BadInput where that is none of them."""
    rows = [day.wide.menu.pantry.foods[food] for food in foods]
    found = [
        row.name for row in rows if abs(max(1, round(grams / row.step_g)) * row.step_g - grams) <= 0.5 + 0.01 * grams
    ]
    if found:
        return found
    row = rows[0]
    below = int(grams / row.step_g)
    near = [f"{max(1, steps) * row.step_g:g} g" for steps in sorted({max(1, below), below + 1})]
    raise BadInput(
        f"{where}: read {grams:g} g of {row.name}; whole kitchen steps of {row.step_g:g} g are expected, such as "
        f"{' or '.join(near)}"
    )
