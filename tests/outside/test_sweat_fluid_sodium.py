"""Sweat, fluid, sodium and fuelling against published values and worked examples."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from mealopt import api
from mealopt.menu.carried import shipped_carried
from mealopt.milp.highs import Highs
from mealopt.people.case import Case
from mealopt.plans.fuel.choices import FRUCTOSE, GLUCOSE, WATER, Eaten
from mealopt.plans.fuel.need import need_of
from mealopt.plans.fuel.pose import pose
from mealopt.targets.caffeine import dose_mg
from mealopt.targets.eve import eve_carbohydrate_per_kg
from mealopt.targets.fluid import fluid_after_l, fluid_before_ml
from mealopt.targets.fuelling import after_g, before_g_per_kg, capped_g_per_h
from mealopt.targets.session_coefficients import FLUID_BEFORE, MMOL_SODIUM, SHORT_EVENT_DAY
from mealopt.targets.sweat import sweat_rate, whole_body_sodium


def case(session: dict[str, Any], **athlete: Any) -> Case:
    """A rider of 70 kg with one session on tuesday."""
    body = {"name": "Skerry", "sex": "male", "age": 30, "mass_kg": 70.0, "height_cm": 178.0, "cautions": [], **athlete}
    whole = {"day": "tue", "start": "08:00", "minutes": 120, "kind": "ride", "effort": "hard", **session}
    return Case.model_validate({"schema": "mealopt/case-1", "athlete": body, "session": [whole]})


def test_sweat_rate_of_an_hour() -> None:
    """Worked by hand after the method of Barnes and others 2019: 70.0 to 69.2 kg, 0.80 L in, 0.10 L urine, 1 h:
    1.50 L/h, a loss of 1.14 %."""
    assert sweat_rate(70.0, 69.2, 0.80, 0.10, 60) == pytest.approx(1.50, abs=0.01)
    assert pytest.approx(1.14, abs=0.01) == 100 * (70.0 - 69.2) / 70.0


def test_forearm_sodium() -> None:
    """Baker and others 2016: whole body = 0.57 x forearm + 11.05 mmol/L; their means, 43.6 and 35.9 mmol/L."""
    assert whole_body_sodium(43.6 * 22.99, "forearm") / 22.99 == pytest.approx(35.9, abs=0.05)
    assert whole_body_sodium(800, "whole_body") == 800


def test_sodium_of_an_hour() -> None:
    """Barnes and others 2019: 51.7 mmol/h in endurance athletes are 1188.6 mg/h."""
    assert pytest.approx(1188.6, abs=0.5) == 51.7 * MMOL_SODIUM


def test_fluid_before() -> None:
    """ACSM/AND/DC 2016 [memory]: 5-10 ml/kg in the 2-4 h before; ACSM 2007: 5-7 ml/kg, 300-420 ml at 60 kg."""
    assert fluid_before_ml(60) == (300, 600)
    assert 7 * 60 == 420 <= FLUID_BEFORE[1] * 60


def test_fluid_after() -> None:
    """ACSM/AND/DC 2016 [memory]: 1.25-1.5 L for each kg lost."""
    assert fluid_after_l(2.0) == (2.5, 3.0)
    assert fluid_after_l(-1.0) == (0.0, 0.0)


def test_ninety_from_one_sugar_is_refused() -> None:
    """Jeukendrup 2014: one sugar is taken up to 60 g/h, mixed ones up to 90 g/h."""
    assert capped_g_per_h(90, mixed=False, used_to_g_per_h=90) == 60
    assert capped_g_per_h(90, mixed=True, used_to_g_per_h=90) == 90
    assert capped_g_per_h(90, mixed=True, used_to_g_per_h=40) == 50


@pytest.mark.parametrize(("fructose", "g_per_h"), [(0.0, 60), (0.5, 80), (1 / 3, 90)])
def test_one_sugar_fills_to_sixty_and_mixed_ones_to_ninety(fructose: float, g_per_h: float) -> None:
    """The same in the program of a session: four hours of one food, all glucose, half fructose (at most 40 g/h), or
    two to one."""
    made = case({"minutes": 240}, carbohydrate_used_to_g_per_h=90.0)
    need = need_of(made, "tue", 1, api.day_targets(made, "tue").sessions[0])
    need = replace(need, bottles=0, fill_ml=0, at_hand=0)
    piece = {
        "carbohydrate_g": 2.0, GLUCOSE: 2.0 * (1 - fructose), FRUCTOSE: 2.0 * fructose, "energy_kcal": 8.0,
        "protein_g": 0.0, "fat_g": 0.0, "fibre_g": 0.0, "sodium_mg": 0.0, WATER: 0.0,
    }  # fmt: skip
    thing = shipped_carried().thing[0].model_copy(update={"most_per_hour": 60.0, "bites": 0, "flavour": "one"})
    eaten = Eaten(thing, "a piece", "pieces", "a piece", {"sugar": 2.0}, piece, 0.0, 0, 0.0)
    posed = pose(need, [eaten], [], 0.0, {}, {"sugar": ("sugar", 1e6)})
    posed.model.rows = [row for row in posed.model.rows if not row.name.startswith(("flavour", "pockets"))]
    answer = Highs(posed.model).solve(1e-6)
    assert 2.0 * answer.values[posed.pieces[0]] / 4 == pytest.approx(g_per_h, abs=1.0)


@pytest.mark.parametrize(("minutes", "least", "most"), [(90, 30, 60), (135, 30, 60), (240, 60, 90)])
def test_the_ladder_through_the_plan(minutes: int, least: float, most: float) -> None:
    """Jeukendrup 2014, ranges of ACSM/AND/DC 2016 [memory]: 90 min 30, 2.25 h 60, 4 h up to 90 g/h."""
    plan = api.fuel(case({"minutes": minutes}, carbohydrate_used_to_g_per_h=90.0))[0]
    assert least - 0.5 <= plan.gives_g_per_h <= most + 0.05


def test_common_practice_rate() -> None:
    """0.75 g/kg/h from 60 min [common practice, no source]: 52.5 g/h at 70 kg."""
    made = case({"minutes": 90}, carbohydrate_used_to_g_per_h=60.0)
    wished = made.model_copy(update={"fuel": made.fuel.model_copy(update={"rate": "per_kg"})})
    assert api.fuel(wished)[0].carbohydrate_g_per_h.aim == 52.5


def test_loading() -> None:
    """ACSM/AND/DC 2016 [memory]: 10-12 g/kg for 36-48 h before over 90 min, 7-12 g/kg before less; 700 g at 70 kg."""
    assert eve_carbohydrate_per_kg(70) * 70 == 700
    assert [per_kg * 70 for per_kg in SHORT_EVENT_DAY] == [490, 840]


def test_before_and_after() -> None:
    """IOC table after ACSM/AND/DC 2016: 1-4 g/kg before, 70-280 g at 70 kg; 1.0-1.2 g/kg/h for 4 h after."""
    least, most = before_g_per_kg(240, 300, 180)
    assert (least * 70, most * 70) == (70, 280)
    assert after_g(300, 70) == pytest.approx((280, 336))


@pytest.mark.parametrize(("mass", "mg"), [(50, 150), (66, 198), (90, 200)])
def test_caffeine_at_once(mass: float, mg: float) -> None:
    """EFSA 2015 [memory]: 200 mg at once are safe for adults, 3 mg/kg."""
    assert dose_mg(mass) == pytest.approx(mg)


def test_fluid_without_a_test() -> None:
    """ACSM/AND/DC 2016 [memory]: 0.4-0.8 L/h as an upper guide, less for the small, the slow and the cold."""

    def fluid(conditions: str, **keys: Any) -> tuple[float, float]:
        session = {key: keys.pop(key) for key in ("kind", "effort") if key in keys}
        found = api.fuel(case({"conditions": conditions, **session}, **keys))[0].fluid
        assert found is not None
        return found.least_l_per_h, found.ceiling_l_per_h

    warm = fluid("hot")
    assert fluid("hot", mass_kg=100.0, height_cm=195.0) == (0.4, 0.8)
    assert fluid("hot", mass_kg=45.0, height_cm=158.0, effort="steady") < fluid("hot", effort="steady")
    assert fluid("hot", kind="walk", effort="easy") < warm
    assert fluid("cold") < warm
