"""Changing a planned day and a case on the page: each does what the command does, and says the same."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from mealopt import api
from mealopt.errors import BadInput, MealoptError
from mealopt.ui import desk, keeping
from mealopt.ui.files import from_text
from mealopt.ui.lines import for_health, merged
from mealopt.ui.own_foods import missing, with_own_foods
from mealopt.ui.state import Look, State, changed, opened
from tests.ui.conftest import Open, clean, field, finished, text


def kept(page: AppTest) -> keeping.Kept:
    found = keeping.shelf().find(page.session_state[keeping.PARAMETER])
    assert found is not None
    return found


def put(page: AppTest, how: Callable[[State], State]) -> AppTest:
    """The page after its state was changed elsewhere."""
    one = kept(page)
    one.state = how(one.state)
    return clean(page.run())


def press(page: AppTest, label: str, place: int = 0) -> AppTest:
    field(page.button, label, place).click()  # type: ignore[attr-defined]
    return clean(page.run())


def monday(part: Open) -> AppTest:
    """The part of the day, on the quietest day."""
    return put(part("day"), lambda now: replace(now, day="mon"))


def dishes(page: AppTest) -> list[str]:
    entry = kept(page).state.planned(kept(page).state.day)
    assert entry is not None
    return [meal.dish for meal in entry.meals]


def test_a_meal_is_left_out_and_taken_back(part: Open) -> None:
    page = monday(part)
    before = dishes(page)
    finished(press(page, "Leave it out: the other meals make up for it"))
    plan = kept(page).state.plans["mon"]
    asked = api.swap(desk.first_state().plans["mon"], None, day="mon", drop=[1])
    assert plan.days[0].skipped == asked.day.skipped
    assert api.recheck(plan) == []
    assert "Meal 1 was left out." in "\n".join(one.value for one in page.success)
    assert "is skipped" in text(page)
    press(page, "Take it back")
    assert dishes(page) == before
    assert not page.success


def test_a_meal_that_is_held_stays_when_another_is_left_out(part: Open) -> None:
    page = monday(part)
    held = {meal.number: meal.items for meal in desk.first_state().plans["mon"].days[0].meals}
    field(page.toggle, "Hold", 1).set_value(True)  # type: ignore[attr-defined]
    clean(page.run())
    finished(press(page, "Leave it out: the other meals make up for it"))
    (meal,) = [one for one in kept(page).state.plans["mon"].days[0].meals if one.number == 2]
    assert meal.items == held[2]


def test_a_day_that_goes_otherwise_is_planned_as_the_command_does(part: Open) -> None:
    page = monday(part)
    field(page.text_input, "It is now, HH:MM").set_value("14:30")  # type: ignore[attr-defined]
    field(page.text_area, "What was eaten beside the plan, one a line").set_value("pizza=350g at 14:00")  # type: ignore[attr-defined]
    field(page.multiselect, "Meals that were skipped").set_value([3])  # type: ignore[attr-defined]
    finished(press(page, "Plan from now on"))
    asked = api.replan(desk.first_state().plans["mon"], "14:30", day="mon", ate=["pizza=350g at 14:00"], skipped=[3])
    assert kept(page).state.said == asked.words
    assert [one.model_dump(exclude={"solve"}) for one in kept(page).state.plans["mon"].days] == [
        one.model_dump(exclude={"solve"}) for one in asked.plan.days
    ]


@pytest.mark.parametrize(
    ("label", "value", "asked"),
    [
        ("It is now, HH:MM", "2 pm", {"now": "2 pm"}),
        ("Start", "soon", {"now": "", "session": ["soon 60 run easy"]}),
    ],
)
def test_what_cannot_be_read_of_a_day_is_the_command_s_sentence(
    part: Open, label: str, value: str, asked: dict[str, Any]
) -> None:
    page = part("day")
    field(page.text_input, label).set_value(value)  # type: ignore[attr-defined]
    finished(press(page, "Plan from now on"))
    with pytest.raises(BadInput) as raised:
        api.replan(desk.first_state().plans["sat"], day="sat", **asked)
    assert [f"--{str(raised.value).split(':')[0][2:]}: {one.value}" for one in page.error] == [str(raised.value)]
    assert dishes(page), "the day stays"


def test_a_food_that_is_named_comes_in_as_the_command_has_it(part: Open) -> None:
    page = monday(part)
    plan = desk.first_state().plans["mon"]
    meal, out, into = next(
        (meal.number, item.food, other)
        for meal in plan.days[0].meals for item in meal.items
        for one, other in (("raspberries", "blueberries"), ("blueberries", "raspberries"), ("honey", "jam"),
                           ("banana", "apple"), ("walnuts", "almonds"), ("strawberries", "blueberries"),
                               ("milk, semi-skimmed", "milk, skimmed"), ("grapes", "apple"))
        if item.food == one
    )  # fmt: skip
    page = put(page, lambda now: replace(now, looking=Look("mon", meal, out), offers=()))
    assert f"Instead of {out}" in text(page)
    field(page.selectbox, "Food").select(into)  # type: ignore[attr-defined]
    finished(press(page, "Put it in"))
    asked = api.swap(plan, meal, out, into, day="mon", seconds=8)
    assert not page.error
    assert kept(page).state.said[0].startswith(f"Meal {meal}: {into} instead of {out}.")
    assert kept(page).state.plans["mon"].days[0].meals == asked.day.meals
    page = put(press(page, "Take it back"), lambda now: replace(now, looking=Look("mon", meal, out), offers=()))
    field(page.selectbox, "Food").select(into)  # type: ignore[attr-defined]
    field(page.number_input, "Grams, if they matter").set_value(4000)  # type: ignore[attr-defined]
    finished(press(page, "Put it in"))
    with pytest.raises(MealoptError) as raised:
        api.swap(plan, meal, out, f"{into}=4000g", day="mon", seconds=8)
    assert [one.value for one in page.error] == [str(raised.value)]


def test_another_day_is_taken_only_when_it_is_pressed(part: Open) -> None:
    page = part("day")
    before = dishes(page)
    other = api.swap(desk.first_state().plans["sat"], None, day="sat", drop=[4]).plan
    alone = other.model_copy(update={"kind": "day", "days": (other.days[5],)})
    page = put(page, lambda now: replace(now, choices={"sat": (alone,)}))
    assert dishes(page) == before
    press(page, "Take this day")
    assert kept(page).state.plans["sat"] is alone
    assert not kept(page).state.choices["sat"]
    press(page, "Take it back")
    assert dishes(page) == before


@pytest.mark.slow
def test_another_day_has_other_dishes(part: Open) -> None:
    page = part("athlete")
    field(page.selectbox, "Or an example").select("rest_week")  # type: ignore[attr-defined]
    clean(page.run())
    case = kept(page).state.case
    plan = api.plan_day(case, "mon", seconds=20)
    put(page, lambda now: changed(replace(now, day="mon"), plan, ()))
    page = part("day", page)
    finished(press(page, "One with other dishes"))
    (found,) = kept(page).state.choices["mon"]
    assert api.recheck(found) == []
    stands = {meal.dish_id for meal in plan.days[0].meals}
    assert len(stands & {meal.dish_id for meal in found.days[0].meals}) < len(stands)


def test_why_and_why_not_answer_as_the_commands_do(part: Open) -> None:
    page = part("day")
    plan = desk.first_state().plans["sat"]
    finished(press(page, "Which limits hold it"))
    limits = api.why(plan, "sat")
    assert all(one.words.replace("*", "") in text(page).replace("*", "") for one in limits[:3])
    field(page.selectbox, "Why not this food or dish?").select("red lentils")  # type: ignore[attr-defined]
    finished(press(page, "Ask"))
    assert "red lentils" in text(page)
    answer = kept(page).state.why_not["sat"][1]
    assert answer.words[0] in text(page)
    if answer.plan is not None and answer.changes:
        press(page, "Take the day with it")
        assert kept(page).state.plans["sat"] is answer.plan


def test_after_a_change_only_what_is_missing_stands_on_a_list_that_was_bought(part: Open) -> None:
    page = press(part("shopping"), "All of it is bought")
    before = desk.first_state().plans["sat"]
    after = api.swap(before, None, day="sat", drop=[4]).plan
    page = put(page, lambda now: changed(now, after, ()))
    asked = api.groceries_after(before, after)
    assert [one.label.split(" · ")[0].replace("\\", "") for one in page.checkbox] == [
        line.says for line in asked.now.bought
    ]
    assert "What to buy on top" in text(page)
    assert api.in_vain_words(asked.in_vain) in text(page)
    page = press(page, "It is not bought yet")
    assert len(page.checkbox) == len(api.groceries(after).bought)


def test_prices_of_one_s_own_count_and_a_broken_file_is_the_command_s_sentence(part: Open, tmp_path: Path) -> None:
    page = part("shopping")
    plan = desk.first_state().plans["sat"]
    line = api.groceries(plan).bought[0]
    good = f"food,pack_g,price\n{line.food},{line.pack_g:g},77.5\n"
    page = put(page, lambda now: replace(now, prices=("mine.csv", good)))
    assert page.checkbox[0].label.endswith(f" · {line.packs * 77.5:.2f}")
    assert not any(" · " in one.label for one in page.checkbox[1:]), "no other thing has a price there"
    bad = tmp_path / "mine.csv"
    bad.write_text("food,pack_g,price\nunicorn,100,1\n", encoding="utf-8")
    with pytest.raises(BadInput) as raised:
        api.groceries(plan, prices=bad)
    page = put(page, lambda now: replace(now, prices=("mine.csv", bad.read_text(encoding="utf-8"))))
    assert [one.value for one in page.error] == [str(raised.value).replace(str(bad), "mine.csv")]


def test_some_days_are_planned_and_what_cannot_be_used_up_is_answered(part: Open) -> None:
    page = part("week")
    field(page.text_area, "To be eaten up, a food a line").set_value("spinach: lots")  # type: ignore[attr-defined]
    press(page, "Plan these days")
    with pytest.raises(BadInput) as raised:
        api.read_have("spinach: lots")
    assert [one.value for one in page.error] == [str(raised.value)]
    assert kept(page).work is None
    field(page.text_area, "To be eaten up, a food a line").set_value("")  # type: ignore[attr-defined]
    field(page.selectbox, "First day").select("sun")  # type: ignore[attr-defined]
    field(page.selectbox, "Last day").select("mon")  # type: ignore[attr-defined]
    field(page.button, "Plan these days").click()  # type: ignore[attr-defined]
    clean(page.run())
    work = kept(page).work
    assert work is not None
    work.stop()
    assert work.what.startswith("Planning 2 days together")
    assert "['sun', 'mon']" in work.key
    assert work.wait(60)


def test_a_plan_of_some_days_is_the_week_of_the_page() -> None:
    week = desk.first_state().plans["mon"]
    some = week.model_copy(update={"days": week.days[:2]})
    state = changed(opened(api.read_case()), some, ())
    assert state.week is some
    one = week.model_copy(update={"kind": "day", "days": week.days[:1]})
    assert changed(state, one, ()).week is None


def test_the_case_is_changed_as_lines_of_its_file(part: Open) -> None:
    page = part("athlete")
    lines = field(page.text_area, "Lines of the case file")
    before = str(lines.value)  # type: ignore[attr-defined]
    assert before == api.case_text(api.read_case())
    lines.set_value(before.replace("mass_kg = 68.0", "mass_kg = 66.0"))  # type: ignore[attr-defined]
    press(page, "Take these lines")
    assert kept(page).state.case.athlete.mass_kg == 66.0
    assert field(page.number_input, "Body mass, kg").value == 66.0  # type: ignore[attr-defined]
    bad = before.replace("mass_kg = 68.0", "mass_kg = 9.0")
    field(page.text_area, "Lines of the case file").set_value(bad)  # type: ignore[attr-defined]
    press(page, "Take these lines")
    with pytest.raises(BadInput) as raised:
        api.case_from_text(bad)
    assert [one.value for one in page.error] == [str(raised.value)]
    assert kept(page).state.case.athlete.mass_kg == 66.0


def test_lines_that_a_refusal_offers_come_into_the_case() -> None:
    band = {"nutrient": "kitchen_minutes", "most": 23, "day": "mon"}
    draft = {"kitchen": {"cook_minutes": 0, "day": [{"day": "mon", "wake": "07:00"}]}, "goal": {}}
    found = merged(draft, {"goal": {"band": [band]}, "kitchen": {"day": [{"day": "mon", "cook_minutes": 30}]}})
    assert found["goal"]["band"] == [band]
    assert found["kitchen"]["day"] == [{"day": "mon", "wake": "07:00", "cook_minutes": 30}]
    assert merged(found, {"goal": {"band": [{**band, "most": 40}]}})["goal"]["band"] == [{**band, "most": 40}]
    assert draft["goal"] == {}, "what was there stays as it was"


@pytest.mark.parametrize(
    ("lines", "health"),
    [
        ('[kitchen]\ndiet = "omnivore"', False),
        ("[kitchen]\navoid_allergens = []", True),
        ("# with a caution\n[kitchen]\ngluten_free = false", True),
    ],
)
def test_no_button_changes_what_is_there_for_somebody_s_health(lines: str, health: bool) -> None:
    assert for_health(lines) is health


def test_the_sheet_of_a_race_is_the_command_s(part: Open) -> None:
    page = part("athlete")
    field(page.selectbox, "Or an example").select("race_week")  # type: ignore[attr-defined]
    clean(page.run())
    page = part("fuel", page)
    finished(press(page, "Write the sheet"))
    assert api.event_sheet(kept(page).state.case) == page.code[0].value + "\n"


def test_foods_of_one_s_own_are_opened_beside_the_case_that_names_them(part: Open) -> None:
    case = api.read_case(api.example_case_path("own_shelf"))
    assert case.folder is not None
    named = str(case.kitchen.own_foods)
    own = (case.folder / named).read_text(encoding="utf-8")
    state = from_text(desk.first_state(), api.case_text(case), "case.toml")
    assert missing(state) == named
    with pytest.raises(BadInput) as raised:
        with_own_foods(state, "[[food]]\nname = 3\n")
    assert str(raised.value).startswith(named), "no word of where the page keeps it"
    found = with_own_foods(state, own)
    assert missing(found) == ""
    assert found.case == case
    assert missing(opened(case)) == "", "an example lies beside its file"
    page = put(part("day"), lambda now: state)
    assert [one.label for one in page.get("file_uploader")] == [
        "A case file (.toml) or a plan (.json)",
        f"The case names foods of your own: {named}",
    ]
