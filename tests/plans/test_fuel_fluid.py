"""Drinking in sessions: never more than is lost, whatever the case says."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from mealopt import api
from mealopt.people.case import Case
from mealopt.people.reading import case_from_dict
from mealopt.plans.fuel.need import need_of
from tests.plans import cases
from tests.plans.fuel_cases import RIDE, with_athlete

WARMTH = ("cold", "mild", "hot")
EFFORTS = ("easy", "steady", "hard")

sweat_tests = st.fixed_dictionaries(
    {
        "litres_per_hour": st.floats(0.1, 5.73),
        "conditions": st.sampled_from(WARMTH),
        "effort": st.sampled_from(EFFORTS),
    },
    optional={"sodium_mg_per_l": st.floats(150, 2500), "sodium_from": st.sampled_from(("whole_body", "forearm"))},
)


@st.composite
def any_case(draw: st.DrawFn) -> Case:
    """Any body, session, sweat tests and wishes that the case file lets through."""
    mass = draw(st.floats(45, 110))
    athlete: dict[str, Any] = {
        "name": "Skerry", "sex": draw(st.sampled_from(("female", "male"))), "age": draw(st.integers(18, 75)),
        "mass_kg": mass, "height_cm": 100 * (mass / 23) ** 0.5, "cautions": [],
        "sweat": {"salty": draw(st.booleans()), "test": draw(st.lists(sweat_tests, max_size=3))},
    }  # fmt: skip
    session: dict[str, Any] = {
        "day": "tue", "start": "06:00", "minutes": draw(st.integers(61, 840)),
        "kind": draw(st.sampled_from(("run", "ride", "swim", "row", "walk", "ski", "other"))),
        "effort": draw(st.sampled_from((*EFFORTS, "race"))), "bottles": draw(st.integers(0, 6)),
    }  # fmt: skip
    conditions = draw(st.sampled_from((None, *WARMTH)))
    if conditions is not None:
        session["conditions"] = conditions
    fuel = {"drink_percent_most": draw(st.floats(2, 12)), "rate": draw(st.sampled_from(("ladder", "per_kg")))}
    kitchen = {"wake": "04:30", "sleep": "23:00"}
    data = {"athlete": athlete, "session": [session], "fuel": fuel, "kitchen": kitchen, "schema": "mealopt/case-1"}
    return case_from_dict(data, "any case")


def lost_l_per_h(case: Case) -> float:
    """Litres an hour that nothing may pass: 1.0 (0.8 without a test that fits), and the lowest test that fits."""
    session = case.session[0]
    tests = case.athlete.sweat.test if case.athlete.sweat else ()
    warm = WARMTH.index(session.conditions) if session.conditions else len(WARMTH)
    work = min(EFFORTS.index(session.effort) if session.effort in EFFORTS else 2, 2)
    fits = [one.rate_l_per_h for one in tests if WARMTH.index(one.conditions) <= warm and
            EFFORTS.index(one.effort) <= work]  # fmt: skip
    if fits:
        return min(1.0, *fits)
    return min([0.8, *(one.rate_l_per_h for one in tests)])


@settings(max_examples=150, deadline=None)
@given(any_case())
def test_no_input_fills_more_than_is_lost(case: Case) -> None:
    """What is filled into bottles, over bodies, work, weather, sweat tests and wishes; a test that a warmer or harder
    hour made is no leave (ACSM 2007: not more than sweat losses)."""
    need = need_of(case, "tue", 1, api.day_targets(case, "tue").sessions[0])
    assert need.fluid is not None
    assert need.fluid.ceiling <= lost_l_per_h(case) + 1e-9
    assert need.litres <= need.fluid.ceiling * need.hours + 1e-9


@settings(max_examples=8, deadline=None)
@given(any_case())
def test_no_input_plans_more_than_is_lost(case: Case) -> None:
    """The same of the whole plan, with the water in what is eaten."""
    (plan,) = api.fuel(case)
    assert plan.fluid is not None
    assert plan.fluid.litres + plan.fluid.food_water_l <= lost_l_per_h(case) * plan.minutes / 60 + 0.006
    assert (plan.fluid.short_kg or 0.0) >= 0.0


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
