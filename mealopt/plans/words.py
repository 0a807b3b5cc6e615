"""Words of a plan: a dish named by what was chosen, a method with those foods in it, grams in kitchen measure."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction

_ROLE = re.compile(r"\{(\w+)\}")
_OPTIONAL = re.compile(r"\[([^\[\]]*)\]")

#: Measures that are grams in disguise: foods that a cook puts on the scale.
_GRAMS = re.compile(r"^(\d+ )?(g|grams?)$")
_UNCHANGED = {"tbsp", "tsp", "g", "ml", "heaped tbsp", "level tbsp", "heaped tsp", "level tsp"}


def joined(words: Sequence[str]) -> str:
    """ "a, b and c"."""
    return " and ".join([*([", ".join(words[:-1])] if len(words) > 1 else []), *words[-1:]])


def filled(text: str, chosen: Mapping[str, Sequence[str]]) -> str | None:
    """The text with each {role} replaced by its foods; [parts] whose roles were not chosen go.

    None where a role outside brackets was not chosen.
    """

    def keep(part: re.Match[str]) -> str:
        return part[1] if all(chosen.get(role) for role in _ROLE.findall(part[1])) else ""

    kept = _OPTIONAL.sub(keep, text)
    if not all(chosen.get(role) for role in _ROLE.findall(kept)):
        return None
    words = _ROLE.sub(lambda role: joined(list(dict.fromkeys(chosen[role[1]]))), kept)
    return re.sub(r"\s+", " ", words).strip()


def dish_name(template: str, chosen: Mapping[str, Sequence[str]]) -> str:
    """A dish's name with the chosen foods in it; roles that were not chosen leave no gap."""
    name = filled(template, chosen)
    return name if name is not None else re.sub(r"\s+", " ", _ROLE.sub("", _OPTIONAL.sub("", template))).strip()


def method_of(sentences: Sequence[str], chosen: Mapping[str, Sequence[str]]) -> tuple[str, ...]:
    """The method's sentences with the chosen foods in them; one that speaks of what was not chosen is left out."""
    return tuple(text for sentence in sentences if (text := filled(sentence, chosen)))


def _count(amount: float) -> str:
    """A count as a cook says it: "1/2", "1 1/2", "3"."""
    share = Fraction(amount).limit_denominator(8)
    whole, rest = divmod(share.numerator, share.denominator)
    part = f"{rest}/{share.denominator}" if rest else ""
    return " ".join(word for word in (str(whole) if whole else "", part) if word) or "0"


def _plural(measure: str, count: float) -> str:
    if count <= 1 or measure in _UNCHANGED or measure.endswith("s"):
        return measure
    head, _, tail = measure.partition(" of ")
    if head.endswith("y") and head[-2:-1] not in "aeiou":
        head = head[:-1] + "ies"
    elif head.endswith("f"):
        head = head[:-1] + "ves"
    else:
        head += "es" if head.endswith(("ch", "sh", "x", "o")) and not head.endswith("oo") else "s"
    return f"{head} of {tail}" if tail else head


def kitchen_measure(grams: float, measure: str, measure_g: float) -> str:
    """Grams as a cook measures them: "1/2 cup", "2 eggs", "3 tbsp"; by weight where the measure is a weight."""
    if _GRAMS.match(measure):
        return f"{grams:.0f} g"
    count = grams / measure_g
    return f"{_count(count)} {_plural(measure, count)}"
