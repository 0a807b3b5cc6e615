"""What is at home: read from words and files, and found among the foods that are sold."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from difflib import get_close_matches

from mealopt.errors import BadInput
from mealopt.table.find import nearest_names, plain
from mealopt.table.packs import sold
from mealopt.table.pantry import Pantry

#: Nobody has more of a food at home, g.
MOST_G = 1_000_000.0

_GRAMS = re.compile(r"(\d+(?:\.\d+)?|\.\d+) *(g|kg)", re.ASCII)
_EXPECTED = 'a food and its weight as bought is expected, like "oats, rolled=400g"'


def have_from_text(text: str, where: str) -> dict[str, float]:
    """Food -> grams as bought, as named: one a line, "oats, rolled = 400 g"; lines that start with # are notes.

    Amounts of one name are added. Raises BadInput with where, and the line where there are several.
    """
    lines = text.removeprefix("\ufeff").splitlines()
    amounts: dict[str, list[float]] = {}
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
        amounts.setdefault(name, []).append(grams)
    return {name: math.fsum(found) for name, found in amounts.items()}


def known_have(have: Mapping[str, float], pantry: Pantry, listed: frozenset[str]) -> dict[str, float]:
    """The shop's name of a thing -> grams at home. listed: the plan's foods, of which the pantry may not hold own ones.

    A food may be named as the pantry or as the shop names it. Raises BadInput with the nearest for one that neither
    knows, and where an amount is no weight.
    """
    shop = {plain(sold(food).name): sold(food).name for food in pantry.foods.values()}
    names = shop | {plain(name): sold(food).name for name, food in pantry.foods.items()}
    names |= {plain(name): name for name in listed if name not in pantry.foods}
    found: dict[str, list[float]] = {}
    for name, grams in have.items():
        if not (math.isfinite(grams) and 0.0 <= grams <= MOST_G):
            raise BadInput(f"at home, {name[:60]}: read {grams:g} g; 0 to {MOST_G:g} g is allowed")
        thing = names.get(plain(" ".join(name.split())))
        if thing is None:
            near = [*nearest_names(name, pantry), *get_close_matches(plain(name), shop, n=1, cutoff=0.8)]
            words = f" (nearest: {'; '.join(dict.fromkeys(near))})" if near else ""
            raise BadInput(f"at home: the pantry has no {name[:60]!r}{words}")
        found.setdefault(thing, []).append(grams)
    return {thing: math.fsum(amounts) for thing, amounts in found.items()}
