"""Cautions decide before any number: who is refused, who is kept at maintenance, who gets no deficit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from mealopt.errors import Refused
from mealopt.people.case import Athlete, Case
from mealopt.targets.body import mass_index
from mealopt.targets.coefficients import FULL_AVAILABILITY, LEAST_BMI, LEAST_FAT, LOW_AVAILABILITY

ADULT_AGE = 18
REFERRAL = "a doctor or registered dietitian"
SPORTS_REFERRAL = "a sports doctor or registered dietitian"

REFUSED = {
    "pregnant": "pregnancy",
    "breastfeeding": "breastfeeding",
    "kidney": "kidney disease",
    "eating_disorder_now": "an eating disorder now",
}
MAINTENANCE = {
    "diabetes": "diabetes",
    "heart": "heart disease",
    "liver": "liver disease",
    "medication": "medicines that may interact with food",
}
PROTECTED = {
    "missed_periods": "missed periods",
    "bone_stress_injury": "a bone stress injury",
    "past_eating_disorder": "an eating disorder in the past",
    "unexplained_weight_loss": "unexplained weight loss",
}

ALWAYS = (
    "This is planning help for healthy adults, not medical advice; a doctor or registered dietitian decides for anyone "
    "under 18, pregnant or breastfeeding, with an eating disorder now or before, diabetes, kidney or heart disease, or "
    "medicines that interact with food."
)
NOT_ASKED = (
    "Cautions were not asked. Before using these numbers, say whether any of these holds: pregnancy, breastfeeding, "
    "kidney, liver or heart disease, diabetes, medicines, an eating disorder now or before, missed periods, a bone "
    "stress injury, unexplained weight loss, low blood sodium after exercise."
)


@dataclass(frozen=True, slots=True)
class Standing:
    """What safety allows. floor: least energy availability, kcal/kg fat-free mass; each_day: it holds on each day, not
    only for the week. no_deficit: why none is planned, empty where one may be."""

    maintenance_only: bool
    floor: float
    each_day: bool
    no_deficit: tuple[str, ...]
    cautions: tuple[str, ...]


def standing(case: Case) -> Standing:
    """What the athlete's cautions, age and build allow, before any number.

    Raises Refused under 18 years, and in pregnancy, breastfeeding, kidney disease or an eating disorder now.
    """
    athlete = case.athlete
    said = athlete.cautions or ()
    refuse(athlete)
    cautions = [ALWAYS]
    if athlete.cautions is None:
        cautions.append(NOT_ASKED)
    kept = [MAINTENANCE[word] for word in said if word in MAINTENANCE]
    guarded = [PROTECTED[word] for word in said if word in PROTECTED]
    reasons = [*kept, *guarded, *_build(athlete)]
    if kept:
        cautions.append(
            f"With {in_words(kept)} these are meals that keep body mass, and nothing else: no deficit or gain, no "
            "eating for sessions, no filling up before long events, no caffeine, sodium or high-protein plan. A doctor "
            "or registered dietitian decides what and when to eat around training."
        )
    if guarded:
        cautions.append(
            f"With {in_words(guarded)} no deficit is planned, and each day's energy availability is kept at "
            f"{FULL_AVAILABILITY:g} kcal per kg of fat-free mass or more. See {SPORTS_REFERRAL}."
        )
    if build := _build(athlete):
        cautions.append(f"With {in_words(build)} no deficit is planned. See {REFERRAL}.")
    if "hyponatraemia_before" in said:
        cautions.append(f"After low blood sodium in exercise there is no drinking plan here. See {SPORTS_REFERRAL}.")
    floor = FULL_AVAILABILITY if guarded else LOW_AVAILABILITY
    return Standing(bool(kept), float(floor), bool(guarded), tuple(reasons), tuple(cautions))


def refuse(athlete: Athlete) -> None:
    """Raise Refused, with every reason and the referral, for whoever is not planned for."""
    reasons = [f"an age of {athlete.age} (under {ADULT_AGE})"] if athlete.age < ADULT_AGE else []
    reasons += [REFUSED[word] for word in athlete.cautions or () if word in REFUSED]
    if reasons:
        raise Refused(f"No plan is made with {in_words(reasons)}: please see {REFERRAL}, who can plan for you.")


def _build(athlete: Athlete) -> list[str]:
    reasons = []
    index = mass_index(athlete.mass_kg, athlete.height_cm)
    if index < LEAST_BMI:
        reasons.append(f"a body mass index of {index:.1f} kg/m2 (under {LEAST_BMI:g})")
    least = LEAST_FAT[athlete.sex]
    if athlete.body_fat_percent is not None and athlete.body_fat_percent < least:
        reasons.append(f"body fat of {athlete.body_fat_percent:g} % (under {least:g} %)")
    return reasons


def in_words(reasons: Sequence[str]) -> str:
    """Reasons as a list in a sentence: "a, b and c"."""
    return reasons[0] if len(reasons) == 1 else f"{', '.join(reasons[:-1])} and {reasons[-1]}"
