"""Energy of sessions against the ACSM's worked examples and the Compendium."""

from __future__ import annotations

import pytest

from mealopt.people.case import Goal, Session
from mealopt.targets.compendium import EFFORT_MET, POWER_MET, SPEED_MET
from mealopt.targets.endurance import (
    cycling_vo2,
    estimate,
    net_met_kcal,
    oxygen_kcal,
    running_vo2,
    session_energy,
    walking_vo2,
)


def session(**keys: object) -> Session:
    """A session of an hour's steady run unless said otherwise."""
    base = {"day": "tue", "start": "08:00", "minutes": 60, "kind": "run", "effort": "steady"}
    return Session.model_validate({**base, **keys})


def test_walking_uphill() -> None:
    """ACSM metabolic equations, published worked example: 3.5 mph at 10 %, 29.76 ml/kg/min, 8.50 MET."""
    vo2 = walking_vo2(93.8, 0.10)
    assert vo2 == pytest.approx(29.76, abs=0.01)
    assert vo2 / 3.5 == pytest.approx(8.50, abs=0.01)


def test_leg_cycling() -> None:
    """ACSM metabolic equations, published worked example: 450 kg.m/min (75 W) at 62 kg, 20.06 ml/kg/min."""
    assert cycling_vo2(450 / 6, 62) == pytest.approx(20.06, abs=0.1)


def test_cycling_at_150_w() -> None:
    """ACSM leg cycling, by hand: 150 W at 70 kg is 30.14 ml/kg/min, 633 kcal/h with rest."""
    assert cycling_vo2(150, 70) == pytest.approx(30.14, abs=0.01)
    assert oxygen_kcal(cycling_vo2(150, 70), 70, 60) == pytest.approx(633, abs=0.5)


def test_running_six_miles_an_hour() -> None:
    """ACSM running, by hand: 160.8 m/min, 35.66 ml/kg/min; 70 kg, 30 min: 374.4 kcal with rest, 337.7 above it."""
    vo2 = running_vo2(160.8, 0)
    assert vo2 == pytest.approx(35.66, abs=0.01)
    assert oxygen_kcal(vo2, 70, 30) == pytest.approx(374.4, abs=0.1)
    assert oxygen_kcal(vo2 - 3.5, 70, 30) == pytest.approx(337.7, abs=0.1)


def test_met_above_rest() -> None:
    """Compendium convention, 1 kcal/kg/h for each MET: 9.3 MET, 70 kg, 45 min is 488.25 kcal, 435.75 above rest."""
    assert net_met_kcal(9.3, 70, 45) == pytest.approx(435.75, abs=0.01)
    assert net_met_kcal(9.3, 70, 45) + 70 * 0.75 == pytest.approx(488.25, abs=0.01)


def test_level_walk_and_run_by_distance() -> None:
    """ACSM, by hand: net 0.5 kcal/kg/km walking and 1.0 running; 5 km and 10 km at 70 kg are 175 and 700 kcal."""
    walk = estimate(session(kind="walk", distance_km=5), 70)
    run = estimate(session(distance_km=10), 70)
    assert walk[0] == pytest.approx(175, abs=0.5)
    assert run[0] == pytest.approx(700, abs=0.5)


def test_climb_adds_what_the_equation_says() -> None:
    """ACSM running: 0.9 ml/kg for each metre climbed; 300 m at 70 kg is 94.5 kcal more."""
    flat, hilly = (estimate(session(distance_km=10, climb_m=climb), 70)[0] for climb in (0, 300))
    assert hilly - flat == pytest.approx(0.9 * 300 * 70 / 1000 * 5, abs=0.01)


def test_ride_by_power_is_near_its_mechanical_work() -> None:
    """Muscle turns 20-25 % of its energy into work [memory]: 200 W for an hour (720 kJ) costs 690 to 860 kcal."""
    net = estimate(session(kind="ride", mean_power_w=200), 70)[0]
    assert 720 / 4.184 / 0.25 <= net <= 720 / 4.184 / 0.20


#: Herrmann and others 2024, the 2024 Compendium, by code.
COMPENDIUM_2024 = {
    "12020": 7.5, "12050": 9.3, "12060": 10.5, "12070": 11.0, "01010": 4.0, "01020": 6.8, "01030": 8.0, "01040": 10.0,
    "01050": 12.0, "01060": 16.8, "18240": 5.8, "18230": 9.8, "18290": 8.0, "18280": 10.5, "02071": 5.0, "02070": 7.3,
    "17190": 3.8, "17200": 4.8, "17220": 5.5, "17230": 7.0, "02080": 6.8, "02082": 10.5, "02054": 3.5, "02052": 5.0,
    "02050": 6.0, "02034": 3.5, "02035": 5.0, "02040": 7.5, "02210": 7.0, "rower 100-149 W": 7.5,
    "rower 150-199 W": 11.0, "rower 200 W and over": 14.0,
}  # fmt: skip


def test_every_entry_is_the_compendium_s() -> None:
    """2024 Compendium of Physical Activities, values by code; cycling under 10 mph as in 2011."""
    used = [entry for efforts in EFFORT_MET.values() for entry in efforts.values()]
    used += [(code, met) for table in (SPEED_MET, POWER_MET) for rows in table.values() for _, code, met in rows]
    assert used
    for code, met in used:
        assert COMPENDIUM_2024[code] == met


def test_a_total_has_its_rest_taken_off() -> None:
    """Net is gross less rest (ACSM convention): 700 kcal in all in an hour at 1,680 kcal of rest a day is 630."""
    found = session_energy(session(active_kcal=700, energy_is="total"), Goal(), 70, 1680)
    assert found.net_kcal == pytest.approx(630)
