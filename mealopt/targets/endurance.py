"""Energy of a session: as given, by the ACSM equations, or by metabolic equivalents; always above rest."""

from __future__ import annotations

from mealopt.people.case import Goal, Session
from mealopt.targets.coefficients import REPLACED_OTHER, REPLACED_WRIST
from mealopt.targets.compendium import (
    ACSM_SOURCE,
    EFFORT_MET,
    GIVEN_OFF,
    JOG_LEAST,
    KCAL_PER_LITRE,
    MET_KCAL,
    MET_SOURCE,
    POWER_MET,
    REST_MET,
    REST_VO2,
    RIDE_LEAST_W,
    RIDE_MOST_W,
    RIDE_POWER,
    RIDE_UNLOADED,
    RUN_FLAT,
    RUN_MOST,
    RUN_UP,
    SPEED_MET,
    SPEED_MOST,
    STEEP,
    WALK_FLAT,
    WALK_LEAST,
    WALK_MOST,
    WALK_UP,
)
from mealopt.targets.model import SessionEnergy, percent

#: kcal, how it came about, source, notes.
Estimate = tuple[float, str, str, tuple[str, ...]]

IN_THE_BASELINE = "its hours stand in the baseline, so nothing is added"


def walking_vo2(metres_a_minute: float, grade: float) -> float:
    """Oxygen of walking, ml/kg/min, rest included. grade: metres climbed per metre. ACSM, 50 to 100 m/min."""
    return REST_VO2 + WALK_FLAT * metres_a_minute + WALK_UP * metres_a_minute * grade


def running_vo2(metres_a_minute: float, grade: float) -> float:
    """Oxygen of running, ml/kg/min, rest included. ACSM, over 134 m/min, from 80 where truly jogging."""
    return REST_VO2 + RUN_FLAT * metres_a_minute + RUN_UP * metres_a_minute * grade


def cycling_vo2(watts: float, mass_kg: float) -> float:
    """Oxygen of leg cycling, ml/kg/min, rest included. ACSM, 50 to 200 W."""
    return REST_VO2 + RIDE_UNLOADED + RIDE_POWER * watts / mass_kg


def oxygen_kcal(vo2: float, mass_kg: float, minutes: float) -> float:
    """kcal of an oxygen uptake (ml/kg/min) over minutes, at 5 kcal a litre."""
    return vo2 * mass_kg / 1000 * minutes * KCAL_PER_LITRE


def net_met_kcal(met: float, mass_kg: float, minutes: float) -> float:
    """kcal above rest of an activity: (MET - 1) x kg x hours."""
    return (met - REST_MET) * MET_KCAL * mass_kg * minutes / 60


def estimate(session: Session, mass_kg: float) -> Estimate:
    """Energy above rest by equation where the session allows one, else by metabolic equivalents."""
    if session.kind == "ride" and session.mean_power_w is not None:
        return _ride_by_power(session, session.mean_power_w, mass_kg)
    if session.kind in POWER_MET and session.mean_power_w is not None:
        code, met = _entry(POWER_MET[session.kind], session.mean_power_w)
        return _by_met(session, mass_kg, code, met)
    if session.kind in ("run", "walk") and session.distance_km is not None:
        return _on_foot(session, session.distance_km, mass_kg)
    if session.kind in SPEED_MET and session.distance_km is not None:
        return _by_speed(session, session.distance_km, mass_kg)
    code, met = EFFORT_MET[session.kind][session.effort]
    kcal, how, source, _ = _by_met(session, mass_kg, code, met)
    unused = session.distance_km is not None or session.mean_power_w is not None
    note = f"no equation uses the distance or power of a {session.kind}, so it is estimated from its effort"
    return kcal, how, source, (note,) if unused and session.endurance else ()


def session_energy(session: Session, goal: Goal, mass_kg: float, resting_kcal: float) -> SessionEnergy:
    """One session's energy and the share of it that is eaten back. resting_kcal: a day's."""
    guess, how, source, notes = estimate(session, mass_kg)
    net, share = guess, 0.0
    if session.active_kcal is not None:
        net, how, given_notes = _given(session, session.active_kcal, resting_kcal, guess)
        source = f"the case ({session.energy_from})"
        notes = given_notes
    if session.endurance:
        share, reason = _share(session, goal)
        how = f"{how}; {percent(share)} of it is eaten back ({reason})"
    else:
        how = f"{how}; {IN_THE_BASELINE}"
    counted = max(net, (1 - GIVEN_OFF) * guess)
    return SessionEnergy(session, net, share * net, how, source, share=share, availability_kcal=counted, notes=notes)


def _given(session: Session, given: float, resting_kcal: float, guess: float) -> tuple[float, str, tuple[str, ...]]:
    net, how = given, f"{given:,.0f} kcal as given, above rest"
    notes = []
    if session.energy_is == "total":
        rest = resting_kcal * session.minutes / 1440
        net = max(0.0, given - rest)
        how = f"{given:,.0f} kcal in all, less {rest:,.0f} kcal of rest in {session.minutes} min"
        if given <= rest:
            notes.append("the total given does not even hold the energy of rest in that time")
    if guess > 0 and abs(net / guess - 1) > GIVEN_OFF:
        counts = f"; energy availability counts {(1 - GIVEN_OFF) * guess:,.0f} kcal" if net < guess else ""
        off = f"{percent(abs(net / guess - 1))} {'under' if net < guess else 'over'}"
        notes.append(f"please check: {net:,.0f} kcal above rest is {off} the estimate of {guess:,.0f} kcal{counts}")
    return net, how, tuple(notes)


def _share(session: Session, goal: Goal) -> tuple[float, str]:
    if goal.energy_replaced is not None:
        return goal.energy_replaced, "the case"
    if session.active_kcal is not None and session.energy_from == "wrist":
        return float(REPLACED_WRIST), "a wrist figure"
    return float(REPLACED_OTHER), "not a wrist figure"


def _ride_by_power(session: Session, watts: float, mass_kg: float) -> Estimate:
    net = cycling_vo2(watts, mass_kg) - REST_VO2
    how = (
        f"ACSM leg cycling, net: ({RIDE_UNLOADED:g} + {RIDE_POWER:g} x {watts:g} W / {mass_kg:g} kg) ml/kg/min x "
        f"{session.minutes} min x {KCAL_PER_LITRE:g} kcal/L"
    )
    notes: tuple[str, ...] = ()
    if not RIDE_LEAST_W <= watts <= RIDE_MOST_W:
        notes = (f"the cycling equation was made for {RIDE_LEAST_W:g} to {RIDE_MOST_W:g} W",)
    return oxygen_kcal(net, mass_kg, session.minutes), how, ACSM_SOURCE, notes


def _on_foot(session: Session, distance_km: float, mass_kg: float) -> Estimate:
    metres = distance_km * 1000
    speed, grade = metres / session.minutes, (session.climb_m or 0.0) / metres
    running = session.kind == "run" and JOG_LEAST <= speed <= RUN_MOST
    walking = not running and WALK_LEAST <= speed <= WALK_MOST
    if not running and not walking:
        code, met = EFFORT_MET[session.kind][session.effort]
        kcal, how, source, _ = _by_met(session, mass_kg, code, met)
        doubt = f"{speed * 0.06:.1f} km/h is outside the {session.kind} equations, so the effort is used"
        return kcal, how, source, (doubt,)
    flat, up = (RUN_FLAT, RUN_UP) if running else (WALK_FLAT, WALK_UP)
    net = (running_vo2 if running else walking_vo2)(speed, grade) - REST_VO2
    how = (
        f"ACSM {'running' if running else 'walking'}, net: ({flat:g} x {speed:.0f} m/min + {up:g} x {speed:.0f} x "
        f"{grade:.3f} climb) ml/kg/min x {mass_kg:g} kg x {session.minutes} min x {KCAL_PER_LITRE:g} kcal/L"
    )
    notes = []
    if grade > 0:
        notes.append("the way down is counted as level ground")
    if grade > STEEP:
        notes.append(f"{percent(grade)} of climb over the whole way is steeper than the equation knows")
    if walking:
        notes.append("the ACSM walking equation is used; it reads a little low against measurements")
    return oxygen_kcal(net, mass_kg, session.minutes), how, ACSM_SOURCE, tuple(notes)


def _by_speed(session: Session, distance_km: float, mass_kg: float) -> Estimate:
    speed = distance_km * 60 / session.minutes
    if speed > SPEED_MOST[session.kind]:
        code, met = EFFORT_MET[session.kind][session.effort]
        kcal, how, source, _ = _by_met(session, mass_kg, code, met)
        return kcal, how, source, (f"{speed:.1f} km/h is faster than the table, so the effort is used",)
    code, met = _entry(SPEED_MET[session.kind], speed)
    kcal, how, source, notes = _by_met(session, mass_kg, code, met)
    if session.climb_m:
        notes = ("the table by speed knows no climb; a mean power would",)
    return kcal, f"at {speed:.1f} km/h: {how}", source, notes


def _by_met(session: Session, mass_kg: float, code: str, met: float) -> Estimate:
    how = f"({met:g} - 1) MET x {mass_kg:g} kg x {session.minutes / 60:.2f} h (entry {code})"
    return net_met_kcal(met, mass_kg, session.minutes), how, MET_SOURCE, ()


def _entry(rows: tuple[tuple[float, str, float], ...], value: float) -> tuple[str, float]:
    """The last row that the value reaches, as (code, MET)."""
    code, met = next((code, met) for least, code, met in reversed(rows) if value >= least)
    return code, met
