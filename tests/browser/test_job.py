"""The whole job, as a person does it: by what is seen, on a laptop and on a phone, in light and in dark."""

from __future__ import annotations

import csv
import io
import re
from pathlib import Path
from typing import Any

import pytest

from mealopt import api
from mealopt.core.clock import DAYS
from tests.browser.conftest import Visit, choose, go, press, settle, type_in, until


def week_kcal(page: Any) -> int:
    """The week's energy, as the athlete's part says it."""
    found = re.search(r"([\d,]+) kcal in the week", page.get_by_test_id("stMain").inner_text())
    assert found
    return int(found[1].replace(",", ""))


def pick(page: Any, day: str) -> None:
    page.get_by_role("radio", name=day, exact=True).or_(page.get_by_role("button", name=day, exact=True)).first.click()
    settle(page)


@pytest.mark.parametrize(("width", "theme"), [(1280, "light"), (390, "dark")])
def test_from_another_mass_to_a_day_that_is_changed(visit: Visit, width: int, theme: str) -> None:
    page = visit(width, theme)
    assert "Saturday" in page.get_by_role("heading", level=1).inner_text()
    assert page.get_by_text("Gives").count() >= 4, "a finished day at once"

    go(page, "Athlete and goal")
    before = week_kcal(page)
    type_in(page, "Body mass, kg", "70")
    until(page, lambda: week_kcal(page) > before, "more energy for more mass")

    go(page, "Training week")
    sessions = page.get_by_role("button", name="Remove").count()
    choose(page, "Add a session on", "Fri")
    page.get_by_role("button", name="Add session").click()
    until(page, lambda: page.get_by_role("button", name="Remove").count() == sessions + 1, "one session more")

    go(page, "Numbers")
    pick(page, "Fri")
    until(page, lambda: page.get_by_text("session 2, run: eaten back").count() >= 1, "the new session in the numbers")

    go(page, "Day")
    pick(page, "Fri")
    plan = page.get_by_role("button", name="Plan Friday")
    for _ in range(10):
        plan.click(no_wait_after=True, delay=0)
    plan.wait_for(state="detached")
    settle(page)
    assert page.get_by_role("alert").count() == 0, "one answer, and it is for the case as it is"

    swap = page.get_by_role("button", name=re.compile("^Swap ")).nth(1)
    press(page, swap, lambda: page.get_by_text(re.compile("^(Instead of |Looking for what)")).count() > 0, "offers")
    page.get_by_text(re.compile("^Instead of ")).wait_for()
    settle(page)
    offers = page.locator("[class*='st-key-take']").get_by_role("button")
    none = page.get_by_role("alert")
    until(page, lambda: offers.count() + none.count() > 0, "offers, or that there are none")
    taken = offers.first.inner_text() if offers.count() else ""
    if taken:
        offers.first.click()
        page.get_by_text(re.compile(f"{re.escape(taken)} instead of ")).wait_for()
        settle(page)

    meals = page.get_by_role("button", name="Another dish").count()
    page.get_by_role("button", name="Skip").last.click()
    out = page.get_by_role("button", name="Leave it out: the other meals make up for it").filter(visible=True)
    press(page, out, lambda: page.get_by_text(re.compile("is skipped|Planning the day without")).count() > 0, "a skip")
    page.get_by_text(re.compile("is skipped")).first.wait_for()
    settle(page)
    until(page, lambda: page.get_by_role("button", name="Another dish").count() < meals, "one meal less")


@pytest.mark.parametrize(("width", "theme"), [(1280, "light"), (390, "dark")])
def test_the_week_is_planned_and_its_list_is_the_plan_s(visit: Visit, tmp_path: Path, width: int, theme: str) -> None:
    """On a laptop all seven days, ended by hand once their gap has fallen; on a phone two days of them."""
    page = visit(width, theme, "athlete")
    type_in(page, "Body mass, kg", "70")
    go(page, "Week")
    if width == 1280:
        page.get_by_role("button", name="Plan the week").click()
    else:
        page.get_by_text("Some days only, or food to use up").click()
        choose(page, "Last day", "Tuesday")
        page.get_by_role("button", name="Plan these days").click()
    page.get_by_text(re.compile(r"Still away from the best possible: .* % → ")).wait_for()
    gaps = [float(gap) for gap in re.findall(r"([\d.]+) %", page.get_by_text("Still away from").inner_text())]
    assert gaps == sorted(gaps, reverse=True), "nearer and nearer"
    stop = page.get_by_role("button", name="Stop and take the best so far")
    if stop.count():
        stop.click(no_wait_after=True)
    page.get_by_text("Still away from").wait_for(state="detached")
    settle(page)
    assert page.get_by_text("The case has changed since").count() == 0, "the week is for the case as it is"

    go(page, "Shopping")
    boxes = page.locator("[class*=st-key-aisle-]").get_by_test_id("stCheckbox")
    number = boxes.count()
    assert page.get_by_text(f"0 of {number} in the basket").count() == 1
    boxes.nth(0).click()
    boxes.nth(3).click()
    page.get_by_text(f"2 of {number} in the basket").wait_for()
    rows = list(csv.DictReader(io.StringIO(saved(page, "List as CSV", tmp_path / "list.csv").removeprefix("\ufeff"))))
    side(page)
    page.get_by_text("Save", exact=True).click()
    saved(page, re.compile("^Plan of "), tmp_path / "plan.json")
    plan = api.read_plan(tmp_path / "plan.json")
    assert [day.day for day in plan.days] == list(DAYS[: 7 if width == 1280 else 2])
    assert plan.case["athlete"]["mass_kg"] == 70
    assert api.recheck(plan) == []
    shopping = api.groceries(plan)
    assert len(shopping.bought) == number
    assert rows == list(csv.DictReader(io.StringIO(api.groceries_csv(shopping).removeprefix("\ufeff"))))
    # Each line needs as much as the plan's own foods add up to, by another way of counting.
    compared = 0
    for line in shopping.lines:
        need = sum(item.as_bought_g for day in plan.days for meal in day.meals for item in meal.items
                   if item.food == line.food)  # fmt: skip
        if need and line.foods in ((line.food,), ()):
            assert line.need_g == pytest.approx(need, rel=0.02, abs=1.0), line.food
            compared += 1
    assert compared > 5


def saved(page: Any, button: str | re.Pattern[str], path: Path) -> str:
    """Press a button that gives a file, keep it there, and read it."""
    with page.expect_download() as coming:
        page.get_by_role("button", name=button).click()
    coming.value.save_as(path)
    return path.read_text(encoding="utf-8")


def side(page: Any) -> None:
    """Open what stands at the side, where a phone folds it away."""
    unfold = page.get_by_test_id("stExpandSidebarButton")
    if unfold.filter(visible=True).count():
        unfold.click()
        page.wait_for_timeout(500)


def test_a_case_from_the_page_serves_the_command(visit: Visit, tmp_path: Path) -> None:
    page = visit(1280, "light", "athlete")
    type_in(page, "Body mass, kg", "66.5")
    page.get_by_text("Save", exact=True).click()
    with page.expect_download() as coming:
        page.get_by_role("button", name="Case file").click()
    coming.value.save_as(tmp_path / "case.toml")
    case = api.read_case(tmp_path / "case.toml")
    assert case.athlete.mass_kg == 66.5
    assert case.session == api.read_case().session


def test_two_people_never_see_each_other_and_a_reload_keeps_all(visit: Visit) -> None:
    one, other = visit(1280, "light", "athlete"), visit(1280, "dark", "athlete")
    type_in(one, "Body mass, kg", "75")
    other.reload()
    other.get_by_label("Body mass, kg", exact=True).wait_for()
    settle(other)
    assert other.get_by_label("Body mass, kg", exact=True).input_value() == "68"
    one.reload()
    one.get_by_label("Body mass, kg", exact=True).wait_for()
    settle(one)
    assert one.get_by_label("Body mass, kg", exact=True).input_value() == "75"


def test_files_that_cannot_be_read_are_answered_beside_the_field(visit: Visit, tmp_path: Path) -> None:
    page = visit(1280, "light", "athlete")
    page.get_by_text("Open", exact=True).click()
    for name, text, says in (
        ("case.toml", "schema = ", "case.toml, last line: read broken TOML"),
        ("plan.json", '{"schema": "mealopt/plan-9"}', "another version of the plan document"),
    ):
        (tmp_path / name).write_text(text, encoding="utf-8")
        page.locator("input[type=file]").set_input_files(tmp_path / name)
        page.get_by_test_id("stSidebar").get_by_role("alert").get_by_text(says).wait_for()
        assert page.get_by_label("Body mass, kg", exact=True).input_value() == "68", "the rest stays"
