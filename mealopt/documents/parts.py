"""What the models of the plan document share: numbers, times, nutrient amounts."""

from __future__ import annotations

from datetime import date, datetime
from difflib import get_close_matches
from typing import Annotated, Literal

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field, model_validator

from mealopt.core.bands import Band
from mealopt.core.clock import minutes_of
from mealopt.core.nutrients import FRUIT_VEGETABLE, KEYS, TARGETED

#: In the order in which a document lists them: what a day is planned to, then the table's other columns.
LISTED: tuple[str, ...] = (*TARGETED, *(key for key in KEYS if key not in TARGETED))

_RANK = {key: rank for rank, key in enumerate(LISTED)}


class Part(BaseModel):
    """A piece of a document: no unknown keys, nothing changes once it is read, no NaN or infinity."""

    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False)


def _nutrient(key: str) -> str:
    if key not in _RANK:
        near = get_close_matches(key[:100], LISTED, n=1)
        raise ValueError(f"a nutrient key with its unit is expected, such as {near[0] if near else FRUIT_VEGETABLE}")
    return key


def _date(value: object) -> object:
    # Without this, a number would be taken for seconds since 1970.
    if isinstance(value, str):
        try:
            return date.fromisoformat(value)
        except ValueError:
            raise ValueError('a date is expected, like "2027-03-09"') from None
    if isinstance(value, date) and not isinstance(value, datetime):
        return value
    raise ValueError('a date in quotation marks is expected, like "2027-03-09"')


def _time(text: str) -> str:
    minutes_of(text)
    return text


#: No text and no true or false passes for a number.
Number = Annotated[float, Field(strict=True, allow_inf_nan=False)]
Amount = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0)]
Whole = Annotated[int, Field(strict=True, ge=0)]
Count = Annotated[int, Field(strict=True, ge=1)]
Flag = Annotated[bool, Field(strict=True)]
Words = Annotated[str, Field(min_length=1, max_length=2000)]

#: "HH:MM", 00:00 to 47:59; 24:00 and more are the small hours that end a plan day.
Time = Annotated[str, Field(pattern=r"^[0-9]{2}:[0-5][0-9]$"), AfterValidator(_time)]
Date = Annotated[date, BeforeValidator(_date)]
DayName = Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]

NutrientKey = Annotated[str, AfterValidator(_nutrient)]


def _in_order(amounts: dict[str, float]) -> dict[str, float]:
    return dict(sorted(amounts.items(), key=lambda entry: _RANK[entry[0]]))


def _bands_in_order(bands: dict[str, TargetBand]) -> dict[str, TargetBand]:
    return dict(sorted(bands.items(), key=lambda entry: _RANK[entry[0]]))


class TargetBand(Part):
    """A least, an aim and a most, in the unit of the nutrient's key; null where there is no such limit."""

    least: Number | None = None
    aim: Number | None = None
    most: Number | None = None

    @model_validator(mode="after")
    def _is_ordered(self) -> TargetBand:
        Band(self.least, self.aim, self.most)
        return self


#: Where a schema shows this, its keys are nutrient keys; `schema` puts the definition in.
KEYED = {"propertyNames": "NutrientKey"}
_KEYED = Field(json_schema_extra={**KEYED})

#: Nutrient key -> amount in the key's unit, always listed in the same order.
Amounts = Annotated[dict[NutrientKey, Amount], AfterValidator(_in_order), _KEYED]
#: Nutrient key -> band.
Targets = Annotated[dict[NutrientKey, TargetBand], AfterValidator(_bands_in_order), _KEYED]
