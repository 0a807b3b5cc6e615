"""What a case wishes of food and drink in sessions."""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel

from mealopt.people.fields import STRICT, choice, flag, number

Rate = Literal["ladder", "per_kg"]


class Fuel(BaseModel):
    """Wishes for what is eaten and drunk in sessions. Limits of gut and safety overrule each of them."""

    model_config = STRICT

    rate: Rate = choice("Carbohydrate in sessions by the published ladder, or 0.75 g/kg/h from 60 min.", "ladder")
    drink_percent_most: float = number(
        2.0, 12.0, "g in 100 ml", "Strongest drink; 4 to 8 is what most stomachs take.", default=8.0
    )
    caffeine: bool = flag("Whether coffee or tea may be timed for hard work; never without this.", False)
    event_weeks: int | None = number(
        1, 52, "weeks", "Weeks to an event that lies beyond this week, for training the gut.", default=None
    )
    event_minutes: int | None = number(
        61, 2880, "minutes", "How long that event lasts.", default=None, low="was it hours?"
    )
