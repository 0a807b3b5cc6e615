"""Baseline: what a day costs without endurance work, and the published requirement beside it."""

from __future__ import annotations

from dataclasses import dataclass

from mealopt.errors import BadInput, Refused
from mealopt.people.case import Case
from mealopt.targets.body import Body
from mealopt.targets.coefficients import (
    BASELINE_ERROR,
    EER_2005,
    EER_2023,
    EER_2023_SOURCE,
    EER_LEAST_AGE,
    LIFTING_MET,
    MEASURED_LEAST,
    MEASURED_MOST,
    PROJECT,
    REST_TO_BASELINE,
    STEP_KCAL,
    STEPS_FREE,
)
from mealopt.targets.compendium import MET_KCAL, REST_MET
from mealopt.targets.model import Step, percent
from mealopt.targets.resting import linear

CLASSES = tuple(EER_2023)
BELOW = "below inactive"
UNKNOWN = "no published class under 19 years"


@dataclass(frozen=True, slots=True)
class Baseline:
    """kcal a day. requirement: the published EER of each class, empty under 19. lifting_kcal: its part, a day."""

    kcal: float
    measured: bool
    lifting_kcal: float
    activity_class: str
    requirement: dict[str, float]

    @property
    def below_inactive(self) -> bool:
        """Whether it lies below the published inactive requirement, or none is published to compare it with."""
        return self.activity_class in (BELOW, UNKNOWN)


def requirement_2023(body: Body) -> dict[str, float]:
    """Estimated energy requirement of NASEM 2023 by activity class, kcal a day. Raises BadInput under 19 years."""
    if body.age < EER_LEAST_AGE:
        raise BadInput(f"the 2023 requirement is published for adults of 19 years and over; read an age of {body.age}")
    return {name: linear(rows[body.sex], body) for name, rows in EER_2023.items()}


def requirement_2005(body: Body) -> tuple[float, float, float, float]:
    """Estimated energy requirement of IOM 2005, kcal a day, sedentary to very active."""
    outside, inside, factors = EER_2005[body.sex]
    sedentary, low, active, very = (linear(outside, body) + factor * linear(inside, body) for factor in factors)
    return sedentary, low, active, very


def activity_class(kcal: float, requirement: dict[str, float]) -> str:
    """The highest class whose requirement the energy reaches; "below inactive" where it reaches none."""
    reached = [name for name in CLASSES if kcal >= requirement[name]]
    return reached[-1] if reached else BELOW


def lifting_hours(case: Case) -> float:
    """Hours of lifting and lifting-led conditioning a week: the week's sessions, or the athlete's figure if none."""
    minutes = sum(session.minutes for session in case.session if not session.endurance)
    return minutes / 60 if minutes else case.athlete.lifting_hours_per_week


def lifting_kcal_a_day(case: Case) -> float:
    """Net energy of lifting averaged over the week, kcal a day."""
    return (LIFTING_MET - REST_MET) * MET_KCAL * case.athlete.mass_kg * lifting_hours(case) / 7


def baseline(case: Case, body: Body, resting_kcal: float) -> tuple[Baseline, tuple[Step, ...], tuple[str, ...]]:
    """The baseline of a case with its steps and notes.

    Raises Refused where a measured baseline lies under 1.2 x resting energy, BadInput where over 2.5 x.
    """
    lifting = lifting_kcal_a_day(case)
    measured = case.goal.baseline_kcal
    if measured is None:
        value, steps = _estimated(case, resting_kcal, lifting)
    else:
        value, steps = _measured(measured, resting_kcal)
    requirement = requirement_2023(body) if body.age >= EER_LEAST_AGE else {}
    found = activity_class(value, requirement) if requirement else UNKNOWN
    steps.append(_requirement_step(body, value, requirement, found))
    notes = ["The baseline is known to about 10 % either way until weigh-ins confirm it"]
    if found == BELOW:
        notes.append(
            f"A baseline of {value:,.0f} kcal lies below the published requirement of an inactive person "
            f"({requirement['inactive']:,.0f} kcal), so no deficit would be planned until weigh-ins confirm it"
        )
    return Baseline(value, measured is not None, lifting, found, requirement), tuple(steps), tuple(notes)


def _estimated(case: Case, resting_kcal: float, lifting: float) -> tuple[float, list[Step]]:
    athlete = case.athlete
    steps_above = max(0.0, athlete.steps_per_day - STEPS_FREE)
    still = REST_TO_BASELINE * resting_kcal
    walking = STEP_KCAL * athlete.mass_kg * steps_above / 1000
    value = still + walking + lifting
    spread = BASELINE_ERROR * value
    hours = lifting_hours(case)
    return value, [
        Step("day without exercise", still, "kcal/day", f"{REST_TO_BASELINE:g} x {resting_kcal:,.0f}",
             REST_TO_BASELINE.source),
        Step("walking", walking, "kcal/day",
             f"{STEP_KCAL:g} kcal/kg x {athlete.mass_kg:g} kg x {steps_above:,.0f} steps above "
             f"{STEPS_FREE:,.0f} / 1000", STEP_KCAL.source),
        Step("lifting", lifting, "kcal/day",
             f"({LIFTING_MET:g} - 1) x {athlete.mass_kg:g} kg x {hours:.1f} h a week / 7", LIFTING_MET.source),
        Step("baseline", value, "kcal/day",
             f"the three together, {value / resting_kcal:.2f} x resting; between {value - spread:,.0f} and "
             f"{value + spread:,.0f} ({percent(BASELINE_ERROR)} either way)", PROJECT),
    ]  # fmt: skip


def _measured(measured: float, resting_kcal: float) -> tuple[float, list[Step]]:
    least, most = MEASURED_LEAST * resting_kcal, MEASURED_MOST * resting_kcal
    if measured < least:
        raise Refused(
            f"baseline_kcal: {measured:,.0f} kcal is under {MEASURED_LEAST:g} x resting energy ({least:,.0f} kcal), "
            "and no plan starts from so little; check it, and if it is right, ask a doctor or registered dietitian"
        )
    if measured > most:
        raise BadInput(
            f"baseline_kcal: read {measured:,.0f}; at most {MEASURED_MOST:g} x resting energy, {most:,.0f} kcal, is "
            "allowed: sessions do not belong in it"
        )
    spread = BASELINE_ERROR * measured
    how = (
        f"measured, {measured / resting_kcal:.2f} x resting; between {measured - spread:,.0f} and "
        f"{measured + spread:,.0f}"
    )
    return measured, [Step("baseline", measured, "kcal/day", how, "the case")]


def _requirement_step(body: Body, value: float, requirement: dict[str, float], found: str) -> Step:
    if not requirement:
        return Step("published requirement", value, "kcal/day", UNKNOWN, EER_2023_SOURCE)
    listed = ", ".join(f"{name} {kcal:,.0f}" for name, kcal in requirement.items())
    older = requirement_2005(body)
    how = (
        f"{listed} (the 2005 equation: {older[0]:,.0f} to {older[3]:,.0f}); the baseline alone, without endurance "
        f"work, falls in: {found}"
    )
    return Step("published requirement", requirement["inactive"], "kcal/day", how, EER_2023_SOURCE)
