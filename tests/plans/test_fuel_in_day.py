"""No session food twice or left out: day, groceries and sheet add up, and the recheck sees where they do not."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from mealopt import api
from mealopt.core.clock import clock
from mealopt.documents.plan import Plan, PlanDay
from mealopt.errors import BadInput
from tests.plans import cases
from tests.plans.fuel_cases import RIDE, fuel_of, with_athlete


@pytest.fixture(scope="module")
def ridden() -> Plan:
    """A planned day with a long ride in the morning."""
    return cases.planned(RIDE)


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


def bought(plan: Plan) -> dict[str, float]:
    """Food -> grams as bought that the shopping needs; foods that one pack serves are under its name."""
    found: dict[str, float] = {}
    for line in api.groceries(plan).lines:
        found[line.food] = found.get(line.food, 0.0) + line.need_g
    return found


def test_what_is_packed_is_what_is_bought_for_it(ridden: Plan) -> None:
    """The shopping of two days with a ride, less that of the same days without their session meals, is twice the sheet:
    bottles and pockets added up by hand."""
    day, plan = ridden.days[0], fuel_of(ridden)
    sheet: dict[str, float] = {}
    for count, held in (*((b.count, b.holds) for b in plan.bottles), *((c.count, c.holds) for c in plan.carried)):
        for food in held:
            sheet[food.food] = sheet.get(food.food, 0.0) + count * food.grams
    assert sheet == pytest.approx({food.food: food.grams for food in plan.foods}, abs=0.06)
    (meal,) = (meal for meal in day.meals if meal.slot == "during")
    dry = {item.food: item.as_bought_g / item.grams for item in meal.items}

    def week(*days: PlanDay) -> Plan:
        after = tuple(
            one.model_copy(update={"day": name, "date": None}) for one, name in zip(days, ("tue", "thu"), strict=True)
        )
        return ridden.model_copy(update={"days": after})

    less = day.model_copy(update={"meals": tuple(one for one in day.meals if one is not meal)})
    whole, without = bought(week(day, day)), bought(week(less, less))
    differ = {food: whole[food] - without.get(food, 0.0) for food in whole}
    asked = sum(2 * grams * dry[food] for food, grams in sheet.items())
    assert sum(differ.values()) == pytest.approx(asked, rel=0.02, abs=1.0)
    for food, grams in sheet.items():
        if food in differ:
            assert differ[food] >= 2 * grams * dry[food] - 1.0


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

    def all_at_once(fuel: Any, _: Any) -> None:
        eaten = [step for step in fuel["steps"] if step["kind"] == "eat"]
        together = sum(step["carbohydrate_g"] for step in eaten)
        for step in eaten:
            step["carbohydrate_g"] = together if step is eaten[0] else 0.0

    def hours_told_otherwise(fuel: Any, _: Any) -> None:
        fuel["by_hour_g"][0] -= 5
        fuel["by_hour_g"][1] += 5

    def no_caution(fuel: Any, _: Any) -> None:
        fuel["cautions"] = fuel["cautions"][1:]

    assert api.recheck(ridden) == []
    assert "mg of sodium are said" in said(more_salt)
    assert "at most" in said(more_drink)
    assert "a ceiling of 1.4 L/h" in said(ceiling)
    assert "in the day" in said(left_out)
    assert "g/h of carbohydrate are said" in said(faster)
    assert "the clock has" in said(no_clock)
    assert "g of carbohydrate in the hour from minute" in said(all_at_once)
    assert "hour 1 is told with" in said(hours_told_otherwise)
    assert "caution about drinking" in said(no_caution)


def test_a_band_of_ones_own_for_sessions() -> None:
    band = [{"nutrient": "carbohydrate_g", "most": 70, "slot": "during"}]
    plan = api.fuel(cases.case(RIDE, goal={"band": band}))[0]
    assert 0 < plan.totals["carbohydrate_g"] <= 70
    posed = cases.posed(RIDE, goal={"band": band})
    slot = next(slot for slot in posed.slots if slot.kind == "during")
    assert slot.carbohydrate_most == 70


def test_a_plan_that_was_changed_by_hand_buys_nothing(ridden: Plan, tmp_path: Path) -> None:
    """What groceries and the race's sheet read is held against its own table and case first."""
    path = tmp_path / "plan.json"
    path.write_text(api.plan_text(ridden), encoding="utf-8")
    assert api.read_whole_plan(path) == ridden
    data = json.loads(api.plan_text(ridden))
    data["days"][0]["meals"][0]["items"][0]["grams"] *= 3
    path.write_text(json.dumps(data), encoding="utf-8")
    with pytest.raises(BadInput, match=r"plan\.json: this plan does not hold what it says"):
        api.read_whole_plan(path)
    data = json.loads(api.plan_text(ridden))
    data["case"]["athlete"]["mass_kg"] += 15
    path.write_text(json.dumps(data), encoding="utf-8")
    with pytest.raises(BadInput, match=r"plan\.json"):
        api.read_whole_plan(path)


def test_a_sheet_names_no_meals_of_another_athlete(ridden: Plan) -> None:
    race = {"day": "sat", "start": "09:00", "minutes": 100, "kind": "run", "effort": "race"}
    other = with_athlete(cases.case(race), name="Skerry somebody else")
    with pytest.raises(BadInput, match=r"ride\.json: read a plan of another athlete"):
        api.event_sheet(other, plan=ridden, where="ride.json")
    with pytest.raises(BadInput, match="read a plan of other sessions"):
        api.event_sheet(cases.case(race), plan=ridden)


@pytest.mark.parametrize(("start", "wake"), [("17:30", "06:30"), ("09:00", "06:15"), ("07:30", "06:00")])
def test_one_source_for_the_grams_before(start: str, wake: str) -> None:
    """What a session's plan says of the hours before is the window that the day is planned by."""
    posed = cases.posed({**RIDE, "start": start}, wake=wake)
    (window,) = (one for one in posed.refuel if one.before == 1)
    said = posed.fuel[1].plan.before[0]
    assert f"{window.aim:.0f} g carbohydrate" in said
    assert all(clock(posed.slots[index].start) in said for index in window.slots)
    assert api.fuel(posed.case)[0].before[0] == said


def test_a_bite_just_after_waking_is_no_more_than_the_plan_says() -> None:
    """0 to 0.5 g/kg where one is awake for less than an hour [project]: the day's meal there holds it."""
    early = {"day": "tue", "start": "06:30", "minutes": 100, "kind": "run", "effort": "steady"}
    posed = cases.posed(early, wake="05:45")
    (bite,) = (slot for slot in posed.slots if slot.end <= 390)
    assert bite.carbohydrate_most == 34.0
    assert "up to 34 g carbohydrate at 05:50" in posed.fuel[1].plan.before[0]
