"""Protein, carbohydrate, fibre, fuelling, energy availability and weight change against published figures."""

from __future__ import annotations

import pytest

from mealopt.targets.availability import availability_class, energy_availability, intake_for
from mealopt.targets.coefficients import (
    KCAL_PER_KG,
    PROTEIN_DEFICIT_MOST,
    PROTEIN_MAIN_MEAL,
    PROTEIN_MOST,
    SATURATED_SHARE,
)
from mealopt.targets.fibre import fibre_by_age, fibre_by_energy
from mealopt.targets.fuelling import after_g, before_g_per_kg, capped_g_per_h, day_class, ladder
from mealopt.targets.macros import kcal_of
from mealopt.targets.weight import change_kcal_a_day


def test_carbohydrate_of_a_moderate_day() -> None:
    """Table after Thomas, Erdman & Burke 2016: about 1 h a day, 5-7 g/kg; at 70 kg 350-490 g."""
    least, most, words = day_class(60)
    assert (70 * least, 70 * most) == (350, 490)
    assert words.startswith("5-7 g/kg")


@pytest.mark.parametrize(("minutes", "range_"), [(20, (3, 5)), (60, (5, 7)), (120, (6, 10)), (300, (8, 12))])
def test_carbohydrate_classes(minutes: float, range_: tuple[float, float]) -> None:
    """Table after Thomas, Erdman & Burke 2016: light 3-5, 1 h 5-7, 1-3 h 6-10, over 4-5 h 8-12 g/kg."""
    assert day_class(minutes)[:2] == range_


@pytest.mark.parametrize(("minutes", "g_per_h"), [(45, 0), (90, 30), (135, 60), (240, 90)])
def test_fuelling_ladder(minutes: float, g_per_h: float) -> None:
    """Jeukendrup 2014: 45 min a mouth rinse or small amounts, 90 min 30, 2.25 h 60, 4 h 90 g/h."""
    assert ladder(minutes).rung == g_per_h
    assert ladder(minutes).least <= g_per_h <= ladder(minutes).most


def test_one_sugar_is_capped() -> None:
    """Jeukendrup 2014: 90 g/h from glucose alone is not oxidised; about 60 g/h is."""
    assert capped_g_per_h(90, mixed=False, used_to_g_per_h=None) == 60
    assert capped_g_per_h(120, mixed=True, used_to_g_per_h=None) == 90


def test_before_a_session() -> None:
    """IOC style table with a 70 kg column: 1-4 g/kg in the 1-4 h before, 70-280 g."""
    least, most = before_g_per_kg(240, 600, 90)
    assert (70 * least, 70 * most) == (70, 280)
    assert before_g_per_kg(60, 600, 90) == (1, 1)


def test_after_a_session() -> None:
    """Wallis & Podlogar 2022: under 8 h between sessions, 1.0-1.2 g/kg/h for the first 4 h; at 70 kg 280-336 g."""
    assert after_g(360, 70) == pytest.approx((280, 336))
    assert after_g(480, 70) is None


def test_protein_of_a_day_and_a_meal() -> None:
    """Jager and others 2017: 0.25 g/kg a dose; Iraki and others 2019: 1.6-2.2 g/kg a day; Morton and others 2018:
    80 kg x 1.62 is 129.6 g, upper confidence limit 2.20."""
    assert pytest.approx(20) == PROTEIN_MAIN_MEAL * 80
    assert pytest.approx(2.2) == PROTEIN_DEFICIT_MOST
    assert 129.6 / 80 < PROTEIN_DEFICIT_MOST < PROTEIN_MOST


def test_fibre() -> None:
    """IOM 2005, adequate intake: 14 g/1000 kcal, 37.8 g at 2,700 kcal; men 38 and 30 g, women 25 and 21 g at 50, 51."""
    assert fibre_by_energy(2700) == pytest.approx(37.8, abs=0.05)
    assert [fibre_by_age(sex, age) for sex in ("male", "female") for age in (50, 51)] == [38, 30, 25, 21]


def test_saturated_fat() -> None:
    """WHO, Healthy diet: under 10 % of energy; 22.2 g of 2,000 kcal."""
    assert pytest.approx(22.2, abs=0.1) == SATURATED_SHARE * 2000 / 9


def test_energy_factors() -> None:
    """Regulation (EU) No 1169/2011, Annex XIV: 25 g carbohydrate, 10 g fat, 20 g protein are 270 kcal without fibre."""
    assert kcal_of(20, 25, 10) == 270


def test_energy_availability() -> None:
    """Thomas, Erdman & Burke 2016 [memory]: 2,400 kcal, 500 of exercise, 48.0 kg: 39.6; by hand 22.2 at 1,600."""
    assert energy_availability(2400, 500, 48.0) == pytest.approx(39.58, abs=0.05)
    assert availability_class(energy_availability(2400, 500, 48.0)) == "reduced"
    assert energy_availability(1600, 600, 45) == pytest.approx(22.22, abs=0.05)
    assert availability_class(energy_availability(1600, 600, 45)) == "low"


def test_energy_availability_edges() -> None:
    """Triad statements: low under 30, adequate from 45; 30.0 itself is reduced."""
    assert [availability_class(value) for value in (29.99, 30.0, 44.99, 45.0)] == [
        "low", "reduced", "reduced", "adequate",
    ]  # fmt: skip
    assert energy_availability(intake_for(30, 700, 50), 700, 50) == pytest.approx(30)


def test_energy_of_a_kilogram() -> None:
    """Hall 2008 on Wishnofsky 1958: 32.2 MJ/kg is 7,696 kcal/kg, 3,500 kcal a pound 7,716 kcal/kg."""
    assert 32.2e3 / 4.184 <= KCAL_PER_KG <= 3500 / 0.45359237


def test_deficit_of_a_rate_of_loss() -> None:
    """Garthe and others 2011: 80 kg at 0.7 % a week is 0.56 kg, 616 kcal a day at 7,700 kcal/kg."""
    assert change_kcal_a_day(80, -0.7) == pytest.approx(-616, abs=0.5)


def test_surplus_of_a_gain() -> None:
    """Iraki and others 2019: 0.25-0.5 % a week at 80 kg is 0.20-0.40 kg; Slater and others 2019: 358-478 kcal a day is
    where to start, which lies between the two rates' surplus."""
    slow, fast = change_kcal_a_day(80, 0.25), change_kcal_a_day(80, 0.5)
    assert (slow * 7 / KCAL_PER_KG, fast * 7 / KCAL_PER_KG) == pytest.approx((0.20, 0.40))
    assert slow <= 358.5 <= fast
