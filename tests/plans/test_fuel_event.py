"""The event: the days before, the morning, the sheet of a page, the night, two races."""

from __future__ import annotations

import pytest

from mealopt import api
from tests.plans import cases


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
