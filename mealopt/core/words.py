"""Numbers, bands, times and foods as a person reads them: a unit with each number, no false digits.

Shared by the terminal and the page, so that both say the same.
"""

from __future__ import annotations

import re
from datetime import date
from typing import Protocol

from mealopt.core.bands import Band
from mealopt.core.nutrients import LABELS, UNITS

DAY_NAMES = {
    "mon": "Monday",
    "tue": "Tuesday",
    "wed": "Wednesday",
    "thu": "Thursday",
    "fri": "Friday",
    "sat": "Saturday",
    "sun": "Sunday",
}

IN_SHORT = (
    "Planning help for healthy adults, not medical advice: read the cautions below; with a condition, a doctor or "
    "registered dietitian decides."
)

MARKS = (
    "[project] marks a rule of this program's own, [common practice, no source] a rule of thumb, [memory] a value that "
    "was not read in its source."
)

#: A meal's kind, where its word alone would not say it.
SLOTS = {"before": "before a session", "during": "in the session", "after": "after a session"}

#: How far the search for a plan came.
ENDED = {
    "optimal": "proven within the gap asked for",
    "gap": "the time ended before the gap asked for was proven",
    "limit": "the time ended, and how far it is from the best is not known",
    "stopped": "stopped by hand: the best so far",
}


def number(value: float) -> str:
    """A number without false digits: 2,740 and 118 whole, 8.9 and 0.8 with one digit, 0.025 with two that count."""
    if abs(value) >= 9.95:
        return f"{value:,.0f}"
    text = f"{value:.1f}" if abs(value) >= 0.095 or value == 0 else f"{value:.2g}"
    return text.removesuffix(".0")


def amount(value: float, key: str) -> str:
    """A nutrient's number with the unit of its key: "118 g"."""
    return f"{number(value)} {UNITS[key]}"


def held(value: float, key: str) -> str:
    """What a meal holds of a nutrient, no finer than a tenth: "118 g", "0.3 g", "0 g"."""
    return amount(max(0.1, value) if value >= 0.05 else 0.0, key)


def label(key: str) -> str:
    """The words for a nutrient's key."""
    return LABELS[key]


def limits(band: Band, unit: str = "") -> str:
    """A band in words: "3,815-3,971, aim 3,893", "at least 400", "at most 43"."""
    least, aim, most = band.least, band.aim, band.most
    unit = f" {unit}" if unit else ""
    if least is not None and most is not None:
        text = f"{number(least)}-{number(most)}{unit}"
    elif least is not None:
        text = f"at least {number(least)}{unit}"
    elif most is not None:
        text = f"at most {number(most)}{unit}"
    else:
        return "no limit" if aim is None else f"aim {number(aim)}{unit}"
    return text if aim is None or aim == least else f"{text}, aim {number(aim)}"


def duration(minutes: int) -> str:
    """Minutes as people say them: "45 min", "2 h", "3 h 45 min"."""
    hours, rest = divmod(minutes, 60)
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest} min" if rest else f"{hours} h"


def dated(on: date | None, day: str) -> str:
    """The day's name, with its date where there is one: "Saturday 13 March 2027"."""
    return f"{DAY_NAMES[day]} {long_date(on)}" if on else DAY_NAMES[day]


def long_date(on: date) -> str:
    """ "13 March 2027"."""
    return f"{on.day} {on:%B %Y}"


def held_beside(value: float, most: float, key: str) -> str:
    """What is held beside a limit, as `amount`; rounding never makes a met limit look broken."""
    met = value <= most + 1e-9 or missed(Band(None, None, most), value) == 0
    if met and float(number(value).replace(",", "")) > float(number(most).replace(",", "")):
        value = most
    return amount(value, key)


def missed(band: Band, value: float) -> float:
    """How far a value lies outside its band, above 0 over it, below 0 short of it; rounding is let pass."""
    for limit, sign in ((band.least, -1), (band.most, 1)):
        if limit is not None and sign * (value - limit) > 1e-3 * abs(limit) + 1e-6:
            return value - limit
    return 0.0


class Weighed(Protocol):
    """A food of a meal, as the plan document lists it."""

    @property
    def food(self) -> str: ...
    @property
    def grams(self) -> float: ...
    @property
    def measure(self) -> str: ...
    @property
    def state(self) -> str: ...
    @property
    def as_bought_g(self) -> float: ...


#: States that say nothing which the food's name does not.
_PLAIN = ("ready", "liquid")

#: Bought weight is told where it differs by more than this share: cooked rice, fruit with a stone.
_WORTH_TELLING = 0.05

#: A food that weighs less than this share when bought was dry.
_DRY = 0.75

#: What stays behind the comma: "tuna, tinned in water".
_STAYS_BEHIND = re.compile(r"tinned in ")

#: Names that say themselves that the food is cooked.
_COOKED = re.compile(r"\b(boiled|baked|roast|fried|scrambled|omelette)\b")

#: What matters where the food is bought, and not on the plate: "bread, gluten-free, vegan".
_KIND_BOUGHT = ", vegan"

_WEIGHT = re.compile(r"[\d.,]+ g")


def portion(item: Weighed) -> str:
    """A food in kitchen measure and grams: "1/2 cup rolled oats (40 g, dry)", "3 eggs (150 g, cooked)".

    Its weight dry, or as bought, is told where cooking or peel makes that another one.
    """
    own = str(getattr(item, "source", "")).startswith("own:")
    food = item.food if own else spoken(item.food.removesuffix(_KIND_BOUGHT))
    told = item.state in _PLAIN or item.state in food.split() or (item.state == "cooked" and _COOKED.search(food))
    details = [] if told else [item.state]
    if item.as_bought_g and abs(item.as_bought_g - item.grams) > max(1.0, _WORTH_TELLING * item.grams):
        dry = item.state == "cooked" and item.as_bought_g < _DRY * item.grams
        details.append(f"{number(item.as_bought_g)} g {'dry' if dry else 'as bought'}")
    if not _WEIGHT.fullmatch(item.measure):
        details.insert(0, f"{number(item.grams)} g")
    return measured(item.measure, food) + (f" ({', '.join(details)})" if details else "")


def spoken(food: str) -> str:
    """A pantry's name as a recipe has it: "rolled oats" of "oats, rolled", "gluten-free vegan bread"."""
    head, *tails = food.split(", ")
    if tails == ["omelette"]:
        return head
    if not tails or any(_STAYS_BEHIND.match(tail) for tail in tails):
        return food
    return " ".join([*tails, head])


def measured(measure: str, food: str) -> str:
    """Measure and food as one phrase; a measure that is the food itself is not said twice.

    "1/2 cup" of "rolled oats" is "1/2 cup rolled oats"; "3 eggs" of "egg" is "3 eggs"; "29 sweets" of "jelly sweets"
    is "29 jelly sweets"; "1/2 small baked potato" of "baked potato" is just that.
    """
    head, comma, tail = food.partition(",")
    kept, unit = measure.split(" ")[:-1], measure.split(" ")[-1]
    named = head.split(" ")
    if not kept or not (_forms(unit) & _forms(named[-1])):
        return f"{measure} {food}"
    told = tail.strip() in kept
    counted = [word for word in kept if word not in named[:-1]]
    return f"{' '.join([*counted, *named[:-1], unit])}{'' if told else comma + tail}"


def _forms(word: str) -> set[str]:
    """The word and what it may be the plural of."""
    forms = {word}
    for end, single in (("ies", "y"), ("ves", "f"), ("es", ""), ("s", "")):
        if word.endswith(end) and len(word) > len(end) + 1:
            forms.add(word.removesuffix(end) + single)
    return forms
