"""The day's targets and the week's: every part of the engine in its order."""

from __future__ import annotations

from dataclasses import dataclass

from mealopt.core.bands import Band
from mealopt.core.clock import DAYS
from mealopt.core.nutrients import CARBOHYDRATE, PROTEIN
from mealopt.errors import BadInput
from mealopt.people.case import Case, Session
from mealopt.targets.availability import availability_class, energy_availability, intake_for
from mealopt.targets.baseline import Baseline, baseline
from mealopt.targets.body import Body, body_of
from mealopt.targets.coefficients import DEFICIT_MOST, EVE_EVENT_OVER, LOW_AVAILABILITY, OWN_BAND_ROOM
from mealopt.targets.endurance import session_energy
from mealopt.targets.eve import eve_days, eve_energy, eve_notes, eve_words
from mealopt.targets.fibre import fibre_cost_over
from mealopt.targets.fuelling import fuelled
from mealopt.targets.macros import energy_band, limits_of
from mealopt.targets.model import DayTargets, SessionEnergy, Step, WeekTargets
from mealopt.targets.nutrients import class_of_day, day_bands, protein_main_least
from mealopt.targets.own import Limits, with_own, with_own_energy
from mealopt.targets.resting import resting
from mealopt.targets.safety import Standing, standing
from mealopt.targets.week import DayEnergy, WeekEnergy, day_cautions, day_steps, week_energy
from mealopt.targets.wishes import Kind


@dataclass(frozen=True, slots=True)
class _Week:
    """What every day of the week shares. eves: the day's event, where it is an eve."""

    case: Case
    standing: Standing
    body: Body
    base: Baseline
    resting_kcal: float
    sessions: dict[str, tuple[SessionEnergy, ...]]
    energy: WeekEnergy
    eves: dict[str, Session]
    steps: tuple[Step, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _DayEnergyBand:
    """A day's final energy band, kcal, and what an eve and the case's own band add to the week's balance."""

    band: Band
    eve_kcal: float
    own_kcal: float
    deficit: bool
    steps: tuple[Step, ...]
    notes: tuple[str, ...]

    @property
    def aim(self) -> float:
        """The aim, kcal."""
        return limits_of(self.band)[1]


def day_targets(case: Case, day: str) -> DayTargets:
    """One plan day's targets ("mon" to "sun").

    Raises Refused where safety forbids, BadInput for a day that is none or a figure that cannot be used.
    """
    if day not in DAYS:
        raise BadInput(f"day: read {day!r}; one of {', '.join(DAYS)} is allowed")
    return week_targets(case).days[day]


def week_targets(case: Case) -> WeekTargets:
    """All seven days' targets. Raises Refused where safety forbids, BadInput for a figure that cannot be used."""
    week = _prepare(case)
    energies = {day: _day_energy(week, day) for day in DAYS}
    days = {day: _day(week, day, energies[day]) for day in DAYS}
    total, parts = sum(entry.aim for entry in energies.values()), _parts(week, energies)
    mean = sum(entry.energy_availability for entry in days.values()) / len(days)
    lean, mark = week.body.guarded_fat_free_kg, "" if week.body.fat_known else ", estimated"
    closing = (
        Step("energy availability", mean, "kcal/kg fat-free mass",
             f"the days' mean of (intake - exercise) / {lean:.1f} kg{mark}: {availability_class(mean)}",
             LOW_AVAILABILITY.source),
        Step("week", total, "kcal", "; ".join(f"{name} {kcal:,.0f}" for name, kcal in parts.items()), "the parts"),
    )  # fmt: skip
    low = [day for day, entry in days.items() if len(entry.cautions) > len(week.standing.cautions)]
    cautions = week.standing.cautions
    if low:
        cautions = (*cautions, f"Energy availability is very low on: {', '.join(low)}; see those days.")
    return WeekTargets(
        days, (*week.steps, *closing), week.notes, cautions, week.standing.maintenance_only, mean, total,
        sum(parts.values()), week.resting_kcal, week.base.kcal, week.body.fat_free_kg, week.base.activity_class,
    )  # fmt: skip


def _prepare(case: Case) -> _Week:
    allowed = standing(case)
    body, body_steps, body_notes = body_of(case.athlete)
    resting_kcal, resting_steps, resting_notes = resting(case.goal.resting_equation, body)
    base, base_steps, base_notes = baseline(case, body, resting_kcal)
    sessions = {
        day: tuple(
            session_energy(session, case.goal, body.mass_kg, resting_kcal) for session in case.sessions_on(day)
        )
        for day in DAYS
    }  # fmt: skip
    energy = week_energy(case, body, base, resting_kcal, sessions, allowed)
    eves, eve_said = ({}, ()) if allowed.maintenance_only else eve_days(case)
    return _Week(
        case, allowed, body, base, resting_kcal, sessions, energy, eves,
        (*body_steps, *resting_steps, *base_steps, *energy.steps),
        (*body_notes, *resting_notes, *base_notes, *energy.notes, *eve_said),
    )  # fmt: skip


def _day_energy(week: _Week, day: str) -> _DayEnergyBand:
    entry = week.energy.days[day]
    aim, eve_kcal, steps, deficit = entry.energy, 0.0, [], entry.deficit > 0
    if event := week.eves.get(day):
        raised = max(entry.energy + entry.deficit, eve_energy(week.body.mass_kg))
        eve_kcal, aim, deficit = raised - aim, raised, False
        how = eve_words(event, week.body.mass_kg)
        steps.append(Step("eve of a long event", eve_kcal, "kcal", how, EVE_EVENT_OVER.source))
    limits = _own_limits(week, entry, energy_band(aim), aim + (entry.deficit if deficit else 0.0))
    band, notes = with_own_energy(week.case, day, energy_band(aim), limits)
    own_kcal = limits_of(band)[1] - aim
    if own_kcal:
        steps.append(Step("band of the case", own_kcal, "kcal", "the aim moves into it", "the case"))
    deficit = deficit or limits_of(band)[1] < (1 - OWN_BAND_ROOM) * limits.own
    return _DayEnergyBand(band, eve_kcal, own_kcal, deficit, tuple(steps), notes)


def _own_limits(week: _Week, entry: DayEnergy, band: Band, own: float) -> Limits:
    """How far the case's own energy band may lead. own: the day's energy without a deficit, kcal."""
    lean, allowed = week.body.guarded_fat_free_kg, week.standing
    floor = intake_for(allowed.floor, entry.exercise, lean)
    words = f"an energy availability of {allowed.floor:g} kcal per kg of fat-free mass asks for"
    may_deficit = not allowed.no_deficit and not week.base.below_inactive and week.body.fat_known
    kept = (1 - DEFICIT_MOST) * own if may_deficit else (1 - OWN_BAND_ROOM) * own
    least, why = max(
        (floor, words),
        (week.resting_kcal, "resting energy asks for"),
        (kept, "are left by the largest deficit" if may_deficit else "are left where no deficit is planned"),
    )
    lowest, aim, _ = limits_of(band)
    if lowest < least:
        least, why = lowest, "the day's own band allows"
    aim_least = least if may_deficit else aim
    return Limits(own, least, aim_least, (1 + OWN_BAND_ROOM) * own if allowed.maintenance_only else None, why)


def _day(week: _Week, day: str, energy: _DayEnergyBand) -> DayTargets:
    case, body, entry = week.case, week.body, week.energy.days[day]
    kind = Kind(energy.deficit, day in week.eves, week.standing.maintenance_only)
    bands, steps, notes = day_bands(case, body, day, energy.band, kind)
    notes = (*energy.notes, *notes, *with_own(case, day, bands, maintenance_only=kind.maintenance_only))
    if kind.eve:
        notes = (*notes, *eve_notes(body.mass_kg))
    sessions, said = fuelled(
        week.sessions[day], case.athlete, bands[CARBOHYDRATE].aim or 0.0,
        maintenance_only=kind.maintenance_only, rate=case.fuel.rate,
    )  # fmt: skip
    found = energy_availability(energy.aim, entry.exercise, body.guarded_fat_free_kg)
    how = (
        f"({energy.aim:,.0f} - {entry.exercise:,.0f} kcal of exercise) / {body.guarded_fat_free_kg:.1f} kg fat-free "
        f"mass{'' if body.fat_known else ' (estimated)'}: {availability_class(found)}"
    )
    doubts = [f"Session {number}: {text}" for number, one in enumerate(sessions, 1) for text in one.notes]
    return DayTargets(
        day=day,
        sessions=sessions,
        bands=bands,
        protein_main_least_g=protein_main_least(body, bands[PROTEIN]),
        steps=(*day_steps(case, entry, sessions), *energy.steps, *steps,
               Step("energy availability", found, "kcal/kg fat-free mass", how, LOW_AVAILABILITY.source)),
        notes=(*doubts, *week.energy.notes, *notes, *said),
        cautions=(*week.standing.cautions, *day_cautions(energy.aim, entry.exercise, body)),
        carbohydrate_class=class_of_day(case, day),
        baseline_kcal=week.base.kcal,
        energy_availability=found,
        eve=kind.eve,
        fibre_cost_over_g=fibre_cost_over(energy.aim),
        maintenance_only=kind.maintenance_only,
    )  # fmt: skip


def _parts(week: _Week, energies: dict[str, _DayEnergyBand]) -> dict[str, float]:
    """The week's energy by its parts, kcal, added apart from the days. Moves and an even spread add nothing."""
    days = week.energy.days.values()
    parts = {
        "7 x baseline": 7 * week.base.kcal,
        "eaten back": sum(one.replaced_kcal for sessions in week.sessions.values() for one in sessions),
        "goal": sum(entry.change for entry in days),
        "raised": sum(entry.raised for entry in days),
        "eves, outside the balance": sum(entry.eve_kcal for entry in energies.values()),
        "bands of the case": sum(entry.own_kcal for entry in energies.values()),
    }
    return {name: kcal for name, kcal in parts.items() if kcal or name == "7 x baseline"}
