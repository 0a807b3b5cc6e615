"""Fibre of a day: aim, least and wall, and the published adequate intake beside it."""

from __future__ import annotations

from mealopt.core.bands import Band
from mealopt.targets.coefficients import (
    EVE_FIBRE_AIM,
    EVE_FIBRE_MOST,
    FIBRE_ADEQUATE,
    FIBRE_AGE,
    FIBRE_AIM_MOST,
    FIBRE_COST_PER_1000,
    FIBRE_LEAST,
    FIBRE_PER_1000,
    FIBRE_WALL,
)
from mealopt.targets.model import Step


def fibre_by_energy(energy_kcal: float) -> float:
    """Adequate intake by energy, g a day: 14 g for each 1000 kcal."""
    return FIBRE_PER_1000 * energy_kcal / 1000


def fibre_by_age(sex: str, age: int) -> float:
    """Adequate intake by sex and age, g a day."""
    younger, older = FIBRE_ADEQUATE[sex]
    return older if age >= FIBRE_AGE else younger


def fibre_cost_over(energy_kcal: float) -> float:
    """g a day above which fibre is a cost: the larger of 45 g and 18 g for each 1000 kcal."""
    return max(float(FIBRE_AIM_MOST), FIBRE_COST_PER_1000 * energy_kcal / 1000)


def fibre_band(energy_kcal: float, sex: str, age: int, *, eve: bool) -> tuple[Band, Step]:
    """The day's fibre, g, and how it came about. On an eve no floor, and a low-fibre day's most."""
    if eve:
        band = Band(None, float(EVE_FIBRE_AIM), float(EVE_FIBRE_MOST))
        how = f"little fibre before a long event: at most {EVE_FIBRE_MOST:g} g, and no floor"
        return band, Step("fibre", float(EVE_FIBRE_AIM), "g", how, EVE_FIBRE_MOST.source)
    aim = min(max(fibre_by_energy(energy_kcal), float(FIBRE_LEAST)), float(FIBRE_AIM_MOST))
    how = (
        f"{FIBRE_PER_1000:g} g x {energy_kcal:,.0f} / 1000 = {fibre_by_energy(energy_kcal):.0f} g, kept within "
        f"{FIBRE_LEAST:g} and {FIBRE_AIM_MOST:g} g; least {FIBRE_LEAST:g} g, sinking to what windows leave; most "
        f"{FIBRE_WALL:g} g; published for sex and age: {fibre_by_age(sex, age):g} g"
    )
    return Band(float(FIBRE_LEAST), aim, float(FIBRE_WALL)), Step("fibre", aim, "g", how, FIBRE_PER_1000.source)
