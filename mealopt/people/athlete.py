"""The athlete: what the equations and the cautions need to know about a person."""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel, model_validator

from mealopt.people.fields import STRICT, choice, complaint, many, number, words
from mealopt.people.sweat import Sweat

Sex = Literal["female", "male"]

#: Conditions that decide before any number does. Being under 18 is read from the age.
Caution = Literal[
    "pregnant",
    "breastfeeding",
    "kidney",
    "eating_disorder_now",
    "diabetes",
    "heart",
    "liver",
    "medication",
    "missed_periods",
    "bone_stress_injury",
    "past_eating_disorder",
    "unexplained_weight_loss",
    "hyponatraemia_before",
]

#: Mass over height squared, kg/m2, outside which units were probably mixed up [common practice, no source].
BODY_MASS_INDEX = (12.0, 50.0)

#: A sweat test of a mass that differs by more than this share is somebody else's [common practice, no source].
OTHER_BODY = 0.15


class Athlete(BaseModel):
    """One person. Ages from 10 can be read, so that the refusal to plan for minors is said as what it is."""

    model_config = STRICT

    name: str = words("Any label for the person.", most=100)
    sex: Sex = choice("The published equations know these two only.")
    age: int = number(10, 100, "years", "Age; nobody under 18 is planned for.", high="was it a year of birth?")
    mass_kg: float = number(30, 250, "kg", "Body mass.", high="was it grams or pounds?", low="was it stones?")
    height_cm: float = number(120, 230, "cm", "Height.", low="was it metres or inches?", high="was it millimetres?")
    body_fat_percent: float | None = number(
        3, 60, "%", "Body fat, where it was measured; chooses an equation on lean mass.", default=None,
        low="was it a share between 0 and 1?",
    )  # fmt: skip
    steps_per_day: int = number(
        0, 40000, "steps", "Walking steps on an ordinary day, runs left out.", default=7000, high="was it a week's?"
    )
    lifting_hours_per_week: float = number(
        0, 30, "hours", "Lifting and lifting-led conditioning; lift sessions in the week replace it.", default=0.0,
        high="was it minutes?",
    )  # fmt: skip
    carbohydrate_used_to_g_per_h: float | None = number(
        0, 120, "g/h", "Carbohydrate that the gut is used to in a session.", default=None
    )
    cautions: tuple[Caution, ...] | None = many(
        'What a doctor should know first; an empty list means "asked, none", a missing key "not asked".', 13, None
    )
    sweat: Sweat | None = choice("What is known of the athlete's sweat.", None)

    @model_validator(mode="after")
    def _units_fit_each_other(self) -> Athlete:
        index = self.mass_kg / (self.height_cm / 100) ** 2
        least, most = BODY_MASS_INDEX
        if not least <= index <= most:
            raise complaint(
                f"read {self.mass_kg:g} with height_cm = {self.height_cm:g}, a body mass index of {index:.0f} kg/m2; "
                f"{least:g} to {most:g} kg/m2 can be planned for: is the mass in kg and the height in cm (if both are "
                "right, ask a doctor or registered dietitian)",
                "mass_kg",
            )
        return self

    @model_validator(mode="after")
    def _sweat_tests_are_this_body(self) -> Athlete:
        for place, test in enumerate(self.sweat.test if self.sweat else ()):
            before = test.mass_before_kg
            if before is not None and abs(before - self.mass_kg) > OTHER_BODY * self.mass_kg:
                raise complaint(
                    f"read {before:g} with mass_kg = {self.mass_kg:g}; a test of the same body, within "
                    f"{100 * OTHER_BODY:g} %, is expected",
                    "sweat", "test", place, "mass_before_kg",
                )  # fmt: skip
        return self
