"""English of food words: one of a thing, a food as part of a dish's name ("pinto bean fajitas"), lists of foods."""

from __future__ import annotations

import re
from collections.abc import Sequence

#: Where one list of foods in a name ends and the next begins.
_LISTS = re.compile(r"(, and |: | (?:with|in|on|of|beside|over|from|without) )")

#: What a food may be a part of the name of: "mushroom soup", "prawn and tomato curry".
_NOUNS = (
    *("bites", "bowl", "burger", "burritos", "curry", "dal", "dip", "fajitas", "fried rice", "kebab", "keema", "kofta"),
    *("lassi", "meatballs", "melt", "pie", "porridge", "pudding", "quesadillas", "salad", "sandwich", "sauce"),
    *("skewers", "soup", "squares", "stew", "stir-fry", "stroganoff", "tacos", "wrap"),
)
_PART_OF = re.compile(rf"\{{(\w+)\}}(?= (?:and (?:[\w-]+|\{{\w+\}}) )?(?:{'|'.join(_NOUNS)})\b)")

#: Words that end in s and are one thing.
_ONE_ALREADY = re.compile(r"(?:ss|us|is|as)$")
_SINGLE = {"leaves": "leaf", "loaves": "loaf", "halves": "half", "potatoes": "potato", "tomatoes": "tomato"}
_OWN_PART = {"meat-free pieces": "meat-free"}


def joined(words: Sequence[str]) -> str:
    """ "a, b and c"."""
    return " and ".join([*([", ".join(words[:-1])] if len(words) > 1 else []), *words[-1:]])


def singular(words: str) -> str:
    """One of it: "corn tortilla" of "corn tortillas"; what is one thing already stays."""
    *before, noun = words.split(" ")
    if noun in _SINGLE:
        noun = _SINGLE[noun]
    elif noun in ("peas", "cookies"):
        noun = noun[:-1]
    elif noun.endswith("ies"):
        noun = noun[:-3] + "y"
    elif noun.endswith(("ches", "shes", "xes", "sses")) and noun != "quiches":
        noun = noun[:-2]
    elif noun.endswith("s") and not _ONE_ALREADY.search(noun):
        noun = noun[:-1]
    return " ".join([*before, noun])


def as_part(words: str) -> str:
    """The food as it stands before the dish that it is a part of: "pinto bean" (fajitas)."""
    return _OWN_PART.get(words) or singular(words)


def roles_before_nouns(template: str) -> set[str]:
    """Roles of a dish's name that stand before what they are a part of: "{beans} fajitas with {salad}" has beans."""
    return set(_PART_OF.findall(template))


def one_list(name: str) -> str:
    """The name with each list of foods in it read as one: "eggs and tomatoes and potatoes", "Gouda, tomatoes"."""
    return "".join(_listed(part) for part in _LISTS.split(name))


def _listed(words: str) -> str:
    parts = words.split(" and ")
    if len(parts) > 2:
        return " and ".join([", ".join(parts[:-1]), parts[-1]])
    head, comma, tail = words.rpartition(", ")
    if len(parts) == 1 and comma and head and tail:
        return f"{head} and {tail}"
    return words
