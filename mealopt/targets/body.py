"""The body that the equations see: mass index, body fat and fat-free mass, known or estimated."""

from __future__ import annotations

from dataclasses import dataclass

from mealopt.people.case import Athlete
from mealopt.targets.coefficients import FAT_CONSTANT, FAT_DOUBTED, FAT_ERROR, FAT_MALE, FAT_PER_BMI, FAT_PER_YEAR
from mealopt.targets.model import Step

#: The estimate stays within what bodies have, per cent of mass: [project].
ESTIMATE_RANGE = {"male": (6.0, 50.0), "female": (13.0, 55.0)}


@dataclass(frozen=True, slots=True)
class Body:
    """Mass in kg, height in cm, age in years; fat in per cent of mass.

    fat_free_kg: from the given body fat, or estimated. guarded_fat_free_kg: what energy availability counts with: the
    larger of the two where the given figure is doubted. fat_known: body fat was given, and is not doubted.
    """

    sex: str
    age: int
    mass_kg: float
    height_cm: float
    fat_percent: float
    fat_free_kg: float
    guarded_fat_free_kg: float
    fat_given: bool
    fat_known: bool

    @property
    def mass_index(self) -> float:
        """Body mass index, kg/m2."""
        return mass_index(self.mass_kg, self.height_cm)


def mass_index(mass_kg: float, height_cm: float) -> float:
    """Body mass index, kg/m2."""
    return mass_kg / (height_cm / 100) ** 2


def estimated_fat_percent(sex: str, age: int, mass_kg: float, height_cm: float) -> float:
    """Body fat, per cent of mass, by Deurenberg 1991 less its standard error.

    Less its error, because athletes are leaner than the people it was made from, and because fat-free mass that is
    guessed too low would make energy availability look better than it is.
    """
    raw = FAT_PER_BMI * mass_index(mass_kg, height_cm) + FAT_PER_YEAR * age + FAT_CONSTANT - FAT_ERROR
    raw += FAT_MALE if sex == "male" else 0.0
    least, most = ESTIMATE_RANGE[sex]
    return min(max(raw, least), most)


def body_of(athlete: Athlete) -> tuple[Body, tuple[Step, ...], tuple[str, ...]]:
    """The body of an athlete, the step that gave its fat-free mass, and notes on what is guessed or doubted."""
    guess = estimated_fat_percent(athlete.sex, athlete.age, athlete.mass_kg, athlete.height_cm)
    given = athlete.body_fat_percent
    fat = guess if given is None else given
    doubted = given is not None and given > guess + FAT_DOUBTED
    lean = athlete.mass_kg * (1 - fat / 100)
    guarded = athlete.mass_kg * (1 - min(fat, guess) / 100) if doubted else lean
    body = Body(
        athlete.sex, athlete.age, athlete.mass_kg, athlete.height_cm, fat, lean, guarded,
        fat_given=given is not None, fat_known=given is not None and not doubted,
    )  # fmt: skip
    source = "the case" if given is not None else f"{FAT_PER_BMI.source}, less 4 points ({FAT_ERROR.source})"
    mark = "" if given is not None else " (estimated)"
    how = f"{athlete.mass_kg:g} kg x (1 - {fat:.1f} %{mark})"
    return body, (Step("fat-free mass", lean, "kg", how, source),), tuple(_notes(given, guess, doubted, lean))


def _notes(given: float | None, guess: float, doubted: bool, lean: float) -> list[str]:
    if given is None:
        return [
            f"Fat-free mass of {lean:.0f} kg is estimated from mass, height, age and sex (body fat about "
            f"{guess:.0f} %); give body_fat_percent if it was measured"
        ]
    if doubted:
        return [
            f"Body fat of {given:g} % is far above the {guess:.0f} % that mass, height and age suggest; "
            "energy availability is checked with the larger fat-free mass, as if body fat were not known"
        ]
    return []
