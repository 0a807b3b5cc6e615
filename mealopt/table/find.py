"""Finds foods by words, shows all that is known of one, and names the nearest where a name is not known."""

from __future__ import annotations

import difflib
import re
import unicodedata
from dataclasses import dataclass

from mealopt.errors import BadInput
from mealopt.table.composition import CompositionRow
from mealopt.table.pantry import Food, Pantry, shipped_pantry

_WORD = re.compile(r"[a-z0-9]+")
_NUMBER = re.compile(r"\d{5}")
NEAREST = 3


@dataclass(frozen=True, slots=True)
class Found:
    """One food that holds all the words: a pantry food (food) or a row of the table that no pantry food needs.

    name: as it is asked for again. row: the table's row that it stands on.
    """

    name: str
    food: Food | None
    row: CompositionRow


@dataclass(frozen=True, slots=True)
class Shown:
    """All that is known of one food.

    food: its pantry row, None where only the table knows it. row: the table's row as it is weighed. bought: the row as
    it is bought, the same where nothing is cooked; None without a pantry row. used_by: pantry foods that stand on row.
    """

    food: Food | None
    row: CompositionRow
    bought: CompositionRow | None
    used_by: tuple[str, ...]


def plain(text: str) -> str:
    """The text in small letters without accents, so that creme finds what is written with an accent."""
    apart = unicodedata.normalize("NFKD", text.casefold())
    return "".join(letter for letter in apart if not unicodedata.combining(letter))


def _rank(words: list[str], name: str, more: str = "") -> tuple[int, int, int, str] | None:
    """How well a food fits, best smallest; None where a word is in neither of its names.

    It counts words that the name holds only in part or not at all (they stand in more, its other names), then how far
    from the name's start the first stands, then the name's length.
    """
    text = plain(name)
    both = f"{text} {plain(more)}"
    if any(word not in both for word in words):
        return None
    whole = _WORD.findall(text)
    first = min((text.index(word) for word in words if word in text), default=len(text))
    return sum(word not in whole for word in words), first, len(text), text


def find_foods(words: str, pantry: Pantry | None = None) -> list[Found]:
    """Foods whose names hold all the words, in any order, case and accents aside: the pantry's first, best first.

    A pantry food is found by the name of its table row too, so that the table's spelling (yogurt) leads to ours.
    A five-figure number finds the table's row of that number. No words find nothing.
    """
    pantry = pantry or shipped_pantry()
    rows = pantry.composition.rows
    if _NUMBER.fullmatch(words.strip()) and words.strip() in rows:
        row = rows[words.strip()]
        return [Found(name, pantry.foods[name], row) for name in _users(row.ndb, pantry)] + [Found(row.ndb, None, row)]
    wanted = _WORD.findall(plain(words))
    if not wanted:
        return []
    ours = [(_rank(wanted, food.name, f"{food.says} {pantry.row(food).name}"), food) for food in pantry.foods.values()]
    table = [(_rank(wanted, row.name), row) for row in rows.values()]
    best_ours = sorted(((rank, food.name) for rank, food in ours if rank), key=lambda pair: pair[0])
    best_rows = sorted(((rank, row.ndb) for rank, row in table if rank), key=lambda pair: pair[0])
    found = [Found(name, pantry.foods[name], pantry.row(pantry.foods[name])) for _, name in best_ours]
    return found + [Found(ndb, None, rows[ndb]) for _, ndb in best_rows]


def _users(ndb: str, pantry: Pantry) -> tuple[str, ...]:
    return tuple(food.name for food in pantry.foods.values() if food.ndb == ndb)


def show_food(name: str, pantry: Pantry | None = None) -> Shown:
    """All that is known of a pantry food, by name, or of a row of the table, by its five-figure number.

    Raises BadInput, with the nearest names, where neither has it.
    """
    pantry = pantry or shipped_pantry()
    rows = pantry.composition.rows
    known = {plain(food.name): food for food in pantry.foods.values()}
    food = known.get(plain(" ".join(name.split())))
    if food is not None:
        row = pantry.row(food)
        return Shown(food, row, row if food.bought_ndb == food.ndb else rows[food.bought_ndb], _users(food.ndb, pantry))
    if name.strip() in rows:
        return Shown(None, rows[name.strip()], None, _users(name.strip(), pantry))
    raise BadInput(f"no food {name!r} in the pantry, nor a row of that number in the table{nearest(name, pantry)}")


def nearest_names(name: str, pantry: Pantry | None = None) -> list[str]:
    """The pantry foods whose names come nearest to a name, best first, at most NEAREST; none where none is near."""
    pantry = pantry or shipped_pantry()
    wanted = plain(name).strip()
    by_text = {plain(food): food for food in pantry.foods}
    words = {text: set(_WORD.findall(text)) for text in by_text}
    known = sorted({word for found in words.values() for word in found if len(word) > 2})
    asked = set(_WORD.findall(wanted)) & set(known)
    near = {word for one in _WORD.findall(wanted) for word in difflib.get_close_matches(one, known, n=2, cutoff=0.75)}
    score = {text: 2 * len(asked & found) + len((near - asked) & found) for text, found in words.items()}
    shared = sorted((text for text in by_text if score[text]), key=lambda text: (-score[text], len(text), text))
    close = difflib.get_close_matches(wanted, by_text, n=NEAREST, cutoff=0.85)
    return [by_text[text] for text in dict.fromkeys([*close, *shared])][:NEAREST]


def nearest(name: str, pantry: Pantry | None = None) -> str:
    """The end of an error message: " (nearest: oats, rolled; oat bran)", or nothing where none is near."""
    names = nearest_names(name, pantry)
    return f" (nearest: {'; '.join(names)})" if names else ""
