"""Words of a plan: a dish named by what was chosen, a method with those foods in it, grams in kitchen measure."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction

from mealopt.plans.grammar import as_part, one_list, roles_before_nouns, singular
from mealopt.plans.grammar import joined as joined

_ROLE = re.compile(r"\{(\w+)\}")
_OPTIONAL = re.compile(r"\[([^\[\]]*)\]")

#: Roles that stand side by side, and the words that end or begin a list with them: "the egg and {vegetables}".
_SIDE_BY_SIDE = re.compile(
    r"( and )?(\{\w+\}(?:(?:, | and )\{\w+\})*)"
    r"( and (?:basil|chives|cinnamon|(?:fresh )?coriander|dill|lemon|(?:lemon|lime) juice|mint|parsley|pepper|salt)\b)?"
)

#: Measures that are grams in disguise: foods that a cook puts on the scale.
_GRAMS = re.compile(r"^(\d+ )?(g|grams?)$")
_MILLILITRES = re.compile(r"^(\d+) ml$")
_UNCHANGED = {"tbsp", "tsp", "g", "ml"}
_IRREGULAR = {"tomato": "tomatoes", "potato": "potatoes", "loaf": "loaves", "leaf": "leaves", "half": "halves"}

#: From so many of a measure on a cook takes the next larger one, which holds so many (volumes: 3 tsp are 1 tbsp and
#: 16 tbsp are 1 cup, by the table's own household weights).
_LARGER = {"tsp": (3, 3, "tbsp"), "tbsp": (8, 16, "cup")}


def filled(text: str, chosen: Mapping[str, Sequence[str]]) -> str | None:
    """The text with each {role} replaced by its foods; [parts] whose roles were not chosen go.

    None where a role outside brackets was not chosen.
    """

    def keep(part: re.Match[str]) -> str:
        return part[1] if all(chosen.get(role) for role in _ROLE.findall(part[1])) else ""

    kept = _OPTIONAL.sub(keep, text)
    if not all(chosen.get(role) for role in _ROLE.findall(kept)):
        return None

    def listed(side_by_side: re.Match[str]) -> str:
        before, roles, after = side_by_side.groups()
        foods = list(dict.fromkeys(food for role in _ROLE.findall(roles) for food in chosen[role]))
        if len(foods) == 1 or not (before or after):
            return f"{before or ''}{joined(foods)}{after or ''}"
        first = ", " if before else ""
        return f"{first}{', '.join(foods)}{after}" if after else f"{first}{joined(foods)}"

    words = _SIDE_BY_SIDE.sub(listed, kept)
    return re.sub(r"\s+", " ", words).strip()


def dish_name(template: str, chosen: Mapping[str, Sequence[str]]) -> str:
    """A dish's name with the chosen foods in it; roles that were not chosen leave no gap.

    Foods of several roles that stand side by side read as one list: "eggs and tomatoes and potatoes" is "eggs, tomatoes
    and potatoes". A food that stands before the dish that it is a part of is one: "pinto bean fajitas".
    """
    before = roles_before_nouns(template)
    told = {role: [as_part(food) for food in foods] if role in before else foods for role, foods in chosen.items()}
    name = filled(template, told)
    if name is None:
        return re.sub(r"\s+", " ", _ROLE.sub("", _OPTIONAL.sub("", template))).strip()
    return one_list(name)


def as_said(says: str, grams: float, measure: str, measure_g: float) -> str:
    """A food's words in a name: one of it where there is no more ("bread roll"), else as the pantry has it."""
    one = singular(says)
    counted = one.split(" ")[-1] == measure.split(" ")[-1] and grams <= 1.01 * measure_g
    return one if counted else says


def method_of(sentences: Sequence[str], chosen: Mapping[str, Sequence[str]]) -> tuple[str, ...]:
    """The method's sentences with the chosen foods in them; one that speaks of what was not chosen is left out."""
    return tuple(text for sentence in sentences if (text := filled(sentence, chosen)))


#: Teaspoons that are half a tablespoon and no more or one more: "1 1/2 tbsp", "1 1/2 tbsp and 1 tsp".
_HALF_A_TBSP_MORE = (Fraction(3, 2), Fraction(5, 2))


def _said(count: Fraction) -> str:
    """A count as a cook says it: "1/2", "1 1/2", "3"."""
    whole, rest = divmod(count.numerator, count.denominator)
    part = f"{rest}/{count.denominator}" if rest else ""
    return " ".join(word for word in (str(whole) if whole else "", part) if word) or "0"


def _plural(measure: str, count: Fraction) -> str:
    *before, noun = measure.split(" ")
    if count <= 1 or noun in _UNCHANGED:
        return measure
    if noun in _IRREGULAR:
        noun = _IRREGULAR[noun]
    elif noun.endswith("y") and noun[-2:-1] not in "aeiou":
        noun = noun[:-1] + "ies"
    else:
        noun += "es" if noun.endswith(("ch", "sh", "x", "ss")) else "s"
    return " ".join([*before, noun])


def _measured(count: Fraction, measure: str) -> list[tuple[Fraction, str]]:
    """Counts and measures that a kitchen has: no eighth of a cup, no half of a half, no dozen of spoons."""
    if measure.startswith("half "):
        return [(count / 2, measure.removeprefix("half "))]
    if measure == "cup" and count.denominator == 8:
        return [*([(count - Fraction(1, 8), "cup")] if count > Fraction(1, 8) else []), (Fraction(2), "tbsp")]
    if measure not in _LARGER or count < _LARGER[measure][0]:
        return [(count, measure)]
    _, holds, larger = _LARGER[measure]
    whole = Fraction(count // holds) if larger == "tbsp" else Fraction(count * 4 // holds, 4)
    rest = count - whole * holds
    if larger == "tbsp" and rest in _HALF_A_TBSP_MORE:
        whole, rest = whole + Fraction(1, 2), rest - Fraction(3, 2)
    return [*_measured(whole, larger), *([(rest, measure)] if rest else [])]


def kitchen_measure(grams: float, measure: str, measure_g: float) -> str:
    """Grams as a cook measures them: "1/2 cup", "2 eggs", "1 tbsp and 1 tsp"; by weight where that is the measure."""
    if _GRAMS.match(measure):
        return f"{grams:.0f} g"
    if millilitres := _MILLILITRES.match(measure):
        return f"{grams / measure_g * int(millilitres[1]):.0f} ml"
    count = Fraction(grams / measure_g).limit_denominator(8)
    return " and ".join(f"{_said(one)} {_plural(unit, one)}" for one, unit in _measured(count, measure))
