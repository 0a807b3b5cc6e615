"""What is at home: read from words and files, and found among the foods that are sold."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Mapping
from datetime import date

from mealopt.core.clock import DAYS
from mealopt.errors import BadInput
from mealopt.table.find import nearest_names, plain
from mealopt.table.packs import sold
from mealopt.table.pantry import Pantry

#: Nobody has more of a food at home, g.
MOST_G = 1_000_000.0

_GRAMS = re.compile(r"(\d+(?:\.\d+)?|\.\d+) *(g|kg)(?:,? +by +(\S+))?", re.ASCII)
_EXPECTED = (
    'a food and its weight as bought is expected, like "oats, rolled=400g", or with the last day on which it can be '
    'eaten, "spinach, raw=200g by 2027-03-16" or "by tue"'
)


class AtHome(float):
    """Grams as bought that are at home. by: the last day on which they can be eaten, as a date ("2027-03-16") or a day
    of the week ("tue"); "" where nobody said.
    """

    by: str

    def __new__(cls, grams: float, by: str = "") -> AtHome:
        """So many grams, to be eaten by a day."""
        made = super().__new__(cls, grams)
        made.by = by
        return made

    @classmethod
    def of(cls, amounts: Iterable[float]) -> AtHome:
        """Amounts of one food together: the earliest of their last days holds for all of it."""
        found = list(amounts)
        days = sorted(by for one in found if (by := getattr(one, "by", "")))
        return cls(math.fsum(found), days[0] if days else "")


def have_from_text(text: str, where: str) -> dict[str, AtHome]:
    """Food -> grams as bought, as named: one a line, "oats, rolled = 400 g" or "milk = 300 g by tue"; lines that start
    with # are notes.

    Amounts of one name are added. Raises BadInput with where, and the line where there are several.
    """
    lines = text.removeprefix("\ufeff").splitlines()
    amounts: dict[str, list[AtHome]] = {}
    for number, line in enumerate(lines, start=1):
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        place = where if len(lines) == 1 else f"{where}, line {number}"
        name, sign, amount = line.rpartition("=")
        name, found = " ".join(name.split()), _GRAMS.fullmatch(amount.strip())
        if not sign or not name or found is None:
            raise BadInput(f"{place}: read {line.strip()[:80]!r}; {_EXPECTED}")
        grams = float(found[1]) * (1000.0 if found[2] == "kg" else 1.0)
        if not grams <= MOST_G:
            read = f"{amount.strip()[:40]} of {name[:60]}"
            raise BadInput(f"{place}: read {read}; at most {MOST_G / 1000:g} kg is allowed")
        amounts.setdefault(name, []).append(AtHome(grams, _last_day(found[3] or "", place)))
    return {name: AtHome.of(found) for name, found in amounts.items()}


def _last_day(word: str, place: str) -> str:
    if not word or word in DAYS:
        return word
    try:
        return date.fromisoformat(word).isoformat()
    except ValueError:
        raise BadInput(
            f"{place}: by: read {word[:40]!r}; a date like 2027-03-16 or a day ({', '.join(DAYS)}) is expected"
        ) from None


def known_have(have: Mapping[str, float], pantry: Pantry, planned: Mapping[str, str]) -> dict[str, AtHome]:
    """The shop's name of a thing -> grams at home.

    A food may be named as the pantry, the shop or a dish names it. planned: pantry name -> shop's name of the plan's
    foods; they decide where a dish's word ("milk") means several. Raises BadInput with the nearest for one that nobody
    knows, and where an amount is no weight.
    """
    names = _names(pantry, planned)
    found: dict[str, list[float]] = {}
    for name, grams in have.items():
        if not (math.isfinite(grams) and 0.0 <= grams <= MOST_G):
            raise BadInput(f"at home, {name[:60]}: read {grams:g} g; 0 to {MOST_G:g} g is allowed")
        things = names.get(plain(" ".join(name.split())), set())
        meant = things & set(planned.values()) if len(things) > 1 else things
        if len(meant) != 1:
            raise BadInput(f"at home: {_which(name, things, pantry)}")
        found.setdefault(next(iter(meant)), []).append(grams)
    return {thing: AtHome.of(amounts) for thing, amounts in found.items()}


def _names(pantry: Pantry, planned: Mapping[str, str]) -> dict[str, set[str]]:
    """Plain words -> shop's names that they may mean; a pantry's or shop's own name means one thing only."""
    names: dict[str, set[str]] = {}
    for food in pantry.foods.values():
        how = sold(food)
        for words in (food.says, how.one):
            names.setdefault(plain(words), set()).add(how.name)
    names |= {plain(sold(food).name): {sold(food).name} for food in pantry.foods.values()}
    names |= {plain(name): {sold(food).name} for name, food in pantry.foods.items()}
    return names | {plain(name): {thing} for name, thing in planned.items() if name not in pantry.foods}


def _which(name: str, things: set[str], pantry: Pantry) -> str:
    if things:
        return f"{name[:60]!r} may be {' or '.join(sorted(things)[:6])}; one of them is expected"
    near = nearest_names(name, pantry)
    return f"the pantry has no {name[:60]!r}" + (f" (nearest: {'; '.join(near)})" if near else "")
