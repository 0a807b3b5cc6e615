"""Rows of a week, and where the week's families register themselves.

A family is a function from what the week asks for (`WeekWishes`) to rows. A row says what it counts, food by food or
meal by meal; the same words count a posed day's columns (`pose.py`) and a planned day's document (`shares.py`). What a
row lacks or exceeds is charged, so a week is planned even where a rule cannot be met, and the rule is then named.
"""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Literal, Protocol


class Counted(Protocol):
    """A food as a week counts it: one of a plate, or one of a planned meal."""

    @property
    def name(self) -> str:
        """Of the pantry."""

    @property
    def kin(self) -> str:
        """What it is much the same thing as."""

    @property
    def counts(self) -> frozenset[str]:
        """What the pantry counts it as."""

    @property
    def per_gram(self) -> Mapping[str, float]:
        """Nutrient key -> amount in one gram; absent where unknown."""


#: "sum": of coefficient x grams; "days": those with at least a portion; "kinds": different words; "times": each word.
Form = Literal["sum", "days", "kinds", "times"]


@dataclass(frozen=True, slots=True)
class WeekRow:
    """One row of the week.

    name: unique; rule: the sentence that is read; least, most: in the unit. charge: points a unit that is lacking or
    over. per_gram: for "sum" and "days", what a gram of a food counts; portion: of "days". kind: for "kinds", the word
    that a food counts as. meal: for "times", the word that a meal (its slot's kind, its dish) counts as; each word at
    most `most` times. key: the nutrient that it is about, for the share of food that it is known for. source: of the
    number. adds: coefficients are never negative.
    """

    name: str
    rule: str
    form: Form
    least: float | None = None
    most: float | None = None
    unit: str = ""
    charge: float = 0.0
    per_gram: Callable[[Counted], float] | None = None
    kind: Callable[[Counted], str | None] | None = None
    meal: Callable[[str, str], str | None] | None = None
    portion: float = 0.0
    key: str = ""
    source: str = ""
    adds: bool = True


@dataclass(frozen=True, slots=True)
class WeekWishes:
    """What one week asks for. days: how many are planned; the numbers are for seven days, a least is cut to its share.

    fish: whether fish is eaten. references: nutrient key -> intake a day; reach: share of it that the mean should be.
    use_up: pantry word -> grams as bought that should be eaten; bought: food -> grams as bought of one gram eaten.
    """

    days: int = 7
    main_dish_most: int = 2
    breakfast_most: int = 4
    snack_most: int = 3
    same_breakfast: bool = False
    fish: bool = True
    fish_least: int = 2
    oily_fish_least: int = 1
    red_meat_most_g: float = 500.0
    pulses_least: int = 2
    plants_least: int = 25
    eggs_most_g: float = 700.0
    nuts_most_g: float = 350.0
    dairy_most_g: float = 5600.0
    references: Mapping[str, float] = field(default_factory=dict)
    reach: float = 1.0
    retinol_most_ug: float = 3000.0
    fat_least_percent: float = 20.0
    use_up: Mapping[str, float] = field(default_factory=dict)
    bought: Mapping[str, float] = field(default_factory=dict)

    def least(self, of_seven: float) -> float:
        """A least of seven days, for as many days as are planned: whole ones only."""
        return float(int(of_seven * self.days / 7 + 1e-9))

    def most(self, of_seven: float) -> float:
        """A most of seven days, for as many days as are planned."""
        return of_seven * self.days / 7


Maker = Callable[[WeekWishes], Iterator[WeekRow]]


@dataclass(frozen=True, slots=True)
class WeekFamily:
    """One registered family of the week."""

    name: str
    make: Maker


_REGISTER: dict[str, WeekFamily] = {}


def weekly(name: str) -> Callable[[Maker], Maker]:
    """Register a function as a family of the week. Raises ValueError where the name is taken."""

    def keep(make: Maker) -> Maker:
        if name in _REGISTER:
            raise ValueError(f"two families of the week are called {name!r}")
        _REGISTER[name] = WeekFamily(name, make)
        return make

    return keep


@cache
def week_families() -> tuple[WeekFamily, ...]:
    """All families of the week, by name."""
    import mealopt.rules.weekly as room

    for module in pkgutil.iter_modules(room.__path__):
        importlib.import_module(f"mealopt.rules.weekly.{module.name}")
    return tuple(_REGISTER[name] for name in sorted(_REGISTER))


def week_rows(wishes: WeekWishes) -> tuple[WeekRow, ...]:
    """Every family's rows for this week."""
    return tuple(row for entry in week_families() for row in entry.make(wishes))
