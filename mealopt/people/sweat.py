"""What is known of an athlete's sweat: tests as measured on a scale, or their results."""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel, model_validator

from mealopt.people.fields import STRICT, choice, complaint, flag, many, number

#: Cold: under about 10 degrees; mild; hot: over about 22 degrees, or close and damp [common practice, no source].
Conditions = Literal["cold", "mild", "hot"]

#: Sweat rates of all athletes that were measured, L/h: 0.26 to 5.73 (Baker and others 2016, J Sports Sci 34:358-368).
RATE = (0.1, 5.73)

#: A loss of more than this share of body mass in one test is a slip of the pen [common practice, no source].
LOSS_MOST = 0.08

#: Two figures of one test that are this far apart contradict each other [common practice, no source].
APART = 0.15


class SweatTest(BaseModel):
    """One test: masses, drink and urine as measured, or the rate that came of it; sodium where it was analysed."""

    model_config = STRICT

    conditions: Conditions = choice("How warm it was: cold under 10, mild, hot over 22 degrees or close.", "mild")
    kind: Literal["run", "ride", "swim", "row", "walk", "ski", "circuit", "lift", "other"] | None = choice(
        "What was done; left out: the test counts for every kind.", None
    )
    effort: Literal["easy", "steady", "hard", "race"] = choice("How hard it was.", "steady")
    minutes: int | None = number(
        20, 360, "minutes", "How long it lasted.", default=None, low="shorter than 20 min says nothing: was it hours?"
    )
    mass_before_kg: float | None = number(30, 250, "kg", "Mass before, undressed and dry.", default=None)
    mass_after_kg: float | None = number(30, 250, "kg", "Mass after, undressed and towelled dry.", default=None)
    drunk_l: float = number(0, 8, "litres", "Drunk between the two.", default=0.0, high="was it ml?")
    urine_l: float = number(0, 4, "litres", "Urine passed between the two.", default=0.0, high="was it ml?")
    litres_per_hour: float | None = number(
        *RATE, "L/h", "The sweat rate, where only the result is known.", default=None, high="was it ml?",
        low="was it litres a minute?",
    )  # fmt: skip
    sodium_mg_per_l: float | None = number(
        150, 2500, "mg/L", "Sodium in the sweat.", default=None, low="was it mmol/L? 1 mmol is 23 mg"
    )
    sodium_from: Literal["whole_body", "forearm"] = choice("Where the sweat was taken.", "whole_body")

    @property
    def measured_l_per_h(self) -> float | None:
        """(mass before - mass after + drunk - urine) / hours, 1 kg = 1 L; None where it was not measured."""
        if self.mass_before_kg is None or self.mass_after_kg is None or self.minutes is None:
            return None
        return (self.mass_before_kg - self.mass_after_kg + self.drunk_l - self.urine_l) * 60 / self.minutes

    @property
    def rate_l_per_h(self) -> float:
        """The sweat rate, L/h: as measured, else as given."""
        measured = self.measured_l_per_h
        return measured if measured is not None else self.litres_per_hour or RATE[0]

    @model_validator(mode="after")
    def _says_a_rate(self) -> SweatTest:
        masses = {"mass_before_kg": self.mass_before_kg, "mass_after_kg": self.mass_after_kg, "minutes": self.minutes}
        missing = [key for key, value in masses.items() if value is None]
        if missing and (
            (len(missing) < 3 and missing != ["mass_before_kg", "mass_after_kg"]) or not self.litres_per_hour
        ):
            raise complaint(
                f"read a sweat test without {' and '.join(missing)}; mass_before_kg, mass_after_kg and minutes are "
                "expected together, or litres_per_hour",
                missing[0] if self.litres_per_hour else "litres_per_hour",
            )
        return self

    @model_validator(mode="after")
    def _is_possible(self) -> SweatTest:
        rate, before, after = self.measured_l_per_h, self.mass_before_kg, self.mass_after_kg
        if rate is None or before is None or after is None:
            return self
        if after > before:
            raise complaint(
                f"read {after:g} after {before:g} kg before: mass was gained, so more was drunk than lost, which is "
                "dangerous in long work; drink to thirst and test again",
                "mass_after_kg",
            )
        if before - after > LOSS_MOST * before:
            raise complaint(
                f"read {after:g} after {before:g} kg before, a loss of {100 * (1 - after / before):.0f} %; at most "
                f"{100 * LOSS_MOST:g} % is believed",
                "mass_after_kg",
            )
        least, most = RATE
        if not least <= rate <= most:
            raise complaint(
                f"read masses, drink and urine that make {rate:.2f} L/h; {least:g} to {most:g} L/h is believed "
                "(the widest range that was measured in athletes)",
                "mass_after_kg",
            )
        given = self.litres_per_hour
        if given is not None and abs(given - rate) > APART * max(given, rate):
            raise complaint(
                f"read {given:g}, but the masses, drink and urine make {rate:.2f} L/h; one of the two is expected, or "
                "two that agree",
                "litres_per_hour",
            )
        return self


class Sweat(BaseModel):
    """The athlete's sweat. Without a test a range is given, and the advice to test."""

    model_config = STRICT

    salty: bool = flag("White marks on dried clothes, or stinging eyes: sodium is then looked after sooner.", False)
    test: tuple[SweatTest, ...] = many("Sweat tests, for heat and cold.", 20)
