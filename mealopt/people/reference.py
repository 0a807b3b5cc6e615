"""What each key of the case file is, read off the models: for the README's table and for the sentences of refusals."""

from __future__ import annotations

import types
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Annotated, Any, Literal, Union, get_args, get_origin

import annotated_types
from pydantic import BaseModel
from pydantic.fields import FieldInfo
from pydantic_core import PydanticUndefined

from mealopt.core.nutrients import FRUIT_VEGETABLE
from mealopt.people.case import Case
from mealopt.people.fields import (
    PORTION_EXPECTED,
    SPAN_EXPECTED,
    TIME_EXPECTED,
    Clock,
    ClockSpan,
    DayName,
    Portion,
)
from mealopt.people.goal import WISH_KEYS, NutrientKey
from mealopt.people.splits import SPLIT_EXPECTED, Split

#: Words for types that a plain name would not explain: type, then what is expected.
_SPECIAL: dict[Any, tuple[str, str, str]] = {
    Clock: ("time", "00:00 to 47:59", TIME_EXPECTED),
    ClockSpan: ("times", "end after start", SPAN_EXPECTED),
    Portion: ("food and grams", "1 to 2000 g", PORTION_EXPECTED),
    Split: ("distance and time", "within the session", SPLIT_EXPECTED),
    NutrientKey: (
        "nutrient",
        f"a column of the food table, or {FRUIT_VEGETABLE}; for a whole day {', '.join(WISH_KEYS)} too",
        "a nutrient key with its unit expected, like fibre_g",
    ),
}
_LISTS: dict[str, str] = {
    "word": "list of words",
    "text": "list of texts",
    "times": "list of times",
    "food and grams": "list of foods and grams",
    "distance and time": "list of distances and times",
}
_PLAIN: dict[str, str] = {"float": "number", "int": "whole number", "bool": "true or false", "str": "text"}


@dataclass(frozen=True, slots=True)
class KeyWords:
    """One key. many: a list of what `kind` says; low, high: the question that a number below or above raises."""

    kind: str
    range: str
    default: str
    meaning: str
    expected: str
    low: str
    high: str
    allowed: tuple[str, ...]
    many: bool


def case_reference() -> list[tuple[str, ...]]:
    """Rows of (key, type, range, default, meaning), in the order of the models; tables inside tables follow theirs."""
    return [
        (table + key, _LISTS[row.kind] if row.many else row.kind, row.range, row.default, row.meaning)
        for table, key, row in _rows(Case, ())
    ]


def _rows(model: type[BaseModel], path: tuple[str, ...]) -> Iterator[tuple[str, str, KeyWords]]:
    inner: list[tuple[type[BaseModel], tuple[str, ...]]] = []
    for name, info in model.model_fields.items():
        key = info.alias or name
        below, listed = table_of(info)
        if below is not None:
            inner.append((below, (*path, f"[{key}]" if listed else key)))
            continue
        yield table_name(path), key, key_words(info)
    for below, deeper in inner:
        yield from _rows(below, deeper)


def table_name(path: tuple[str, ...]) -> str:
    """ "[kitchen] " or "[[kitchen.day]] " of ("kitchen", "[day]"); "" at the top."""
    if not path:
        return ""
    plain = ".".join(part.strip("[]") for part in path)
    return f"[[{plain}]] " if path[-1].startswith("[") else f"[{plain}] "


def fields_by_key(model: type[BaseModel]) -> dict[str, FieldInfo]:
    """The model's fields by the keys of the case file."""
    return {info.alias or name: info for name, info in model.model_fields.items()}


def table_of(info: FieldInfo) -> tuple[type[BaseModel] | None, bool]:
    """The model that this key holds, if it is a table, and whether it is a list of them."""
    kind, listed = _unwrap(info.annotation)
    return (kind, listed) if isinstance(kind, type) and issubclass(kind, BaseModel) else (None, listed)


def _unwrap(kind: Any) -> tuple[Any, bool]:
    """The type inside an optional or a list, and whether there was a list."""
    if get_origin(kind) in (Union, types.UnionType):
        kind = next(part for part in get_args(kind) if part is not type(None))
    if get_origin(kind) is tuple:
        return get_args(kind)[0], True
    return kind, False


def key_words(info: FieldInfo) -> KeyWords:
    """What one key is, in words. Raises KeyError for a type that no words are kept for."""
    kind, listed = _unwrap(info.annotation)
    extra = info.json_schema_extra if isinstance(info.json_schema_extra, dict) else {}
    unit, low, high = (str(extra.get(key, "")) for key in ("unit", "low", "high"))
    metadata = [*info.metadata, *_metadata_of(kind, listed)]
    allowed = tuple(str(word) for word in get_args(kind)) if get_origin(kind) is Literal else ()
    name, range_, expected = _words(kind, metadata if not listed else _metadata_of(kind, True), unit, allowed)
    if listed:
        range_ = f"{range_}, at most {_length(info.metadata)[1]} entries".removeprefix(", ")
    return KeyWords(name, range_, _default(info), info.description or "", expected, low, high, allowed, listed)


def _metadata_of(kind: Any, listed: bool) -> list[Any]:
    """What an annotated type inside a list carries; FoodName keeps its length there."""
    if not listed or get_origin(kind) is not Annotated:
        return []
    found: list[Any] = []
    for part in get_args(kind)[1:]:
        found.extend(part.metadata if isinstance(part, FieldInfo) else [part])
    return found


def _words(kind: Any, metadata: list[Any], unit: str, allowed: tuple[str, ...]) -> tuple[str, str, str]:
    """Type, range, and what is expected."""
    if kind == DayName or allowed:
        listed = ", ".join(f'"{word}"' if word == "" else word for word in allowed)
        return "word", listed, f"{'one of ' if len(allowed) > 1 else ''}{listed} expected"
    special = next((found for key, found in _SPECIAL.items() if kind == key or _annotates(metadata, key)), None)
    if special:
        return special
    plain = _PLAIN.get(getattr(get_args(kind)[0] if get_origin(kind) is Annotated else kind, "__name__", ""), "")
    if plain in ("number", "whole number"):
        least, most = _bounds(metadata)
        range_ = f"{least:.10g} to {most:.10g}"
        whole = "whole " if plain == "whole number" else ""
        expected = f"{whole}{unit} expected, {range_}" if unit else f"a {plain} expected, {range_}"
        return plain, f"{range_} {unit}".strip(), expected
    if plain == "text":
        short, long = _length(metadata)
        return "text", f"{short} to {long} characters", f"a text of {short} to {long} characters expected"
    if plain:
        return plain, "", f"{plain} expected"
    return "date", "a Monday", "a date expected, like 2027-03-08"


def _annotates(metadata: list[Any], special: Any) -> bool:
    """Whether pydantic moved this special type's validator into the field's metadata."""
    own = [part for part in get_args(special)[1:] if not isinstance(part, FieldInfo)]
    return any(part in metadata for part in own)


def _bounds(metadata: list[Any]) -> tuple[float, float]:
    least = next(part.ge for part in metadata if isinstance(part, annotated_types.Ge))
    most = next(part.le for part in metadata if isinstance(part, annotated_types.Le))
    return float(str(least)), float(str(most))


def _length(metadata: list[Any]) -> tuple[int, int]:
    short = next((part.min_length for part in metadata if isinstance(part, annotated_types.MinLen)), 0)
    return short, next(part.max_length for part in metadata if isinstance(part, annotated_types.MaxLen))


def _default(info: FieldInfo) -> str:
    if info.is_required() or info.default is PydanticUndefined:
        return "required"
    value = info.default
    if value is None:
        return "-"
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, tuple):
        return "[]"
    return f'"{value}"' if isinstance(value, str) else f"{value:g}"
