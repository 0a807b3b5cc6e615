"""Food and drink in sessions: what holds for any session, whose wishes count, and that the day holds it once."""

from __future__ import annotations

import json
import math
from typing import Any

import pytest

from bench.sessions import made_up
from mealopt import api
from mealopt.documents.fuel import FuelPlan
from mealopt.documents.plan import Plan
from mealopt.errors import BadInput, Refused
from mealopt.menu.dishes import shipped_menu
from mealopt.people.case import Case
from mealopt.plans.fuel.clock_plan import km_at
from mealopt.recheck.facts import Facts
from mealopt.recheck.foods import forbidden
from mealopt.table.pantry import shipped_pantry
from tests.plans import cases

RIDE: dict[str, Any] = {"day": "tue", "start": "08:30", "minutes": 150, "kind": "ride", "effort": "steady"}


def with_athlete(case: Case, **keys: Any) -> Case:
    """The case with other keys of its athlete."""
    data = case.model_dump(mode="json", by_alias=True, exclude_unset=True)
    return Case.model_validate({**data, "athlete": {**data["athlete"], **keys}})


@pytest.fixture(scope="module")
def ridden() -> Plan:
    """A planned day with a long ride in the morning."""
    return cases.planned(RIDE)


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


def test_amounts_are_what_a_spoon_measures(ridden: Plan) -> None:
    plan = fuel_of(ridden)
    pantry = shipped_pantry()
    for bottle in plan.bottles:
        assert bottle.ml % 50 == 0
        for food in bottle.holds:
            step = 0.25 if food.food == "salt" else pantry.foods[food.food].step_g
            assert math.isclose(food.grams / step, round(food.grams / step), abs_tol=0.01)


def fuel_of(plan: Plan) -> FuelPlan:
    """The fuel of the day's one long session."""
    found = [session.fuel for session in plan.days[0].sessions if session.fuel is not None]
    assert len(found) == 1
    return found[0]


def test_the_day_the_groceries_and_the_sheet_add_up(ridden: Plan) -> None:
    """No session food twice, none left out."""
    day, plan = ridden.days[0], fuel_of(ridden)
    assert api.recheck(ridden) == []
    asked = api.fuel(cases.case(RIDE), day="tue", session=1)[0]
    assert asked == plan
    meals = [meal for meal in day.meals if meal.slot == "during"]
    assert len(meals) == 1
    assert {item.food: item.grams for item in meals[0].items} == {food.food: food.grams for food in plan.foods}
    for key, held in plan.totals.items():
        assert meals[0].totals[key] == pytest.approx(held, rel=1e-3, abs=1e-3)
    for key in ("energy_kcal", "carbohydrate_g", "fibre_g"):
        assert day.totals[key] == pytest.approx(sum(meal.totals.get(key, 0) for meal in day.meals), rel=1e-3)
    needed = {line.food: line.need_g for line in api.groceries(ridden).lines}
    sold = {name: line.need_g for line in api.groceries(ridden).lines for name in (line.food, *line.foods)}
    for food in plan.foods:
        eaten = sum(item.as_bought_g for meal in day.meals for item in meal.items if item.food == food.food)
        assert food.food in sold, needed
        assert sold[food.food] >= eaten - 0.5


def test_a_broken_fuel_plan_is_found(ridden: Plan) -> None:
    """The recheck sees each of these with arithmetic of its own."""
    data = json.loads(api.plan_text(ridden))

    def said(change: Any) -> str:
        other = json.loads(json.dumps(data))
        session = next(one for one in other["days"][0]["sessions"] if one["fuel"])
        change(session["fuel"], other["days"][0])
        return "\n".join(api.recheck(Plan.model_validate(other)))

    def more_salt(fuel: Any, _: Any) -> None:
        fuel["sodium"]["planned_mg"] += 300

    def more_drink(fuel: Any, _: Any) -> None:
        for bottle in fuel["bottles"]:
            bottle["ml"] += 700

    def ceiling(fuel: Any, _: Any) -> None:
        fuel["fluid"]["ceiling_l_per_h"] = 1.4

    def left_out(_: Any, day: Any) -> None:
        meal = next(meal for meal in day["meals"] if meal["slot"] == "during")
        meal["items"][0]["grams"] /= 2

    def faster(fuel: Any, _: Any) -> None:
        fuel["gives_g_per_h"] += 10

    def no_clock(fuel: Any, _: Any) -> None:
        fuel["steps"] = [step for step in fuel["steps"] if step["kind"] != "eat"]

    def no_caution(fuel: Any, _: Any) -> None:
        fuel["cautions"] = fuel["cautions"][1:]

    assert api.recheck(ridden) == []
    assert "mg of sodium are said" in said(more_salt)
    assert "at most" in said(more_drink)
    assert "a ceiling of 1.4 L/h" in said(ceiling)
    assert "in the day" in said(left_out)
    assert "g/h of carbohydrate are said" in said(faster)
    assert "the clock has" in said(no_clock)
    assert "caution about drinking" in said(no_caution)


@pytest.mark.parametrize(
    "kitchen",
    [
        {"diet": "vegan"},
        {"gluten_free": True},
        {"avoid_allergens": ["gluten", "sulphites", "milk", "soybeans"]},
        {"never": ["sugar", "jelly sweets", "salt"]},
    ],
)
def test_wishes_hold_in_sessions_too(kitchen: dict[str, Any]) -> None:
    case = cases.case({**RIDE, "minutes": 240}, **kitchen)
    plan = api.fuel(case)[0]
    facts = Facts.model_validate(case.model_dump(mode="json", by_alias=True))
    foods = shipped_menu().pantry.foods
    assert plan.foods
    for food in plan.foods:
        assert list(forbidden(foods[food.food], facts.kitchen)) == []
        assert food.food not in kitchen.get("never", ())


def test_no_drinking_plan_after_low_blood_sodium() -> None:
    plan = api.fuel(with_athlete(cases.case(RIDE), cautions=["hyponatraemia_before"]))[0]
    assert plan.fluid is None
    assert plan.sodium is None
    assert plan.bottles == ()
    assert all(step.kind == "eat" for step in plan.steps)
    assert "no drinking plan" in plan.cautions[0]
    assert not any("ml" in words or " L " in words for words in (*plan.before, *plan.after))


@pytest.mark.parametrize("caution", ["diabetes", "heart", "liver", "medication"])
def test_no_fuel_plan_with_illness(caution: str) -> None:
    case = with_athlete(cases.case(RIDE), cautions=[caution])
    with pytest.raises(Refused, match="doctor or registered dietitian"):
        api.fuel(case)


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


def test_a_swim_has_a_bottle_at_the_wall_and_nothing_else() -> None:
    plan = api.fuel(cases.case({**RIDE, "kind": "swim", "minutes": 100}))[0]
    assert plan.carried == ()
    assert any("wall" in note for note in plan.notes)


def test_a_long_day_is_not_one_flavour() -> None:
    case = with_athlete(cases.case({**RIDE, "start": "07:00", "minutes": 600}), carbohydrate_used_to_g_per_h=70.0)
    plan = api.fuel(case)[0]
    eaten = sum(thing.count * thing.carbohydrate_g for thing in plan.carried)
    assert len(plan.carried) >= 3
    assert max(thing.count * thing.carbohydrate_g for thing in plan.carried) <= 0.6 * eaten
    assert plan.refills
    assert max(plan.by_hour_g) <= 1.4 * plan.gives_g_per_h


def test_places_on_the_way() -> None:
    session = cases.case({**RIDE, "distance_km": 60.0, "splits": ["20=0:40", "45=1:50"]}).session[0]
    assert km_at(session, 0) == 0
    assert km_at(session, 40) == 20
    assert km_at(session, 75) == 32.5
    assert km_at(session, 150) == 60


def test_asking_for_what_is_not_fuelled() -> None:
    case = cases.case(RIDE, cases.RUN)
    assert [plan.session for plan in api.fuel(case)] == [1]
    with pytest.raises(BadInput, match="session: read 2, the run of 60 min"):
        api.fuel(case, day="tue", session=2)
    with pytest.raises(BadInput, match="1 to 2 of the week"):
        api.fuel(case, session=3)
    with pytest.raises(BadInput, match="day: read 'noday'"):
        api.fuel(case, day="noday")
    with pytest.raises(BadInput, match="no race"):
        api.event_sheet(case)


def test_caffeine_only_where_it_is_asked_for_and_allowed() -> None:
    def before(case: Case) -> str:
        return " ".join(api.fuel(case)[0].before)

    plain = cases.case({**RIDE, "effort": "hard"})
    asked = plain.model_copy(update={"fuel": plain.fuel.model_copy(update={"caffeine": True})})
    late = cases.case({**RIDE, "effort": "hard", "start": "17:00"})
    late = late.model_copy(update={"fuel": late.fuel.model_copy(update={"caffeine": True})})
    assert "caffeine" not in before(plain)
    assert "at most 200 mg at 07:30" in before(asked)
    assert "within 8 h of sleep" in before(late)
    assert "ask a doctor first" in before(with_athlete(asked, cautions=["bone_stress_injury"]))


def test_the_gut_is_trained_in_weekly_steps() -> None:
    case = with_athlete(cases.case(RIDE), carbohydrate_used_to_g_per_h=50.0)
    wished = {"event_weeks": 3, "event_minutes": 300}
    notes = " ".join(api.fuel(case.model_copy(update={"fuel": case.fuel.model_copy(update=wished)}))[0].notes)
    assert "60, 70, 80 g/h" in notes
    assert "90 g/h cannot be reached" in notes


@pytest.mark.parametrize(("start", "minutes"), [("06:00", 300), ("18:00", 150), ("06:00", 840)])
def test_a_sheet_is_a_page(start: str, minutes: int) -> None:
    race = {"day": "sat", "start": start, "minutes": minutes, "kind": "ride", "effort": "race", "distance_km": 80.0}
    second = {"day": "sun", "start": "10:00", "minutes": 95, "kind": "run", "effort": "race"}
    pages = api.event_sheet(cases.case(race, second)).split("\n\f\n")
    assert len(pages) == 2
    for page in pages:
        lines = page.splitlines()
        assert len(lines) <= 66
        assert max(len(line) for line in lines) <= 80
        assert "Drink to thirst" in page
    assert "another race follows within two days" in " ".join(pages[0].split())


def test_a_race_through_the_night_and_a_bag_without_bottles() -> None:
    race = {"day": "sat", "start": "18:00", "minutes": 840, "kind": "walk", "effort": "race", "bottles": 0}
    plan = api.fuel(cases.case(race, day=[{"day": "sun", "wake": "09:30"}]))[0]
    assert plan.ends == "32:00"
    assert plan.bottles == ()
    assert plan.carried
    assert any("no bottle is carried" in note for note in plan.notes)


def test_a_band_of_ones_own_for_sessions() -> None:
    band = [{"nutrient": "carbohydrate_g", "most": 70, "slot": "during"}]
    plan = api.fuel(cases.case(RIDE, goal={"band": band}))[0]
    assert 0 < plan.totals["carbohydrate_g"] <= 70
    posed = cases.posed(RIDE, goal={"band": band})
    slot = next(slot for slot in posed.slots if slot.kind == "during")
    assert slot.carbohydrate_most == 70


def test_what_does_not_keep_is_eaten_in_time() -> None:
    """Cooked rice stands two hours without a fridge at most."""
    for minutes in (150, 180, 240):
        case = cases.case({**RIDE, "minutes": minutes}, prefer=["rice, short-grain"])
        plan = api.fuel(case)[0]
        rice = [step.minute for step in plan.steps if step.kind == "eat" and "square of rice" in step.says]
        assert rice
        assert max(rice) <= 120


@pytest.mark.slow
def test_the_eve_of_the_example_s_race() -> None:
    """10-12 g/kg carbohydrate and at most 15 g fibre the day before (ACSM/AND/DC 2016 [memory])."""
    case = api.read_case(api.example_case_path().with_name("race_week.toml"))
    day = api.plan_day(case, "sat", gap=0.9, seconds=60).days[0]
    assert 10 <= day.totals["carbohydrate_g"] / case.athlete.mass_kg <= 12
    assert day.totals["fibre_g"] <= 15.01
    assert len(day.meals) >= 6


@pytest.mark.slow
def test_the_morning_of_the_example_s_race() -> None:
    """1-4 g/kg over the 1-4 h before, little fibre and fat (IOC table after ACSM/AND/DC 2016)."""
    case = api.read_case(api.example_case_path().with_name("race_week.toml"))
    plan = api.plan_day(case, "sun", gap=0.5, seconds=60)
    morning = [meal for meal in plan.days[0].meals if meal.time < "09:00"]
    assert 1 <= sum(meal.totals["carbohydrate_g"] for meal in morning) / case.athlete.mass_kg <= 4
    assert all(meal.totals["fibre_g"] <= 8 and meal.totals["fat_g"] <= 20 for meal in morning)
    assert "The race" in api.event_sheet(case, plan=plan)
    assert morning[0].dish in " ".join(api.event_sheet(case, plan=plan).split())


@pytest.mark.parametrize("minutes", [63, 92, 157, 158, 209])
def test_all_that_is_carried_is_eaten_however_long_the_session(minutes: int) -> None:
    """Times fall on whole fives; a session need not: the last bite was lost where it did not."""
    case = with_athlete(cases.case({**RIDE, "minutes": minutes, "effort": "hard"}), carbohydrate_used_to_g_per_h=80.0)
    (plan,) = api.fuel(case)
    eaten = sum(step.carbohydrate_g for step in plan.steps if step.kind == "eat")
    assert eaten == pytest.approx(sum(thing.count * thing.carbohydrate_g for thing in plan.carried), abs=0.5)
