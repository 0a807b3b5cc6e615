"""Meals before sessions. The steps are the project's own, written here a second time."""

from __future__ import annotations

from typing import Any

import pytest

from mealopt.core.clock import clock, minutes_of
from mealopt.recheck.facts import Ahead
from mealopt.recheck.windows import limits_before


def ahead(kind: str, effort: str, minutes: int = 60) -> Ahead:
    return Ahead(1, 18 * 60, 18 * 60 + minutes, kind, effort)


@pytest.mark.parametrize(
    ("lead", "fibre", "fat", "energy"),
    [(0, 2, 5, 300), (59, 2, 5, 300), (60, 4, 10, 500), (119, 4, 10, 500), (120, 6, 15, None), (179, 6, 15, None),
     (180, 8, 20, None), (239, 8, 20, None), (240, None, None, None), (-5, None, None, None)],
)  # fmt: skip
def test_steps_of_a_run(lead: int, fibre: float | None, fat: float | None, energy: float | None) -> None:
    """The steps are [0,60) [60,120) [120,180) [180,240) minutes."""
    found = limits_before(ahead("run", "steady"), 18 * 60 - lead)
    assert (found.get("fibre_g"), found.get("fat_g"), found.get("energy_kcal")) == (fibre, fat, energy)


@pytest.mark.parametrize(
    ("kind", "effort", "minutes", "hours"),
    [("run", "easy", 60, 4), ("ride", "hard", 60, 4), ("swim", "race", 30, 4), ("lift", "hard", 45, 4),
     ("ride", "steady", 120, 2), ("swim", "easy", 45, 2), ("lift", "steady", 60, 2), ("circuit", "easy", 50, 2),
     ("run", "easy", 44, 0), ("ride", "easy", 30, 0), ("walk", "easy", 20, 0)],
)  # fmt: skip
def test_how_many_steps_a_session_has(kind: str, effort: str, minutes: int, hours: int) -> None:
    """All for runs, hard work and races, two for others, none for easy work under 45 min."""
    session = ahead(kind, effort, minutes)
    limited = [lead for lead in range(400) if limits_before(session, 18 * 60 - lead)]
    assert limited == list(range(60 * hours))


def moved(bench: Any, number: int, ends: str, **changes: Any) -> dict[str, Any]:
    """The day with one meal of ten minutes moved to end at this time."""
    data = bench.data()
    meal = data["days"][0]["meals"][number - 1]
    meal |= {"time": clock(minutes_of(ends) - 10), "ends": ends} | changes
    return data


def test_a_meal_above_its_own_limit(bench: Any) -> None:
    data = bench.data()
    fibre = data["days"][0]["meals"][2]["totals"]["fibre_g"]
    data["days"][0]["meals"][2]["limits"]["fibre_g"] = fibre - 0.01
    assert ["at most" in says and "fibre" in says for says in bench.broken(data)] == [True]


def test_what_is_eaten_in_a_session_keeps_its_limits_too(bench: Any) -> None:
    data = bench.data()
    data["days"][0]["meals"][3]["items"].append(bench.item("peanut butter", 2))
    bench.aimed(bench.added_up(data))
    assert all("meal 4" in says for says in bench.broken(data))
    assert any("fat" in says for says in bench.broken(data))


def test_a_limit_wider_than_the_clock_asks_for(bench: Any) -> None:
    data = bench.data()
    data["days"][0]["meals"][2]["limits"]["fibre_g"] = 8.0
    broken = bench.broken(data)
    assert len(broken) == 1
    assert "6 is the most before the run at 18:00" in broken[0]


def test_a_limit_that_is_left_out(bench: Any) -> None:
    data = bench.data()
    data["days"][0]["meals"][2]["limits"] = {}
    broken = bench.broken(data)
    assert len(broken) == 2
    assert all("no limit" in says for says in broken)


def test_a_meal_moved_nearer_breaks_its_window(bench: Any) -> None:
    """Bread, jam and juice are some 370 kcal: too much within the hour before the run, right two hours before."""
    data = moved(bench, 3, "17:10", lead_minutes=50, limits={"fibre_g": 2.0, "fat_g": 5.0})
    broken = bench.broken(data)
    assert any("energy" in says and "at most 300" in says for says in broken)


def test_a_limited_meal_holds_no_food_of_unknown_fibre(bench: Any) -> None:
    data = bench.data()
    data["days"][0]["meals"][2]["items"].append(bench.item("balsamic vinegar", 1))
    bench.aimed(bench.added_up(data))
    assert ["unknown fibre_g" in says for says in bench.broken(data)] == [True]


def test_a_limited_meal_holds_no_food_that_settles_badly(bench: Any) -> None:
    data = bench.data()
    data["days"][0]["meals"][2]["items"].append(bench.item("garlic", 1))
    bench.aimed(bench.added_up(data))
    assert ["settles badly" in says for says in bench.broken(data)] == [True]


def test_the_next_days_session_counts(bench: Any) -> None:
    """A race at 03:00 of the next day limits what is eaten at 23:50: 190 min before, 8 g fibre and 20 g fat."""
    data = moved(bench, 5, "23:50")
    data["days"][0]["meals"][4]["time"] = "23:30"
    assert bench.broken(data) == []
    race = {"day": "wed", "start": "03:00", "minutes": 60, "kind": "run", "effort": "race"}
    data["case"]["session"].append(race)
    broken = bench.broken(data)
    assert any("8 is the most before the run at 03:00 of the next day" in says for says in broken)
    assert any("190 min before" in says for says in broken)
    data["days"][0]["meals"][4] |= {"lead_minutes": 190, "limits": {"fibre_g": 8.0, "fat_g": 20.0}}
    assert not any("190 min before" in says for says in bench.broken(data))


def test_sunday_looks_ahead_to_monday(bench: Any) -> None:
    data = moved(bench, 5, "23:50")
    data["days"][0]["day"], data["case"]["session"][0]["day"] = "sun", "sun"
    data["days"][0]["meals"][4]["time"] = "23:30"
    data["case"]["session"][1] = {"day": "mon", "start": "03:00", "minutes": 60, "kind": "run", "effort": "race"}
    assert any("03:00 of the next day" in says for says in bench.broken(data))


def test_a_settled_meal_is_the_athletes_own(bench: Any) -> None:
    data = bench.data()
    data["days"][0]["meals"][2] |= {"limits": {}, "lead_minutes": None, "before_session": None}
    assert bench.broken(data) != []
    data["case"]["kitchen"]["fixed"] = [{"day": "tue", "time": "15:30", "foods": ["bread, white=58g"]}]
    assert [says for says in bench.broken(data) if "limit" in says] == []
