"""What somebody says that they ate, found in the pantry, among their own foods, or in the food table."""

from __future__ import annotations

import re
from dataclasses import dataclass
from difflib import get_close_matches

from mealopt.core.nutrients import ENERGY
from mealopt.documents.plan import Item
from mealopt.errors import BadInput
from mealopt.plans.replan.events import Ate
from mealopt.table.composition import CompositionRow
from mealopt.table.find import Found, find_foods, nearest_names, plain
from mealopt.table.pantry import Food, Pantry

_WORD = re.compile(r"[a-z0-9]+")
_OWN = "own:"

#: Other rows that are named beside the one that is taken.
OTHERS = 2

#: Rows of the table that are named where nothing is found.
NEAR = 3


@dataclass(frozen=True, slots=True)
class FoundFood:
    """What was eaten as an item of the plan; item is None where only its energy is known. says: which row was taken."""

    ate: Ate
    item: Item | None
    says: str

    @property
    def name(self) -> str:
        """What it is called: as it was written, or as the table has it where its number was written."""
        return self.item.says if self.item is not None and self.ate.name.isdecimal() else self.ate.name


def find_ate(ate: Ate, pantry: Pantry) -> FoundFood:
    """The food that is meant. Raises BadInput, with the nearest that there are, where there is none."""
    if ate.kcal is not None:
        return FoundFood(ate, None, f"{ate.name}: {ate.kcal:,.0f} kcal as you gave it")
    grams = ate.grams or 0.0
    food = _by_name(ate.name, pantry)
    if food is not None:
        return FoundFood(ate, _item(grams, food.name, food, None), "")
    found = _whole_words(ate.name, pantry)
    if not found:
        raise BadInput(f"--ate: read {ate.name!r}; no food of the pantry or the table is called so{_near(ate, pantry)}")
    best = found[0]
    others = "; ".join(_named(one) for one in found[1 : 1 + OTHERS])
    numbered = ate.name.strip() == best.row.ndb and best.food is None
    taken = "" if best.name == ate.name.strip() and not numbered else f"{ate.name} is taken as {_named(best)}"
    more = f"; others: {others}" if others and taken else ""
    kcal = best.row.per_100g.get(ENERGY)
    says = f"{taken}, {kcal:g} kcal in 100 g{more}" if taken and kcal is not None else ""
    return FoundFood(ate, _item(grams, best.row.name, best.food, best.row), says)


def _by_name(name: str, pantry: Pantry) -> Food | None:
    wanted = plain(" ".join(name.split()))
    return next((food for food in pantry.foods.values() if plain(food.name) == wanted), None)


def _whole_words(name: str, pantry: Pantry) -> list[Found]:
    """What holds all the words whole, best first; of a plural the singular too."""
    words = _WORD.findall(plain(name))
    singular = " ".join(word[:-1] if len(word) > 3 and word.endswith("s") else word for word in words)
    for asked in dict.fromkeys((name, singular)):
        wanted = set(_WORD.findall(plain(asked)))
        found = [one for one in find_foods(asked, pantry) if wanted <= _words_of(one) or one.row.ndb in wanted]
        if found:
            return found
    return []


def _words_of(found: Found) -> set[str]:
    names = found.row.name if found.food is None else f"{found.food.name} {found.food.says} {found.row.name}"
    words = set(_WORD.findall(plain(names)))
    return words | {word[:-1] for word in words if len(word) > 3 and word.endswith("s")}


def _named(found: Found) -> str:
    return found.name if found.food is not None else f"{found.row.ndb} {found.row.name}"


def _near(ate: Ate, pantry: Pantry) -> str:
    """The nearest foods that there are: by the name, by one of its words, or by a word that is spelt much like one."""
    words = [word for word in _WORD.findall(plain(ate.name)) if len(word) > 2]
    known = {word for row in pantry.composition.rows.values() for word in _WORD.findall(plain(row.name))}
    spelt = [near for word in words for near in get_close_matches(word, known, n=2, cutoff=0.75)]
    rows = [_named(one) for word in (*words, *spelt) for one in find_foods(word, pantry)[:NEAR]]
    listed = list(dict.fromkeys([*nearest_names(ate.name, pantry), *rows]))[:NEAR]
    return f" (nearest: {'; '.join(listed)})" if listed else ""


def _item(grams: float, name: str, food: Food | None, row: CompositionRow | None) -> Item:
    if food is None:
        assert row is not None
        source, state, says, bought = f"USDA-SR28:{row.ndb}", "as eaten", row.name, grams
    else:
        source, state, says, name = food.source, food.state, food.says, food.name
        bought = grams * food.bought_per_gram
    return Item(
        food=name,
        source=source,
        grams=grams,
        measure=f"{grams:g} g",
        state=state,
        as_bought_g=round(bought, 1),
        says=says,
    )
