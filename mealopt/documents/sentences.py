"""Turns what the models refuse into one sentence: where in the document, what was read, what is allowed."""

from __future__ import annotations

import reprlib
from collections.abc import Sequence
from difflib import get_close_matches
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from mealopt.documents.schema import plan_schema

Place = Sequence[int | str]

_EXPECTED: dict[str, str] = {
    "string_type": "words in quotation marks are expected",
    "string_too_short": "words are expected, not an empty text",
    "float_type": "a number is expected, without quotation marks",
    "int_type": "a whole number is expected, without quotation marks",
    "int_from_float": "a whole number is expected",
    "bool_type": "true or false is expected",
    "finite_number": "a finite number is expected",
    "tuple_type": "a list is expected",
    "dict_type": "an object {...} is expected",
    "model_type": "an object {...} is expected",
}


def refusal(error: ValidationError, where: str) -> str:
    """The sentence for the first error; a key that does not exist goes before the one that is missing for it."""
    first = min(error.errors(), key=lambda details: details["type"] != "extra_forbidden")
    place = [part for part in first["loc"] if part != "[key]"]
    path = place[:-1] if first["type"] == "missing" else place
    spot = ", ".join(part for part in (where, _spoken(path)) if part)
    return " ".join(f"{spot}: {_says(first, place)}".split())


def shown(value: Any) -> str:
    """What was read, short enough for a sentence."""
    if value is None:
        return "null"
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        cut = value if len(value) <= 60 else f"{value[:57]}..."
        return f'"{cut}"' if cut.isprintable() else '"' + cut.encode("unicode_escape").decode("ascii") + '"'
    if isinstance(value, dict):
        return "an object"
    if isinstance(value, list | tuple):
        return f"a list of {len(value)}"
    if isinstance(value, int) and value.bit_length() > 200:
        return "a number of more than 60 digits"
    return str(value) if isinstance(value, int | float) else reprlib.repr(value)


def _spoken(path: Place) -> str:
    """ "days 1, meals 3, grams": entries of lists are counted from 1."""
    words: list[str] = []
    for part in path:
        if isinstance(part, int) and words:
            words[-1] = f"{words[-1]} {part + 1}"
        else:
            words.append(part if isinstance(part, str) and len(part) <= 60 else f"{str(part)[:57]}...")
    return ", ".join(words)


def _says(details: ErrorDetails, place: Place) -> str:
    kind, value, context = details["type"], details["input"], details.get("ctx", {})
    if kind == "missing":
        return f'read no "{place[-1]}"; it is expected'
    if kind == "extra_forbidden":
        return f"read a key that does not exist; {_nearest(place)}"
    if kind == "literal_error":
        return f"read {shown(value)}; {context['expected'].replace(chr(39), chr(34))} is expected"
    if kind in ("greater_than", "greater_than_equal", "less_than_equal"):
        bound = {"gt": "above {:g}", "ge": "{:g} or more", "le": "{:g} or less"}
        says = next(words.format(context[key]) for key, words in bound.items() if key in context)
        return f"read {shown(value)}; {says} is expected"
    if kind == "string_pattern_mismatch":
        return f"read {shown(value)}; {_pattern(place)} is expected"
    if kind == "value_error":
        return f"read {shown(value)}; {context['error']}"
    if kind in ("too_long", "too_short"):
        return f"read {shown(value)}; {'at most' if kind == 'too_long' else 'at least'} one to seven days are expected"
    message = details["msg"]
    return f"read {shown(value)}; {_EXPECTED.get(kind, message[:1].lower() + message[1:])}"


def _pattern(place: Place) -> str:
    return {
        "sha256": "a SHA-256 sum of 64 hexadecimal digits in small letters",
        "source": '"USDA-SR28:" with the five digits of a row, or "own:" with FILE#NAME,',
    }.get(str(place[-1]), 'a time like "07:30" (after midnight: "25:30")')


def _nearest(place: Place) -> str:
    allowed = _keys_at(place[:-1])
    near = get_close_matches(str(place[-1])[:100].lower(), allowed, n=1, cutoff=0.6)
    return f'did you mean "{near[0]}"?' if near else f"allowed here: {', '.join(allowed)}"


def _keys_at(path: Place) -> list[str]:
    """The keys of the object at this place, by the document's own schema."""
    schema = plan_schema()
    node: dict[str, Any] = schema
    for part in path:
        node = _resolved(node, schema)
        node = (
            node["items"]
            if isinstance(part, int)
            else node.get("properties", {}).get(part) or node["additionalProperties"]
        )
    return list(_resolved(node, schema)["properties"])


def _resolved(node: dict[str, Any], schema: dict[str, Any]) -> dict[str, Any]:
    """The node itself, its definition, or the one of its alternatives that is not null."""
    for choice in node.get("anyOf", []):
        if choice.get("type") != "null":
            node = choice
    if "$ref" in node:
        found: dict[str, Any] = schema["$defs"][node["$ref"].rpartition("/")[2]]
        return found
    return node
