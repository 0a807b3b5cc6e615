"""Resting energy: every published adult equation that the program knows, kcal a day."""

from __future__ import annotations

from mealopt.errors import BadInput
from mealopt.targets.body import Body
from mealopt.targets.coefficients import EQUATIONS, Equation, Linear
from mealopt.targets.model import Step

AUTO = "auto"
AUTO_PLAIN = "harris_benedict_1919"
AUTO_LEAN = "cunningham_1980"


def linear(row: Linear, body: Body) -> float:
    """Value of a linear equation for a body, kcal a day."""
    return (
        row.constant
        + row.mass * body.mass_kg
        + row.height_cm * body.height_cm
        + row.height_m * body.height_cm / 100
        + row.age * body.age
        + row.lean * body.fat_free_kg
    )


def linear_words(row: Linear, body: Body) -> str:
    """The same arithmetic as a person would write it."""
    parts = [f"{row.constant:g}"]
    for factor, value, unit in (
        (row.mass, body.mass_kg, "kg"),
        (row.height_cm, body.height_cm, "cm"),
        (row.height_m, body.height_cm / 100, "m"),
        (row.age, body.age, "years"),
        (row.lean, round(body.fat_free_kg, 1), "kg fat-free mass"),
    ):
        if factor:
            parts.append(f"{'-' if factor < 0 else '+'} {abs(factor):g} x {value:g} {unit}")
    return " ".join(parts)


def row_for(equation: Equation, sex: str, age: int) -> Linear:
    """The row of an equation for a sex and an age; bands hold their lower age, not their upper (29 and 30 differ).

    Raises BadInput under 18: the equations here are the adults'.
    """
    fitting = [row for whose, start, row in equation.rows if whose in ("any", sex) and age >= start]
    if not fitting:
        raise BadInput(f"{equation.title} is for adults of 18 years and over; read an age of {age}")
    return fitting[-1]


def equation_name(chosen: str, body: Body) -> str:
    """The equation to use: the chosen one; for "auto" Cunningham 1980 where body fat is given, else Harris-Benedict.

    Raises BadInput for a name that is none.
    """
    if chosen == AUTO:
        return AUTO_LEAN if body.fat_given else AUTO_PLAIN
    if chosen not in EQUATIONS:
        raise BadInput(f"resting_equation: read {chosen!r}; auto or one of {', '.join(EQUATIONS)} is allowed")
    return chosen


def resting_kcal(name: str, body: Body) -> float:
    """Resting energy by one equation (a key of EQUATIONS), kcal a day.

    An equation on fat-free mass takes the body's own, which is an estimate where body fat is not known.
    """
    return linear(row_for(EQUATIONS[name], body.sex, body.age), body)


def resting(chosen: str, body: Body) -> tuple[float, tuple[Step, ...], tuple[str, ...]]:
    """Resting energy by choice, kcal a day, with its step and notes on ages and guesses outside the equation's own."""
    name = equation_name(chosen, body)
    equation = EQUATIONS[name]
    row = row_for(equation, body.sex, body.age)
    value = linear(row, body)
    notes = []
    least, most = equation.ages
    if not least <= body.age <= most:
        notes.append(f"{equation.title} was made for {least} to {most} years, and the age is {body.age}")
    if row.lean and not body.fat_given:
        notes.append(f"{equation.title} needs fat-free mass, which is estimated here")
    if chosen == AUTO:
        reason = "body fat is given" if body.fat_given else "body fat is not known"
        notes.append(f"Resting energy is by {equation.title}, because {reason}")
    how = f"{equation.title}: {linear_words(row, body)} ({equation.population})"
    return value, (Step("resting energy", value, "kcal/day", how, equation.source),), tuple(notes)
