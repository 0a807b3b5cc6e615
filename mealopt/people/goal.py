"""The goal: what the food is to do, and bands of one's own."""

from __future__ import annotations

from collections import defaultdict
from difflib import get_close_matches
from itertools import pairwise
from typing import Annotated, Literal

from pydantic import AfterValidator, BaseModel, model_validator

from mealopt.core.nutrients import FRUIT_VEGETABLE, KEYS
from mealopt.people.fields import STRICT, DayName, choice, complaint, many, number

Spread = Literal["by_day", "even"]
RestingEquation = Literal[
    "auto",
    "harris_benedict_1919",
    "roza_shizgal_1984",
    "mifflin_st_jeor_1990",
    "cunningham_1980",
    "cunningham_1991",
    "schofield_1985",
    "henry_2005",
    "ten_haaf_mass_2014",
    "ten_haaf_lean_2014",
]
SlotKind = Literal["breakfast", "lunch", "dinner", "snack", "before", "during", "after"]

#: What a band may be about: each column of the food table, and fruit and vegetables.
BAND_KEYS: tuple[str, ...] = (*KEYS, FRUIT_VEGETABLE)

#: What else a band for a whole day may be about: key -> (the one side that it has, the most that may be read).
WISH_KEYS: dict[str, tuple[Literal["least", "most"], float]] = {
    "fruit_vegetable_kinds": ("least", 20),
    "whole_food_percent": ("least", 100),
    "added_sugar_percent": ("most", 100),
    "kitchen_minutes": ("most", 300),
    "cost": ("most", 100000),
}

#: kcal that may leave or enter one day [common practice, no source].
MOVE_MOST = 500


def _nutrient(key: str) -> str:
    if key not in BAND_KEYS and key not in WISH_KEYS:
        near = get_close_matches(key[:100], (*BAND_KEYS, *WISH_KEYS), n=1)
        meant = f': did you mean "{near[0]}"?' if near else ", like iron_mg: a column of the food table"
        raise ValueError(f"a nutrient key with its unit expected{meant}")
    return key


NutrientKey = Annotated[str, AfterValidator(_nutrient)]


class Move(BaseModel):
    """Energy that spills from one day to another; the week's sum stays."""

    model_config = STRICT

    from_day: DayName = choice("The day that gives.", alias="from")
    to_day: DayName = choice("The day that takes.", alias="to")
    kcal: float = number(1, MOVE_MOST, "kcal", "Energy moved; at most 500 in or out of any one day in all.")

    @model_validator(mode="after")
    def _goes_somewhere(self) -> Move:
        if self.from_day == self.to_day:
            raise complaint(f'read "{self.to_day}", the day that it comes from; another day is expected', "to")
        return self


class OwnBand(BaseModel):
    """A least, an aim or a most of one's own, for every day or one, for the whole day or one kind of slot or meal."""

    model_config = STRICT

    nutrient: NutrientKey = choice("A nutrient key with its unit, such as fibre_g, or what else a day is held to.")
    least: float | None = number(0, 200000, "", "Least, in the nutrient's unit.", default=None)
    aim: float | None = number(0, 200000, "", "Aim, in the nutrient's unit.", default=None)
    most: float | None = number(0, 200000, "", "Most, in the nutrient's unit.", default=None)
    day: DayName | None = choice("The day that it holds on; left out: every day.", None)
    slot: SlotKind | None = choice("The kind of slot that it holds in; left out: the whole day.", None)
    meal: int | None = number(1, 20, "", "The meal that it holds in, counted from 1 in order of time.", default=None)

    @model_validator(mode="after")
    def _says_one_thing(self) -> OwnBand:
        given = [(key, value) for key in ("least", "aim", "most") if (value := getattr(self, key)) is not None]
        if not given:
            raise complaint("read a band without a limit; least, aim or most is expected", "nutrient")
        for (low_key, low), (key, value) in pairwise(given):
            if low > value:
                raise complaint(f"read {value:g} with {low_key} = {low:g}; least <= aim <= most is expected", key)
        if self.slot is not None and self.meal is not None:
            raise complaint(f'read {self.meal} with slot = "{self.slot}"; slot or meal is expected, not both', "meal")
        return self

    @model_validator(mode="after")
    def _wish_is_for_a_day(self) -> OwnBand:
        if self.nutrient not in WISH_KEYS:
            return self
        side, most = WISH_KEYS[self.nutrient]
        where = "slot" if self.slot is not None else "meal"
        if self.slot is not None or self.meal is not None:
            said = f'"{self.slot}"' if self.slot is not None else f"{self.meal}"
            raise complaint(f"read {said} with {self.nutrient}; it is held for a whole day only", where)
        for key in ("least", "aim", "most"):
            value = getattr(self, key)
            if value is not None and key != side:
                raise complaint(f"read {value:g} for {self.nutrient}; only {side} is expected with it", key)
            if value is not None and value > most:
                raise complaint(f"read {value:g} for {self.nutrient}; 0 to {most:g} is allowed", key)
        return self


class Goal(BaseModel):
    """What the week's food is to do. Safety may overrule each of these."""

    model_config = STRICT

    mass_change_percent_per_week: float = number(
        -1.0, 0.5, "% of body mass a week", "Change of body mass; below 0 a loss.", default=0.0,
        low="was it kg a week?", high="was it kg a week?",
    )  # fmt: skip
    protein_g_per_kg: float = number(
        1.2, 2.4, "g/kg", "Protein floor for each kg of body mass and day.", default=1.8, high="was it g a day?"
    )
    fat_g_per_kg: float | None = number(
        0.5, 1.5, "g/kg", "Fat aim for each kg of body mass; left out: the larger of 0.8 g/kg and 25 % of energy.",
        default=None, high="was it g a day?",
    )  # fmt: skip
    energy_replaced: float | None = number(
        0.7, 1.0, "", "Share of endurance energy that is eaten back; left out: by where the figure comes from.",
        default=None, high="was it percent?",
    )  # fmt: skip
    spread: Spread = choice("Energy by each day's work, or the same every day.", "by_day")
    baseline_kcal: float | None = number(
        800, 6000, "kcal", "A measured baseline, sessions left out; at least 1.2 times resting energy.", default=None,
        high="was it kilojoules?",
    )  # fmt: skip
    resting_equation: RestingEquation = choice("The published equation for resting energy.", "auto")
    move: tuple[Move, ...] = many("Energy moved between days.", 14)
    band: tuple[OwnBand, ...] = many("Bands of one's own.", 100)

    def wish(self, key: str, day: str) -> float | None:
        """The limit of the band for one of WISH_KEYS on a day: the day's own, else that of every day; None for none."""
        side = WISH_KEYS[key][0]
        found = {band.day: getattr(band, side) for band in self.band if band.nutrient == key}
        limit: float | None = found.get(day, found.get(None))  # type: ignore[call-overload]
        return limit

    @model_validator(mode="after")
    def _moves_stay_small(self) -> Goal:
        gone: defaultdict[str, float] = defaultdict(float)
        for index, move in enumerate(self.move):
            for key in (f"out of {move.from_day}", f"into {move.to_day}"):
                gone[key] += move.kcal
                if gone[key] > MOVE_MOST:
                    raise complaint(
                        f"read {move.kcal:g}, which makes {gone[key]:g} kcal {key}; at most {MOVE_MOST} kcal in or "
                        "out of any one day is allowed",
                        "move", index, "kcal",
                    )  # fmt: skip
        return self

    @model_validator(mode="after")
    def _bands_differ(self) -> Goal:
        seen: set[tuple[object, ...]] = set()
        for index, band in enumerate(self.band):
            target = (band.nutrient, band.day, band.slot, band.meal)
            if target in seen:
                raise complaint(
                    f'read "{band.nutrient}" a second time for the same day and meal; one band for each is allowed',
                    "band", index, "nutrient",
                )  # fmt: skip
            seen.add(target)
        return self
