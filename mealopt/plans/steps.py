"""What a cook must be told beside a dish's own sentences: the salt, and water and minutes for grains."""

from __future__ import annotations

import re
from collections.abc import Sequence

from mealopt.table.pantry import Food

#: Parts of water to one of the dry grain, both by volume, and minutes under a lid [common practice, no source].
_WATER = {
    "amaranth": ("two and a half times", 20),
    "buckwheat": ("twice", 15),
    "bulgur": ("twice", 12),
    "millet": ("two and a half times", 20),
    "pearl barley": ("three times", 30),
    "quinoa": ("twice", 15),
    "rice, brown": ("two and a half times", 25),
    "rice, short-grain": ("twice", 12),
    "rice, white": ("twice", 12),
    "rice, wild": ("three times", 40),
    "spelt": ("three times", 30),
}

#: Sentences that say how much water or how long already.
_SAID = re.compile(r"\b(?:minutes?|an? hour|water|stock|broth|dry rice|ladle)\b")

#: Sentences before which a dish is seasoned.
_SERVES = re.compile(r"(?:Serve|Eat|Drink|Pack|Keep)\b")

SEASON = "Season with the salt."

#: What is said of meat, fish and eggs, and what is said where a plate holds none: nothing on it is raw by nature.
_DONE = re.compile(r"\b(?:hot and )?(?:done|cooked) (?:right )?through\b")
_HOT = "hot right through"


def complete(method: Sequence[str], foods: Sequence[Food], salted: bool) -> tuple[str, ...]:
    """The method without words for meat where there is none, with water and minutes for grains, and the salt.

    foods: what is on the plate; salted: whether cooking salt is among it.
    """
    steps: list[str] = []
    plants = all(food.diet in ("vegan", "vegetarian") and food.kin != "egg" for food in foods)
    for told in method:
        step = _DONE.sub(_HOT, told) if plants else told
        steps += [step, *_boiled(step, foods)]
    if salted and not any(re.search(r"\bsalt", step, re.IGNORECASE) for step in steps):
        last = next((place for place, step in enumerate(steps) if place and _SERVES.match(step)), len(steps))
        steps.insert(last, SEASON)
    return tuple(steps)


def _boiled(step: str, foods: Sequence[Food]) -> list[str]:
    return [
        f"Dry {food.says} takes {water} its volume of water and about {minutes} minutes under a lid."
        for food in foods
        if food.name in _WATER and re.search(rf"\b(?:boil|cook)\b[^.;]*\b{re.escape(food.says)}\b", step, re.IGNORECASE)
        for water, minutes in [_WATER[food.name]]
        if not _SAID.search(step) or "in water until soft" in step
    ]
