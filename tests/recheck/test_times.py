"""The clock of the day."""

from __future__ import annotations

from typing import Any

import pytest


def meals(data: dict[str, Any]) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = data["days"][0]["meals"]
    return found


def test_meals_out_of_order(bench: Any) -> None:
    data = bench.data()
    meals(data)[0] |= {"time": "13:00", "ends": "13:20"}
    assert ["stands after a later meal" in says for says in bench.broken(data)] == [True]


def test_meals_that_overlap(bench: Any) -> None:
    data = bench.data()
    meals(data)[0] |= {"time": "12:15", "ends": "12:35"}
    assert ["begins before meal 1 ends" in says for says in bench.broken(data)] == [True]


def test_meals_counted_wrongly(bench: Any) -> None:
    data = bench.data()
    meals(data)[2]["number"] = 4
    assert ["counted from 1" in says for says in bench.broken(data)] == [True]


def test_a_meal_too_short_to_eat(bench: Any) -> None:
    """Eating takes 20 min for a main meal, 10 for others."""
    data = bench.data()
    meals(data)[1]["ends"] = "12:45"
    assert ["15 min to eat it" in says for says in bench.broken(data)] == [True]
    meals(data)[1] |= {"time": "12:50", "ends": "12:30"}
    assert any("-20 min" in says for says in bench.broken(data))


@pytest.mark.parametrize(("time", "ends"), [("18:30", "18:50"), ("19:00", "19:20")])
def test_a_meal_that_runs_into_a_session(bench: Any, time: str, ends: str) -> None:
    data = bench.data()
    meals(data)[4] |= {"time": time, "ends": ends}
    assert any("runs into the run at 18:00" in says for says in bench.broken(data))


def test_what_is_eaten_in_a_session_lies_in_one(bench: Any) -> None:
    data = bench.data()
    meals(data)[3]["ends"] = "19:30"
    assert any("none lasts" in says for says in bench.broken(data))


def test_waking_hours(bench: Any) -> None:
    data = bench.data()
    data["case"]["kitchen"]["wake"] = "07:05"
    assert ["not between waking at 07:05" in says for says in bench.broken(data)] == [True]
    data["case"]["kitchen"]["day"] = [{"day": "tue", "wake": "06:00"}]
    assert bench.broken(data) == []
    data["case"]["kitchen"]["day"] = [{"day": "tue", "wake": "06:00"}, {"day": "wed", "wake": "05:00"}]
    meals(data)[4] |= {"time": "28:50", "ends": "29:10", "limits": {}}
    assert ["next waking at 29:00" in says for says in bench.broken(data)] == [True]


def test_without_a_written_waking_the_default_of_the_case_file_holds(bench: Any) -> None:
    data = bench.data()
    data["case"]["kitchen"] = {}
    meals(data)[0] |= {"time": "06:25", "ends": "06:45"}
    assert ["waking at 06:30" in says for says in bench.broken(data)] == [True]


def test_a_race_before_waking_moves_it(bench: Any) -> None:
    data = bench.data()
    data["case"]["kitchen"]["wake"] = "10:00"
    data["case"]["session"].append({"day": "tue", "start": "08:00", "minutes": 30, "kind": "swim", "effort": "race"})
    assert not any("between waking" in says for says in bench.broken(data))
    data["case"]["session"][-1]["start"] = "08:30"
    assert any("between waking at 07:30" in says for says in bench.broken(data))


@pytest.mark.parametrize(
    "change",
    [{"lead_minutes": 150}, {"lead_minutes": None}, {"before_session": 2}, {"before_session": None},
     {"before_session": None, "lead_minutes": None}],
)  # fmt: skip
def test_the_minutes_to_the_session_ahead(bench: Any, change: dict[str, Any]) -> None:
    data = bench.data()
    meals(data)[2] |= change
    assert any("meal 3" in says for says in bench.broken(data))


@pytest.mark.parametrize("change", [{"kind": "ride"}, {"effort": "easy"}, {"start": "18:05"}, {"minutes": 70}])
def test_sessions_are_those_of_the_case(bench: Any, change: dict[str, Any]) -> None:
    data = bench.data()
    data["days"][0]["sessions"][0] |= change
    assert ["are not the 1 of the case" in says for says in bench.broken(data)] == [True]


def test_a_session_left_out(bench: Any) -> None:
    data = bench.data()
    data["days"][0]["sessions"] = []
    assert ["its 0 sessions" in says for says in bench.broken(data)] == [True]


def test_what_only_touches_does_not_overlap(bench: Any) -> None:
    """A meal may begin as another or a session ends, and end with the plan day."""
    data = bench.data()
    meals(data)[0] |= {"time": "12:10", "ends": "12:30"}
    meals(data)[4] |= {"time": "19:15", "ends": "19:35"}
    assert bench.broken(data) == []
    data["case"]["kitchen"]["day"] = [{"day": "wed", "wake": "05:00"}]
    meals(data)[4] |= {"time": "28:40", "ends": "29:00"}
    assert not any("between waking" in says for says in bench.broken(data))


def test_a_meal_that_takes_no_time(bench: Any) -> None:
    data = bench.data()
    foods = [f"{item['food']}={item['grams']}g" for item in meals(data)[1]["items"]]
    data["case"]["kitchen"]["fixed"] = [{"day": "tue", "time": "12:30", "foods": foods}]
    meals(data)[1]["ends"] = "12:35"
    assert bench.broken(data) == []
    meals(data)[1]["ends"] = "12:30"
    assert ["0 min to eat it" in says for says in bench.broken(data)] == [True]


def test_a_meal_before_a_session_without_a_window_says_its_minutes_too(bench: Any) -> None:
    data = bench.data()
    data["case"]["session"][0] |= {"effort": "easy", "minutes": 40}
    data["days"][0]["sessions"][0] |= {"effort": "easy", "minutes": 40, "ends": "18:40"}
    meals(data)[3]["ends"] = "18:40"
    assert bench.broken(data) == []
    meals(data)[2]["lead_minutes"] = None
    assert ["minutes to it are not said" in says for says in bench.broken(data)] == [True]
