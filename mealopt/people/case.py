"""The case: an athlete, a week of sessions, a goal and a kitchen."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import date, datetime
from pathlib import Path
from typing import Any, Literal

from pydantic import BaseModel, Field, PrivateAttr, ValidationInfo, field_validator

from mealopt.core.clock import DAYS
from mealopt.people.athlete import Athlete
from mealopt.people.checks import check_fixed, check_sessions
from mealopt.people.days import KitchenDay, kitchen_day
from mealopt.people.fields import STRICT
from mealopt.people.fuel import Fuel
from mealopt.people.goal import Goal, Move, OwnBand
from mealopt.people.kitchen import Fixed, Kitchen, KitchenDayEntry
from mealopt.people.session import Session
from mealopt.people.week import WeekRules

__all__ = [
    "SCHEMA",
    "Athlete",
    "Case",
    "Fixed",
    "Fuel",
    "Goal",
    "Kitchen",
    "KitchenDay",
    "KitchenDayEntry",
    "Move",
    "OwnBand",
    "Session",
    "WeekRules",
]

SCHEMA = "mealopt/case-1"


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a case was read from. It is no part of what the case says, so any two are equal."""

    folder: Path | None = field(default=None, compare=False)


class Case(BaseModel):
    """One athlete's training week and what surrounds it. Sessions stand in order of time."""

    model_config = STRICT

    schema_name: Literal["mealopt/case-1"] = Field(alias="schema", description="The form of this file.")
    week_of: date | None = Field(None, description="The Monday on which the week begins.")
    athlete: Athlete = Field(description="The athlete.")
    goal: Goal = Field(Goal(), description="The goal.")
    kitchen: Kitchen = Field(Kitchen(), description="The kitchen.")
    week: WeekRules = Field(WeekRules(), description="What the whole week is held to.")
    fuel: Fuel = Field(Fuel(), description="Food and drink in sessions.")
    session: tuple[Session, ...] = Field((), max_length=70, validate_default=True, description="Training sessions.")

    _origin: Origin = PrivateAttr(default_factory=Origin)

    @property
    def folder(self) -> Path | None:
        """The folder of the case file, beside which kitchen.own_foods is looked for; None where it is not known."""
        return self._origin.folder

    def beside(self, folder: Path | None) -> Case:
        """The same case, whose own_foods is looked for in this folder."""
        case = self.model_copy()
        case._origin = Origin(folder)
        return case

    def sessions_on(self, day: str) -> tuple[Session, ...]:
        """The sessions that start on this plan day, in order of time."""
        return tuple(session for session in self.session if session.day == day)

    def kitchen_on(self, day: str) -> KitchenDay:
        """The kitchen of this plan day, its minutes and its budget by a band of the goal where there is one.

        Every session of the day lies between its wake and its sleep.
        """
        found = kitchen_day(self.kitchen, self.session, day)
        minutes, budget = (self.goal.wish(key, day) for key in ("kitchen_minutes", "cost"))
        return replace(
            found,
            cook_minutes=found.cook_minutes if minutes is None else int(minutes),
            budget=found.budget if budget is None else budget,
        )

    @field_validator("week_of", mode="before")
    @classmethod
    def _reads_a_date(cls, value: Any) -> Any:
        # Without this, a number would be taken for seconds since 1970.
        if isinstance(value, datetime) or not isinstance(value, date | str | None):
            raise ValueError("a date expected, like 2027-03-08")
        return value

    @field_validator("week_of")
    @classmethod
    def _is_a_monday(cls, value: date | None) -> date | None:
        if value is not None and value.weekday() != 0:
            raise ValueError(f"a Monday expected, and this is a {value:%A}")
        return value

    @field_validator("session")
    @classmethod
    def _week_fits(cls, value: tuple[Session, ...], info: ValidationInfo) -> tuple[Session, ...]:
        athlete, kitchen = info.data.get("athlete"), info.data.get("kitchen")
        if isinstance(athlete, Athlete) and isinstance(kitchen, Kitchen):
            check_sessions(athlete, kitchen, value)
            check_fixed(kitchen, value)
        return tuple(sorted(value, key=lambda session: (DAYS.index(session.day), session.start_minute)))
