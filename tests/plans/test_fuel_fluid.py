"""Drinking in sessions: never more than is lost, whatever the case says."""

from __future__ import annotations

from mealopt import api
from tests.plans import cases
from tests.plans.fuel_cases import RIDE, with_athlete


def test_no_drinking_plan_after_low_blood_sodium() -> None:
    plan = api.fuel(with_athlete(cases.case(RIDE), cautions=["hyponatraemia_before"]))[0]
    assert plan.fluid is None
    assert plan.sodium is None
    assert plan.bottles == ()
    assert all(step.kind == "eat" for step in plan.steps)
    assert "no drinking plan" in plan.cautions[0]
    assert not any("ml" in words or " L " in words for words in (*plan.before, *plan.after))


def test_no_input_makes_mass_rise() -> None:
    """A low sweat rate, a long session, many bottles and a wish for strong drink: less is drunk than is lost."""
    tests = [{"litres_per_hour": 0.2, "conditions": "mild", "effort": "easy"}]
    case = with_athlete(
        cases.case({**RIDE, "minutes": 600, "bottles": 6, "effort": "hard", "conditions": "hot"}),
        sweat={"test": tests, "salty": True},
    )
    fluid = api.fuel(case)[0].fluid
    assert fluid is not None
    assert fluid.litres + fluid.food_water_l <= 0.2 * 10 + 0.01


def test_a_test_in_heat_is_no_leave_to_drink_in_the_cold() -> None:
    tests = [{"litres_per_hour": 2.0, "conditions": "hot", "effort": "hard"}]
    case = with_athlete(cases.case({**RIDE, "conditions": "cold"}), sweat={"test": tests})
    fluid = api.fuel(case)[0].fluid
    assert fluid is not None
    assert not fluid.tested
    assert fluid.ceiling_l_per_h <= 0.8


def test_a_swimmer_has_bottle_and_food_at_the_wall() -> None:
    """Nothing is carried in water, which is said; nothing that needs a dry hand or crumbles stands there."""
    plan = api.fuel(cases.case({**RIDE, "kind": "swim", "minutes": 100, "effort": "hard"}))[0]
    assert plan.gives_g_per_h >= (plan.carbohydrate_g_per_h.least or 0.0)
    assert any("wall" in note for note in plan.notes)
    assert not any(food.food in ("bread, white", "rice cakes", "pretzels") for food in plan.foods)
