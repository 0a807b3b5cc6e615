"""Turns what the models refuse into one sentence: where, what was read, what is allowed."""

from __future__ import annotations

import reprlib
from collections.abc import Iterator
from datetime import date, time
from difflib import get_close_matches
from typing import Any

from pydantic import BaseModel, ValidationError
from pydantic.fields import FieldInfo
from pydantic_core import ErrorDetails

from mealopt.people.case import SCHEMA, Case
from mealopt.people.fields import COMPLAINT
from mealopt.people.lines import KeyPath, line_of
from mealopt.people.reference import KeyWords, fields_by_key, key_words, table_name, table_of

#: Words that people write, and the key or word that is meant.
_MEANT: dict[str, str] = {
    "weight": "mass_kg", "weight_kg": "mass_kg", "mass": "mass_kg", "body_fat": "body_fat_percent",
    "kcal": "active_kcal", "calories": "active_kcal", "duration": "minutes", "allergens": "avoid_allergens",
    "sessions": "session",
    "dairy": "milk", "lactose": "milk", "soy": "soybeans", "soya": "soybeans", "wheat": "gluten", "egg": "eggs",
    "shellfish": "crustaceans", "tree nuts": "nuts", "bike": "ride", "cycling": "ride", "running": "run",
    "strength": "lift", "vegetable": "vegetarian",
}  # fmt: skip


def refusal(error: ValidationError, where: str, lines: dict[KeyPath, int]) -> str:
    """The sentence for the first error in the order of the file; the schema goes before, and missing keys after."""

    def order(details: ErrorDetails) -> tuple[bool, bool, float]:
        # A key that is missing is often one that is misspelt, and that says more.
        line = line_of(lines, details["loc"])
        late = details["type"] == "missing"
        return details["loc"] != ("schema",), late, float("inf") if line is None else line

    first = min(error.errors(), key=order)
    place, says = _place_and_words(first)
    spot = ", ".join(part for part in (where, line_name(lines, place), key_name(place)) if part)
    return " ".join(f"{spot}: {says}".split())


def line_name(lines: dict[KeyPath, int], path: KeyPath) -> str:
    """ "line 12" of the key at this path; "" where it has no line."""
    line = line_of(lines, path)
    return f"line {line}" if line else ""


def key_name(path: KeyPath) -> str:
    """ "[[session]] 3 start" of ("session", 2, "start"): tables in brackets, entries counted from 1."""
    table: list[str] = []
    number = ""
    rest: list[str] = []
    for depth, part in enumerate(path):
        if isinstance(part, int):
            if _model_at(path[: depth + 1]) is not None:
                table[-1] = f"[{table[-1]}]"
                number = f"{part + 1} "
            else:
                rest.append(f"entry {part + 1}")
        elif _model_at(path[: depth + 1]) is not None or _is_list_of_tables(path[: depth + 1]):
            table.append(part)
        else:
            rest.append(_cut(part))
    return f"{table_name(tuple(table))}{number}{', '.join(rest)}".strip()


def shown(value: Any) -> str:
    """What was read, short enough for a sentence; lists and tables by their kind."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        cut = _cut(value)
        return '"' + cut.encode("unicode_escape").decode("ascii") + '"' if not cut.isprintable() else f'"{cut}"'
    if isinstance(value, int) and value.bit_length() > 200:
        return "a number of more than 60 digits"
    if isinstance(value, date | time):
        return value.isoformat()
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, list | tuple):
        return f"a list of {len(value)}"
    return str(value) if isinstance(value, int | float) else reprlib.repr(value)


def _cut(text: str) -> str:
    return text if len(text) <= 60 else f"{text[:57]}..."


def _place_and_words(details: ErrorDetails) -> tuple[KeyPath, str]:
    kind, path, value = details["type"], details["loc"], details["input"]
    context = details.get("ctx", {})
    if kind == COMPLAINT:
        return (context["below"] if context["whole"] else (*path, *context["below"])), context["says"]
    info = _field_at(path)
    if kind == "missing" and info is not None:
        return path[:-1], f"read no {path[-1]}; {_expected(path, info)}"
    if kind == "extra_forbidden":
        return path, f"read a key that does not exist; {_nearest_key(path)}"
    if path == ("schema",):
        return path, f'read {shown(value)}; "{SCHEMA}" is the one form that this program reads'
    if kind == "value_error":
        return path, f"read {shown(value)}; {context['error']}"
    if kind == "too_long" and isinstance(value, list | tuple):
        return path, f"read {len(value)} entries; at most {context['max_length']} are allowed"
    if info is None:
        return path, f"read {shown(value)}; {details['msg'][:1].lower()}{details['msg'][1:]}"
    expected = _expected(path, info)
    if table_of(info)[0] is None:
        expected += _question(kind, value, key_words(info))
    return path, f"read {shown(value)}; {expected}"


def _expected(path: KeyPath, info: FieldInfo) -> str:
    """What the key should hold: a table, a list, or a value in its range."""
    if path == ("schema",):
        return f'schema = "{SCHEMA}" is expected'
    model, listed = table_of(info)
    on_entry = bool(path) and isinstance(path[-1], int)
    if model is not None:
        name = ".".join(str(part) for part in path if isinstance(part, str))
        return f"a table [[{name}]] is expected" if listed else f"a table [{name}] is expected"
    words = key_words(info)
    return f"a list is expected, and of each entry: {words.expected}" if words.many and not on_entry else words.expected


def _question(kind: str, value: Any, words: KeyWords) -> str:
    """What may have been meant."""
    doubt = {"greater_than_equal": words.low, "less_than_equal": words.high}.get(kind)
    if doubt:
        return f": {doubt}"
    if kind == "literal_error" and isinstance(value, str):
        near = _near(value.lower(), words.allowed)
        return f': did you mean "{near}"?' if near else ""
    if isinstance(value, str) and words.kind in ("number", "whole number", "true or false"):
        return ", without quotation marks"
    return ""


def _nearest_key(path: KeyPath) -> str:
    """The key that may have been meant: in this table, or in the one where it belongs; else all that there are."""
    model = _model_at(path[:-1]) or Case
    here, wrong = fields_by_key(model), str(path[-1])
    near = _near(wrong.lower(), tuple(here))
    if near and near != wrong:
        return f'did you mean "{near}"?'
    for table, keys in _tables():
        if wrong in keys:
            return f"it belongs in {table}" if table else "it belongs at the top of the file"
    return f"allowed here: {', '.join(here)}"


def _near(wrong: str, allowed: tuple[str, ...]) -> str:
    meant = _MEANT.get(wrong, "")
    if meant in allowed:
        return meant
    return next(iter(get_close_matches(wrong[:100], allowed, n=1, cutoff=0.6)), "")


def _tables() -> Iterator[tuple[str, set[str]]]:
    waiting: list[tuple[tuple[str, ...], type[BaseModel]]] = [((), Case)]
    for path, model in waiting:
        keys = fields_by_key(model)
        yield table_name(path).strip(), set(keys)
        for key, info in keys.items():
            below, listed = table_of(info)
            if below is not None:
                waiting.append(((*path, f"[{key}]" if listed else key), below))


def _field_at(path: KeyPath) -> FieldInfo | None:
    """The field of this key; for an entry of a list, the list's field."""
    model: type[BaseModel] | None = Case
    info: FieldInfo | None = None
    for part in path:
        if isinstance(part, int):
            continue
        info = fields_by_key(model).get(part) if model is not None else None
        model = table_of(info)[0] if info is not None else None
    return info


def _model_at(path: KeyPath) -> type[BaseModel] | None:
    """The model of the table at this path; None where it is no table."""
    if not path:
        return Case
    info = _field_at(path)
    if info is None:
        return None
    model, listed = table_of(info)
    return model if listed == isinstance(path[-1], int) else None


def _is_list_of_tables(path: KeyPath) -> bool:
    info = _field_at(path)
    return info is not None and not isinstance(path[-1], int) and table_of(info)[0] is not None
