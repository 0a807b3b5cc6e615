"""What the models of the case file share: words, times, ranges, and complaints that know their key."""

from __future__ import annotations

import re
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, ConfigDict, Field
from pydantic_core import PydanticCustomError

from mealopt.core.clock import minutes_of, span

#: No unknown keys, and nothing changes once it is read.
STRICT = ConfigDict(extra="forbid", frozen=True)

DayName = Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]

#: The type of the error that `complaint` raises; the reader looks for it.
COMPLAINT = "case_complaint"


def complaint(says: str, *below: str | int) -> PydanticCustomError:
    """An error for several keys together. says: what was read and what is allowed; below: the key, from the model."""
    return PydanticCustomError(COMPLAINT, "{says}", {"says": says, "below": below, "whole": False})


def case_complaint(says: str, *path: str | int) -> PydanticCustomError:
    """The same for keys of several tables; path: the key, from the top of the case file."""
    return PydanticCustomError(COMPLAINT, "{says}", {"says": says, "below": path, "whole": True})


def number(
    least: float, most: float, unit: str, meaning: str, *, default: Any = ..., low: str = "", high: str = ""
) -> Any:
    """A field for a number from least to most, both allowed; unit is "" for a bare count.

    low, high: the question that a number below or above the range raises. No text, bool, NaN or infinity passes.
    """
    return Field(
        default,
        ge=least,
        le=most,
        strict=True,
        allow_inf_nan=False,
        description=meaning,
        json_schema_extra={"unit": unit, "low": low, "high": high},
    )


def flag(meaning: str, default: bool) -> Any:
    """A field for true or false, and nothing that looks like them."""
    return Field(default, strict=True, description=meaning)


def words(meaning: str, default: Any = ..., *, most: int = 200) -> Any:
    """A field for a name or a short text of 1 to `most` characters."""
    return Field(default, min_length=1, max_length=most, description=meaning)


def choice(meaning: str, default: Any = ..., *, alias: str | None = None) -> Any:
    """A field whose words the annotation lists."""
    return Field(default, alias=alias, description=meaning)


def many(meaning: str, most: int, default: Any = ()) -> Any:
    """A field for a list of at most `most` entries."""
    return Field(default, max_length=most, description=meaning)


TIME_EXPECTED = 'a time expected, "HH:MM" from 00:00 to 47:59 (after midnight: 25:30)'
SPAN_EXPECTED = '"HH:MM-HH:MM" expected, ending after it starts (after midnight: 25:30)'
PORTION_EXPECTED = 'a food and its grams expected, like "oats, rolled=80g", 1 to 2000 g'


def _time(text: str) -> str:
    try:
        minutes_of(text)
    except ValueError:
        raise ValueError(TIME_EXPECTED) from None
    return text.strip()


def _span(text: str) -> str:
    try:
        span(text)
    except ValueError:
        raise ValueError(SPAN_EXPECTED) from None
    return text.strip()


#: "HH:MM", 00:00 to 47:59; 24:00 and more are the small hours that end a plan day.
Clock = Annotated[str, AfterValidator(_time)]
#: "HH:MM-HH:MM", ending after it starts.
ClockSpan = Annotated[str, AfterValidator(_span)]
#: The name of a food or a dish, as the pantry writes it.
FoodName = Annotated[str, Field(min_length=1, max_length=200)]

_PORTION = re.compile(r"^(?P<food>.*\S)\s*=\s*(?P<grams>\d{1,4}(?:\.\d{1,3})?)\s*g$")


def portion(text: str) -> tuple[str, float]:
    """Food and grams of "oats, rolled=80g". Raises ValueError on anything else, and outside 1 to 2000 g."""
    found = _PORTION.match(text.strip())
    if not found or not 1 <= float(found["grams"]) <= 2000:
        raise ValueError(PORTION_EXPECTED)
    return found["food"], float(found["grams"])


def _portion(text: str) -> str:
    portion(text)
    return text.strip()


#: "oats, rolled=80g"
Portion = Annotated[str, Field(max_length=200), AfterValidator(_portion)]
