"""A food of a meal in kitchen measure and grams: "1/2 cup oats, rolled (40 g, dry)", "3 eggs (150 g, cooked)"."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from mealopt.cli.wording import number

if TYPE_CHECKING:
    from mealopt.api import Item

#: States that say nothing which the food's name does not.
_PLAIN = ("ready", "liquid")

#: Bought weight is told where it differs by more than this share: cooked rice, fruit with a stone.
_WORTH_TELLING = 0.05

_WEIGHT = re.compile(r"[\d.,]+ g")


def portion(item: Item) -> str:
    """One line for one food; bought weight where peel or cooking makes it another one."""
    details = [] if item.state in _PLAIN or item.state in item.food.split() else [item.state]
    if item.as_bought_g and abs(item.as_bought_g - item.grams) > max(1.0, _WORTH_TELLING * item.grams):
        details.append(f"{number(item.as_bought_g)} g as bought")
    if not _WEIGHT.fullmatch(item.measure):
        details.insert(0, f"{number(item.grams)} g")
    return measured(item.measure, item.food) + (f" ({', '.join(details)})" if details else "")


def measured(measure: str, food: str) -> str:
    """Measure and food as one phrase; a measure that is the food itself is not said twice.

    "1/2 cup" of "oats, rolled" is "1/2 cup oats, rolled"; "3 eggs" of "egg" is "3 eggs"; "29 sweets" of "jelly sweets"
    is "29 jelly sweets"; "1/2 small baked potato" of "potato, baked" is just that.
    """
    head, comma, tail = food.partition(",")
    kept, unit = measure.split(" ")[:-1], measure.split(" ")[-1]
    named = head.split(" ")
    if not kept or not (_forms(unit) & _forms(named[-1])):
        return f"{measure} {food}"
    said = [word for word in named[:-1] if word not in kept]
    told = tail.strip() in kept
    return f"{' '.join([*kept, *said, unit])}{'' if told else comma + tail}"


def _forms(word: str) -> set[str]:
    """The word and what it may be the plural of."""
    forms = {word}
    for end, single in (("ies", "y"), ("ves", "f"), ("es", ""), ("s", "")):
        if word.endswith(end) and len(word) > len(end) + 1:
            forms.add(word.removesuffix(end) + single)
    return forms
