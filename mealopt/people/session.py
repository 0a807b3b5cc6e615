"""One training session of the week."""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel, model_validator

from mealopt.core.clock import minutes_of
from mealopt.people.fields import STRICT, Clock, DayName, choice, complaint, many, number
from mealopt.people.splits import Split, check_splits
from mealopt.people.sweat import Conditions

Kind = Literal["run", "ride", "swim", "row", "walk", "ski", "circuit", "lift", "other"]
Effort = Literal["easy", "steady", "hard", "race"]
EnergyIs = Literal["active", "total"]
EnergyFrom = Literal["wrist", "power", "distance", "estimate"]

#: Kinds that give timing but no energy of their own: their hours stand in the baseline.
LIFTING: tuple[str, ...] = ("lift", "circuit")

#: km/h, a little above the best ever held for five minutes by each means [common practice, no source]; what lies
#: above was written in metres, or with another session's minutes.
FASTEST: dict[str, float] = {"run": 26.0, "ride": 80.0, "swim": 8.0, "row": 26.0, "walk": 17.0, "ski": 70.0}


class Session(BaseModel):
    """A session belongs to the plan day in which it starts, and may end after midnight."""

    model_config = STRICT

    day: DayName = choice("The plan day in which it starts.")
    start: Clock = choice('Start, "HH:MM"; after midnight of the same plan day "25:30".')
    minutes: int = number(5, 1440, "minutes", "How long it lasts.", low="was it hours?", high="was it seconds?")
    kind: Kind = choice("What is done; lift and circuit give timing, never added energy.")
    effort: Effort = choice("How hard it is.")
    active_kcal: float | None = number(
        20, 20000, "kcal", "Energy of the session; estimated when missing.", default=None, high="was it kilojoules?"
    )
    energy_is: EnergyIs = choice("Whether active_kcal leaves resting energy out or holds it.", "active")
    energy_from: EnergyFrom = choice(
        "Where active_kcal comes from; not said: wrist where active_kcal is given, otherwise estimate.", "wrist"
    )
    distance_km: float | None = number(
        0.05, 1000, "km", "Distance, for the published equations.", default=None, high="was it metres?"
    )
    climb_m: float | None = number(0, 20000, "m", "Climb, for the published equations.", default=None)
    mean_power_w: float | None = number(20, 700, "W", "Mean power, for the published equations.", default=None)
    conditions: Conditions | None = choice("How warm it is; chooses the sweat test, and how much is drunk.", None)
    bottles: int | None = number(
        0, 6, "bottles", "Bottles at hand at once; 0: nothing to drink from. Not said: by the kind.", default=None
    )
    splits: tuple[Split, ...] = many(
        'Expected times on the way, "KM=H:MM" from the start; by them a race is told by distance.', 40
    )

    @property
    def start_minute(self) -> int:
        """Start, in minutes after the plan day's midnight."""
        return minutes_of(self.start)

    @property
    def end_minute(self) -> int:
        """End, in minutes after the plan day's midnight; may pass 1440."""
        return self.start_minute + self.minutes

    @property
    def endurance(self) -> bool:
        """Whether its energy stands above the baseline."""
        return self.kind not in LIFTING

    @property
    def hard(self) -> bool:
        """Whether it is hard work or a race."""
        return self.effort in ("hard", "race")

    @model_validator(mode="after")
    def _energy_has_an_origin(self) -> Session:
        # A session without a figure is estimated: leaving "wrist" there would discount the program's own estimate.
        if self.active_kcal is None and "energy_from" not in self.model_fields_set:
            object.__setattr__(self, "energy_from", "estimate")
        return self

    @model_validator(mode="after")
    def _splits_fit(self) -> Session:
        check_splits(self.splits, self.distance_km, self.minutes)
        return self

    @model_validator(mode="after")
    def _speed_is_possible(self) -> Session:
        fastest = FASTEST.get(self.kind)
        if self.distance_km is None or fastest is None:
            return self
        speed = self.distance_km * 60 / self.minutes
        if speed > fastest:
            raise complaint(
                f"read {self.distance_km:g} in {self.minutes} minutes, which is {speed:.0f} km/h; "
                f"at most {fastest:g} km/h is allowed for a {self.kind}: was it metres?",
                "distance_km",
            )
        return self
