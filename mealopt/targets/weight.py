"""The goal: a change of body mass as energy a day, and how far safety lets a deficit go."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Protocol

from mealopt.people.case import Case
from mealopt.targets.availability import intake_for
from mealopt.targets.baseline import BELOW, Baseline
from mealopt.targets.body import Body
from mealopt.targets.coefficients import DEFICIT_MOST, FULL_AVAILABILITY, KCAL_PER_KG, LOW_AVAILABILITY
from mealopt.targets.model import Step, percent
from mealopt.targets.safety import REFERRAL, Standing, in_words

#: A deficit smaller than this, kcal a day, is lost in the energy band: [project].
SMALLEST_DEFICIT = 25.0


class Spending(Protocol):
    """What is needed of a day: its energy so far and its exercise, kcal."""

    @property
    def energy(self) -> float:
        """Energy planned so far."""

    @property
    def exercise(self) -> float:
        """Exercise above rest, undiscounted."""


@dataclass(frozen=True, slots=True)
class Change:
    """kcal that the goal adds to each day (below 0: takes), with steps and notes."""

    kcal: dict[str, float]
    steps: tuple[Step, ...]
    notes: tuple[str, ...]


def change_kcal_a_day(mass_kg: float, percent_a_week: float) -> float:
    """kcal a day of a change of body mass in per cent a week, at 7700 kcal/kg; below 0 a deficit."""
    return mass_kg * percent_a_week / 100 * KCAL_PER_KG / 7


def goal_change(
    case: Case, body: Body, base: Baseline, resting_kcal: float, standing: Standing, days: Mapping[str, Spending]
) -> Change:
    """The goal's change on each day: as asked, or less, or none where safety says so; the notes say why."""
    percent = case.goal.mass_change_percent_per_week
    if percent == 0:
        return Change(dict.fromkeys(days, 0.0), (), ())
    wanted = change_kcal_a_day(body.mass_kg, percent)
    how = f"{body.mass_kg:g} kg x {percent:g} % a week x {KCAL_PER_KG:,.0f} kcal/kg / 7"
    step = Step("goal as asked", wanted, "kcal/day", how, KCAL_PER_KG.source)
    if standing.maintenance_only:
        return _none(days, step, f"with {in_words(standing.no_deficit)} these are meals that keep body mass")
    if percent > 0:
        return Change(dict.fromkeys(days, wanted), (step,), ("A gain in mass also needs the training to go with it",))
    if reasons := _against(base, standing):
        return _none(days, step, "; ".join(reasons))
    return _deficit(-wanted, step, body, resting_kcal, days)


def _against(base: Baseline, standing: Standing) -> list[str]:
    reasons = [f"{reason} allows none" for reason in standing.no_deficit]
    if base.below_inactive:
        compared = "lies below the published inactive requirement" if base.activity_class == BELOW else (
            "has no published requirement to compare with under 19 years"
        )  # fmt: skip
        reasons.append(f"the baseline of {base.kcal:,.0f} kcal {compared}, and no weigh-ins confirm it yet")
    return reasons


def _none(days: Mapping[str, Spending], step: Step, reason: str) -> Change:
    asked = "deficit" if step.value < 0 else "gain"
    return Change(dict.fromkeys(days, 0.0), (step,), (f"No {asked} is planned: {reason}; ask {REFERRAL}",))


def _deficit(wanted: float, step: Step, body: Body, resting_kcal: float, days: Mapping[str, Spending]) -> Change:
    capped = {day: min(wanted, DEFICIT_MOST * entry.energy) for day, entry in days.items()}
    floor = LOW_AVAILABILITY if body.fat_known else FULL_AVAILABILITY
    room = sum(
        entry.energy - intake_for(floor, entry.exercise, body.guarded_fat_free_kg) for entry in days.values()
    )  # fmt: skip
    by_week = max(0.0, room) / sum(capped.values())
    by_day = min(max(0.0, entry.energy - resting_kcal) / capped[day] for day, entry in days.items())
    scale = min(1.0, by_week, by_day)
    mark = "" if body.fat_known else " while fat-free mass is not known from a measurement"
    mean = scale * sum(capped.values()) / len(capped)
    if mean < SMALLEST_DEFICIT:
        reason = f"the week's energy availability would fall under {floor:g} kcal per kg of fat-free mass{mark}"
        return _none(days, step, reason)
    notes = [
        f"A kilogram is counted as {KCAL_PER_KG:,.0f} kcal; that overstates the deficit that lean people need, so "
        "the loss may be faster: weigh in, and eat more if it is"
    ]
    if any(kcal < wanted - 1e-9 for kcal in capped.values()):
        notes.append(f"The deficit is at most {percent(DEFICIT_MOST)} of a day's energy")
    if scale < 1 - 1e-9:
        why = f"energy availability stays at {floor:g} kcal per kg of fat-free mass over the week{mark}"
        if by_day < by_week:
            why = "no day falls under resting energy"
        notes.append(f"The deficit shrinks to {mean:,.0f} kcal a day, so that {why}")
    planned = Step("deficit planned", -mean, "kcal/day", "the week's mean, after all limits", DEFICIT_MOST.source)
    return Change({day: -scale * kcal for day, kcal in capped.items()}, (step, planned), tuple(notes))
