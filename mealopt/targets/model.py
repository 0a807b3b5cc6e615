"""What the planning engine hands on: steps, the energy of a session, a day's targets, a week's."""

from __future__ import annotations

from dataclasses import dataclass

from mealopt.core.bands import Band
from mealopt.people.case import Session


@dataclass(frozen=True, slots=True)
class Step:
    """One step of how a number came about. value: in `unit`; how: the arithmetic in words; source: where it stands."""

    name: str
    value: float
    unit: str
    how: str
    source: str


@dataclass(frozen=True, slots=True)
class SessionEnergy:
    """What one session costs and what is eaten back and in it.

    net_kcal: energy above rest. replaced_kcal: what the day eats for it (0 for lift and circuit, whose hours stand in
    the baseline). availability_kcal: what energy availability counts for it, never over 30 % below its estimate.
    carbohydrate_g_per_h: least and most to eat during it; during_g: least and most over the whole session.
    """

    session: Session
    net_kcal: float
    replaced_kcal: float
    how: str
    source: str
    carbohydrate_g_per_h: tuple[float, float] = (0.0, 0.0)
    during_g: tuple[float, float] = (0.0, 0.0)
    share: float = 0.0
    availability_kcal: float = 0.0
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class DayTargets:
    """A plan day's numbers, each with how it came about.

    bands: every key of core.nutrients.TARGETED, and further nutrients where the case sets a band of its own.
    protein_main_least_g: least protein in each main meal. energy_availability: kcal per kg of fat-free mass, on the
    final energy. eve: the day fills the stores for a long event. fibre_cost_over_g: above it fibre is a cost, not a
    wall. maintenance_only: meals that keep body mass,
    nothing for sessions.
    """

    day: str
    sessions: tuple[SessionEnergy, ...]
    bands: dict[str, Band]
    protein_main_least_g: float
    steps: tuple[Step, ...]
    notes: tuple[str, ...]
    cautions: tuple[str, ...]
    carbohydrate_class: str
    baseline_kcal: float
    energy_availability: float
    eve: bool = False
    fibre_cost_over_g: float = 45.0
    maintenance_only: bool = False


@dataclass(frozen=True, slots=True)
class WeekTargets:
    """All seven plan days, mon to sun, and what the whole week rests on.

    sum_kcal: the sum of the days' energy aims. sum_expected_kcal: the same from the week's parts, added another way;
    the two differ by rounding error only. mean_energy_availability: kcal per kg of fat-free mass.
    """

    days: dict[str, DayTargets]
    steps: tuple[Step, ...]
    notes: tuple[str, ...]
    cautions: tuple[str, ...]
    maintenance_only: bool
    mean_energy_availability: float
    sum_kcal: float
    sum_expected_kcal: float
    resting_kcal: float
    baseline_kcal: float
    fat_free_mass_kg: float
    activity_class: str


def percent(share: float) -> str:
    """A share in per cent, as people read it: "25 %"."""
    return f"{100 * share:.0f} %"
