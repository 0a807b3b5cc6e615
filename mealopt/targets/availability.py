"""Energy availability: what is left of the food for the body once exercise is paid for, kcal/kg fat-free mass."""

from __future__ import annotations

from mealopt.targets.coefficients import FULL_AVAILABILITY, LOW_AVAILABILITY


def energy_availability(intake_kcal: float, exercise_kcal: float, fat_free_kg: float) -> float:
    """(intake - exercise) / fat-free mass, a day. exercise_kcal: above rest, all of it, lifting included."""
    return (intake_kcal - exercise_kcal) / fat_free_kg


def intake_for(availability: float, exercise_kcal: float, fat_free_kg: float) -> float:
    """The intake, kcal a day, that gives an energy availability."""
    return availability * fat_free_kg + exercise_kcal


def availability_class(availability: float) -> str:
    """low under 30, reduced from 30 to under 45, adequate from 45."""
    if availability < LOW_AVAILABILITY:
        return "low"
    return "reduced" if availability < FULL_AVAILABILITY else "adequate"
