"""What each part of the page shows and does, by its words."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from mealopt import api
from mealopt.core.clock import DAYS
from mealopt.errors import MealoptError, Unplannable
from mealopt.ui import desk, keeping
from mealopt.ui.main import PAGES
from tests.ui.conftest import Open, clean, field, finished, text

PATHS = [path for _, path, _ in PAGES]


def tail(sentence: str) -> str:
    """A complaint without file and line: from its key on."""
    return sentence[sentence.index("[") :] if "[" in sentence else sentence


@pytest.mark.parametrize("path", PATHS)
def test_no_part_raises_and_each_has_one_title(part: Open, path: str) -> None:
    page = part(path)
    assert len(page.title) == 1
    assert not page.error


@pytest.mark.parametrize("name", api.example_names())
def test_no_part_raises_for_any_example(part: Open, name: str) -> None:
    page = part("athlete")
    field(page.selectbox, "Or an example").select(name)  # type: ignore[attr-defined]
    clean(page.run())
    assert api.read_case(api.example_case_path(name)).athlete.name in text(page)
    for path in PATHS[1:]:
        assert not part(path, page).error


def test_the_first_opening_shows_a_finished_day(part: Open) -> None:
    page = part("day")
    (entry,) = [one for one in desk.first_state().plans["sat"].days if one.day == "sat"]
    words = text(page)
    assert all(f"{meal.number}. {meal.dish}" in words for meal in entry.meals)
    assert "The day beside its targets" in words
    assert any("not medical advice" in one.value for one in page.caption)


def test_another_mass_changes_the_numbers(part: Open) -> None:
    page = part("athlete")
    before = text(page)
    field(page.number_input, "Body mass, kg").set_value(75.0)  # type: ignore[attr-defined]
    clean(page.run())
    case = api.case_from_data({**api.case_data(api.read_case()), "athlete": {
        **api.case_data(api.read_case())["athlete"], "mass_kg": 75.0}})  # fmt: skip
    assert f"{api.week_targets(case).sum_kcal:,.0f} kcal in the week" in text(page)
    assert text(page) != before
    assert "The case has changed" in text(part("day", page))


def test_a_mass_of_nine_is_answered_beside_it_as_the_command_does(part: Open, tmp_path: Path) -> None:
    page = part("athlete")
    before = [one.value for one in page.markdown]
    field(page.number_input, "Body mass, kg").set_value(9.0)  # type: ignore[attr-defined]
    clean(page.run())
    bad = tmp_path / "case.toml"
    bad.write_text(api.example_case_path().read_text(encoding="utf-8").replace("mass_kg = 68.0", "mass_kg = 9"))
    with pytest.raises(MealoptError) as raised:
        api.read_case(bad)
    assert [one.value for one in page.error] == [tail(str(raised.value))]
    assert [one.value for one in page.markdown][: len(before)] == before, "the numbers stay those of the last values"
    field(page.number_input, "Body mass, kg").set_value(68.0)  # type: ignore[attr-defined]
    assert not clean(page.run()).error


def test_what_is_wrong_elsewhere_is_told_at_the_head(part: Open) -> None:
    page = part("athlete")
    field(page.number_input, "Body mass, kg").set_value(9.0)  # type: ignore[attr-defined]
    page = part("numbers", clean(page.run()))
    assert [one.value.splitlines()[0] for one in page.error] == [
        "[athlete] mass_kg: read 9; kg expected, 30 to 250: was it stones?"
    ]


def test_a_refusal_is_the_command_s_own(part: Open) -> None:
    page = part("athlete")
    field(page.multiselect, "Conditions").select("pregnant")  # type: ignore[attr-defined]
    clean(page.run())
    assert [one.value for one in page.error] == [
        "No plan is made with pregnancy: please see a doctor or registered dietitian, who can plan for you."
    ]
    assert part("numbers", page).error
    assert "kcal in the week" not in text(page)


def numbers_in(words: str) -> list[str]:
    return [word for word in ("kcal", " kg", "energy availability", "protein") if word in words]


def test_with_an_eating_disorder_before_foods_and_measures_stand_alone(part: Open) -> None:
    page = part("athlete")
    field(page.multiselect, "Conditions").select("past_eating_disorder")  # type: ignore[attr-defined]
    clean(page.run())
    for path in ("day", "numbers", "week", "fuel"):
        shown = part(path, page)
        cautions = {words for one in desk.first_state().plans["sat"].days for words in (*one.cautions, *one.notes)}
        words = "\n".join(line for line in text(shown).splitlines() if line.removeprefix("- ") not in cautions)
        assert "kcal" not in words, path
        hints = [str(one.placeholder) for kind in (shown.text_input, shown.text_area) for one in kind]
        assert "kcal" not in "\n".join(hints), path
    shown = part("day", page)
    assert field(shown.toggle, "Foods and measures only").value  # type: ignore[attr-defined]
    field(shown.toggle, "Foods and measures only").set_value(False)  # type: ignore[attr-defined]
    assert "kcal" in text(clean(shown.run()))


def test_a_session_is_added_and_the_numbers_follow(part: Open) -> None:
    page = part("training")
    days = [one.value for one in page.selectbox if one.label == "Day"]
    field(page.selectbox, "Add a session on").select("mon")  # type: ignore[attr-defined]
    clean(page.run())
    field(page.button, "Add session").click()  # type: ignore[attr-defined]
    clean(page.run())
    assert sorted(one.value for one in page.selectbox if one.label == "Day") == sorted([*days, "mon"])
    assert not page.error
    numbers = part("numbers", page)
    field(numbers.button_group, "Day").set_value("mon")  # type: ignore[attr-defined]
    assert "session 1, run: eaten back" in text(clean(numbers.run()))


def test_a_session_is_removed(part: Open) -> None:
    page = part("training")
    before = len(api.read_case().session)
    field(page.button, "Remove", 2).click()  # type: ignore[attr-defined]
    clean(page.run())
    left = [(day.value, start.value) for day, start in zip(
        [one for one in page.selectbox if one.label == "Day"],
        [one for one in page.text_input if one.label == "Start"], strict=True)]  # fmt: skip
    expected = [(one.day, one.start) for place, one in enumerate(api.read_case().session) if place != 2]
    assert left == expected
    assert len(left) == before - 1


def test_sessions_that_overlap_are_answered_beside_the_start(part: Open, tmp_path: Path) -> None:
    page = part("training")
    field(page.text_input, "Start", 2).set_value("08:00")  # type: ignore[attr-defined]
    clean(page.run())
    bad = tmp_path / "case.toml"
    shipped = api.example_case_path().read_text(encoding="utf-8")
    at = shipped.index('day = "tue"\nstart = "17:30"')
    bad.write_text(shipped[:at] + shipped[at:].replace("17:30", "08:00", 1), encoding="utf-8")
    with pytest.raises(MealoptError) as raised:
        api.read_case(bad)
    assert [one.value for one in page.error] == [tail(str(raised.value))]


def shown_ticks(page: AppTest) -> list[Any]:
    return list(page.checkbox)


def test_what_is_ticked_stays_ticked(part: Open) -> None:
    page = part("shopping")
    first = shown_ticks(page)[0]
    first.check()
    clean(page.run())
    again = part("shopping", page)
    assert [one.value for one in shown_ticks(again)][:2] == [True, False]
    assert f"1 of {len(shown_ticks(again))} in the basket" in text(again)


def test_the_list_is_the_plan_s_and_what_is_at_home_comes_off(part: Open) -> None:
    page = part("shopping")
    plan = desk.first_state().week or desk.first_state().plans["sat"]
    bought = api.groceries(plan, {}).bought
    assert [one.label.split(" · ")[0].replace("\\", "") for one in shown_ticks(page)] == [line.says for line in bought]
    line = next(one for one in bought if one.need_g > 0)
    field(page.text_area, "At home, a food a line").set_value(f"{line.food}={line.need_g + 1:.0f}g")  # type: ignore[attr-defined]
    clean(page.run())
    assert len(shown_ticks(page)) == len(bought) - 1
    field(page.text_area, "At home, a food a line").set_value("oats: lots")  # type: ignore[attr-defined]
    clean(page.run())
    with pytest.raises(MealoptError) as raised:
        api.read_have("oats: lots")
    assert [one.value for one in page.error] == [str(raised.value)]


def test_the_days_of_the_week_are_all_there(part: Open) -> None:
    page = part("week")
    assert [one.label for one in page.button if one.label in desk_names()] == desk_names()


def desk_names() -> list[str]:
    from mealopt.core.words import DAY_NAMES

    return [DAY_NAMES[day] for day in DAYS]


def test_where_nothing_fits_the_page_says_what_clashes_and_what_must_give(part: Open) -> None:
    page = part("athlete")
    field(page.selectbox, "Or an example").select("rest_week")  # type: ignore[attr-defined]
    clean(page.run())
    field(page.number_input, "Kitchen time, minutes").set_value(0)  # type: ignore[attr-defined]
    clean(page.run())
    day = part("day", page)
    field(day.button_group, "Day").set_value("mon")  # type: ignore[attr-defined]
    clean(day.run())
    field(day.button, "Plan Monday").click()  # type: ignore[attr-defined]
    clean(day.run())
    finished(day)
    kept = keeping.shelf().find(day.session_state[keeping.PARAMETER])
    assert kept is not None
    assert kept.work is not None
    assert isinstance(kept.work.error, Unplannable)
    assert [one.value for one in day.error] == [str(kept.work.error)]
    assert "at most 0 minutes in the kitchen" in day.error[0].value
    assert any("kitchen_minutes" in one.value for one in day.code)
    assert [one.label for one in day.button if one.label == "Plan Monday"], "the rest of the page stays"
