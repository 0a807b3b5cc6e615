"""What holds of any session: carbohydrate in its band and in each hour, salt, strength, amounts to hold."""

from __future__ import annotations

import math

import pytest

from bench.sessions import made_up
from mealopt import api
from mealopt.plans.fuel.clock_plan import km_at
from mealopt.table.pantry import shipped_pantry
from tests.plans import cases
from tests.plans.fuel_cases import RIDE, with_athlete


@pytest.mark.parametrize("number", [1, 5, 12, 23, 25, 33, 34, 41, 50, 71, 88, 99])
def test_any_session_keeps_its_numbers(number: int) -> None:
    """api.fuel rechecks each plan; here the same once more from the plan's own words."""
    case = made_up(number)
    session = case.session[0]
    plans = api.fuel(case)
    assert len(plans) == (1 if session.minutes > 60 else 0)
    for plan in plans:
        hours = plan.minutes / 60
        band, used = plan.carbohydrate_g_per_h, case.athlete.carbohydrate_used_to_g_per_h
        assert plan.gives_g_per_h <= min((band.most or 0) + 0.06, 60.1 if used is None else min(90.1, used + 10.1))
        assert plan.totals.get("fibre_g", 0) <= 2 * hours + 1e-3
        assert plan.totals.get("fat_g", 0) <= 3 * hours + 1e-3
        short = any(note.startswith("short:") for note in plan.notes)
        assert plan.gives_g_per_h >= (band.least or 0) - 0.5 or short
        assert plan.fluid is not None
        assert plan.sodium is not None
        assert plan.fluid.litres + plan.fluid.food_water_l <= plan.fluid.ceiling_l_per_h * hours + 0.01
        assert plan.fluid.ceiling_l_per_h <= (1.0 if plan.fluid.tested else 0.8)
        if plan.fluid.tested:
            assert plan.fluid.litres <= (plan.fluid.loss_l_per_h or 0) * hours
        if plan.fluid.litres:
            assert plan.sodium.planned_mg <= 1150 * plan.fluid.litres + 1
        if plan.sodium.asked and plan.fluid.litres:
            assert abs(plan.sodium.planned_mg_per_l / plan.sodium.aim_mg_per_l - 1) <= 0.155
        assert all(4 <= bottle.percent <= 8.05 or bottle.percent == 0 for bottle in plan.bottles)


@pytest.mark.parametrize("number", [2, 10, 30, 35])
def test_amounts_are_what_a_spoon_or_a_hand_measures(number: int) -> None:
    """Bottles in 50 ml, foods in the pantry's kitchen steps, salt in half pinches, things to eat in whole pieces."""
    (plan,) = api.fuel(made_up(number))
    pantry = shipped_pantry()
    held = [food for bottle in plan.bottles for food in bottle.holds]
    held += [food for thing in plan.carried for food in thing.holds]
    assert held
    assert all(bottle.ml % 50 == 0 for bottle in plan.bottles)
    for food in held:
        step = 0.25 if food.food == "salt" else pantry.foods[food.food].step_g
        assert math.isclose(food.grams / step, round(food.grams / step), abs_tol=0.01)


@pytest.mark.parametrize("number", [2, 6, 10, 13, 29, 34, 38, 40])
def test_no_hour_holds_more_than_an_hour_may(number: int) -> None:
    """Each of these once held a clock hour above what gut and transport take."""
    case = made_up(number)
    (plan,) = api.fuel(case)
    used = case.athlete.carbohydrate_used_to_g_per_h
    cap = min(60.0 if used is None else 90.0, math.inf if used is None else used + 10.0)
    assert max(plan.by_hour_g) <= min(cap, plan.carbohydrate_g_per_h.most or 0.0) + 0.1
    assert sum(plan.by_hour_g) == pytest.approx(plan.totals.get("carbohydrate_g", 0.0), abs=0.6)


@pytest.mark.parametrize("minutes", [63, 92, 157, 158, 209])
def test_all_that_is_carried_is_eaten_however_long_the_session(minutes: int) -> None:
    """Times fall on whole fives; a session need not: the last bite was lost where it did not."""
    case = with_athlete(cases.case({**RIDE, "minutes": minutes, "effort": "hard"}), carbohydrate_used_to_g_per_h=80.0)
    (plan,) = api.fuel(case)
    eaten = sum(step.carbohydrate_g for step in plan.steps if step.kind == "eat")
    assert eaten == pytest.approx(sum(thing.count * thing.carbohydrate_g for thing in plan.carried), abs=0.5)


def test_a_long_day_is_not_one_flavour() -> None:
    case = with_athlete(cases.case({**RIDE, "start": "07:00", "minutes": 600}), carbohydrate_used_to_g_per_h=70.0)
    plan = api.fuel(case)[0]
    eaten = sum(thing.count * thing.carbohydrate_g for thing in plan.carried)
    assert len(plan.carried) >= 3
    assert max(thing.count * thing.carbohydrate_g for thing in plan.carried) <= 0.6 * eaten
    assert plan.refills
    assert max(plan.by_hour_g) <= 1.4 * plan.gives_g_per_h


def test_what_does_not_keep_is_eaten_in_time() -> None:
    """Cooked rice stands two hours without a fridge at most."""
    for minutes in (150, 180, 240):
        case = cases.case({**RIDE, "minutes": minutes}, prefer=["rice, short-grain"])
        plan = api.fuel(case)[0]
        rice = [step.minute for step in plan.steps if step.kind == "eat" and "square of rice" in step.says]
        assert rice
        assert max(rice) <= 120


def test_places_on_the_way() -> None:
    session = cases.case({**RIDE, "distance_km": 60.0, "splits": ["20=0:40", "45=1:50"]}).session[0]
    assert km_at(session, 0) == 0
    assert km_at(session, 40) == 20
    assert km_at(session, 75) == 32.5
    assert km_at(session, 150) == 60


@pytest.mark.parametrize("minutes", [180, 225, 300])
def test_a_long_ride_is_not_sweets_alone(minutes: int) -> None:
    case = with_athlete(cases.case({**RIDE, "start": "08:00", "minutes": minutes}), carbohydrate_used_to_g_per_h=60.0)
    (plan,) = api.fuel(case)
    names = " ".join(thing.name for thing in plan.carried)
    assert any(plain in names for plain in ("bread", "bagel", "rice", "potato", "banana", "pretzel")), names
