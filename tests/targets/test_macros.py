"""Protein, fat, carbohydrate and the rest of a day's bands, at ordinary and at awkward sizes."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mealopt.core.bands import Band
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FIBRE, FRUIT_VEGETABLE, PROTEIN, SATURATED, TARGETED
from mealopt.people.case import Case
from mealopt.targets.day import week_targets
from mealopt.targets.fibre import fibre_band, fibre_cost_over
from mealopt.targets.macros import Split, Wishes, energy_band, limits_of, split
from mealopt.targets.model import DayTargets

Make = Callable[..., Case]
Session = Callable[..., dict[str, Any]]


def wishes(mass: float, energy: float, protein: float = 1.8, fat: float | None = None) -> Wishes:
    """An ordinary day's wishes."""
    return Wishes(
        protein_least=protein * mass,
        protein_most=2.5 * mass,
        protein_give=1.2 * mass,
        fat_aim=max(0.8 * mass, 0.25 * energy / 9) if fat is None else fat * mass,
        fat_least=0.5 * mass,
        fat_least_share=0.20,
        carbohydrate_least=max(3 * mass, 130),
        carbohydrate_most=12 * mass,
    )


def of(mass: float, energy: float, protein: float = 1.8, fat: float | None = None) -> Split:
    """The split of an ordinary day."""
    return split(energy_band(energy), wishes(mass, energy, protein, fat))


def check(energy: float, found: Split) -> None:
    """Aims make the energy; the leasts leave 3 % to spare, the mosts reach 3 % over."""
    protein, fat, carbohydrate = (limits_of(band) for band in (found.protein, found.fat, found.carbohydrate))
    sums = [4 * protein[side] + 9 * fat[side] + 4 * carbohydrate[side] for side in range(3)]
    assert sums[1] == pytest.approx(energy, abs=0.5)
    assert sums[0] <= 0.97 * 0.98 * energy + 0.01
    assert sums[2] >= 1.03 * 1.02 * energy - 0.01


def test_an_ordinary_day_by_hand() -> None:
    """68 kg, 2,800 kcal: protein 122.4, fat the larger of 54.4 and 77.8 g, the rest 402.6 g."""
    found = of(68, 2800)
    assert limits_of(found.protein) == pytest.approx((122.4, 122.4, 170))
    assert limits_of(found.fat) == pytest.approx((62.22, 77.78, 108.89), abs=0.01)
    assert limits_of(found.carbohydrate) == pytest.approx((342.2, 402.6, 463.0), abs=0.1)
    assert found.notes == ()


@given(st.floats(45, 115), st.floats(1200, 9000), st.floats(1.2, 2.4), st.none() | st.floats(0.5, 1.5))
def test_bands_never_contradict(mass: float, energy: float, protein: float, fat: float | None) -> None:
    found = of(mass, energy, protein, fat)
    check(energy, found)
    assert limits_of(found.fat)[2] == pytest.approx(0.35 * energy / 9)


def test_high_protein_on_little_energy() -> None:
    """2.4 g/kg at 115 kg on 2,000 kcal would be 55 % of it: carbohydrate gives way to 130 g first, then protein."""
    found = of(115, 2000, 2.4)
    check(2000, found)
    assert limits_of(found.carbohydrate)[0] == pytest.approx(130)
    assert 1.2 * 115 <= limits_of(found.protein)[0] < 2.4 * 115
    assert any("leaves room for" in note for note in found.notes)
    assert any("least of carbohydrate is 130 g, not 345 g" in note for note in found.notes)


def test_much_energy_in_a_small_athlete() -> None:
    """45 kg on 4,500 kcal: carbohydrate at 12 g/kg, then fat to 35 %, then protein to 2.5 g/kg, then more and said."""
    found = of(45, 4500)
    check(4500, found)
    assert limits_of(found.fat)[1] == pytest.approx(0.35 * 4500 / 9)
    assert limits_of(found.protein)[1] == pytest.approx(2.5 * 45)
    assert limits_of(found.carbohydrate)[2] > 12 * 45
    assert any("above the published 540 g" in note for note in found.notes)


def test_what_is_over_goes_to_fat_first() -> None:
    found = of(45, 3700)
    check(3700, found)
    assert limits_of(found.carbohydrate)[1] == pytest.approx(12 * 45)
    assert limits_of(found.fat)[1] > 0.25 * 3700 / 9
    assert limits_of(found.protein)[1] == pytest.approx(1.8 * 45)


def test_fat_of_the_case_is_kept_within_its_limits() -> None:
    assert limits_of(of(68, 2800, fat=1.2).fat)[1] == pytest.approx(1.2 * 68)
    low = of(68, 4000, fat=0.5)
    assert limits_of(low.fat)[1] == pytest.approx(0.2 * 4000 / 9)
    assert any("for fat is at least" in note for note in low.notes)


def test_fat_sinks_for_the_least_carbohydrate() -> None:
    found = of(68, 1700)
    check(1700, found)
    assert limits_of(found.carbohydrate)[1] == pytest.approx(3 * 68)
    assert limits_of(found.fat)[1] < 0.8 * 68
    assert any("Fat sinks" in note for note in found.notes)


def test_most_energy_above_the_baseline_comes_from_carbohydrate(case: Make, session: Session) -> None:
    """Common practice, no source: 75 % of it where the fat rows allow."""
    week = week_targets(case(session=[session("sat", minutes=180, active_kcal=1700)]))
    rest, long = week.days["sun"].bands, week.days["sat"].bands
    more = (long[ENERGY].aim or 0) - (rest[ENERGY].aim or 0)
    carbohydrate = 4 * ((long[CARBOHYDRATE].aim or 0) - (rest[CARBOHYDRATE].aim or 0))
    assert carbohydrate / more >= 0.75 - 1e-9


@pytest.mark.parametrize(
    ("athlete", "goal", "floor"),
    [
        ({}, {}, 1.8 * 68),
        ({}, {"protein_g_per_kg": 1.4}, 1.4 * 68),
        ({}, {"protein_g_per_kg": 1.4, "mass_change_percent_per_week": -0.3, "baseline_kcal": 2450}, 1.8 * 68),
        ({}, {"protein_g_per_kg": 2.4, "mass_change_percent_per_week": -0.3, "baseline_kcal": 2450}, 2.2 * 68),
        ({"body_fat_percent": 34.0, "height_cm": 155}, {"protein_g_per_kg": 2.0}, 2.2 * 68 * 0.66),
        ({"body_fat_percent": 34.0, "height_cm": 155}, {"protein_g_per_kg": 1.2}, 1.2 * 68),
    ],
)
def test_protein_floor(case: Make, athlete: dict[str, Any], goal: dict[str, Any], floor: float) -> None:
    day = week_targets(case(athlete, goal)).days["mon"]
    assert day.bands[PROTEIN].least == pytest.approx(floor)
    assert day.protein_main_least_g == pytest.approx(min(0.25 * 68, floor / 4))


def test_a_day_s_other_bands(case: Make) -> None:
    day: DayTargets = week_targets(case()).days["mon"]
    assert tuple(day.bands) == TARGETED
    aim = limits_of(day.bands[ENERGY])[1]
    assert day.bands[SATURATED] == Band(None, None, pytest.approx(0.1 * aim / 9))
    assert day.bands[FRUIT_VEGETABLE] == Band(400, None, None)
    assert limits_of(day.bands[FIBRE]) == pytest.approx((25, 14 * aim / 1000, 90))
    assert day.fibre_cost_over_g == 45


def test_fibre_aim_stays_between_25_and_45() -> None:
    assert [limits_of(fibre_band(kcal, "male", 30, eve=False)[0])[1] for kcal in (1500, 2000, 2700, 5000)] == [
        25, 28, pytest.approx(37.8), 45,
    ]  # fmt: skip
    assert fibre_cost_over(3000) == pytest.approx(54)
    assert fibre_band(3500, "male", 30, eve=True)[0] == Band(None, 12.5, 15)
