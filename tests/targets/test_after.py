"""When food follows a session: within the hour, and snacks two hours apart where the day has room."""

from __future__ import annotations

from itertools import pairwise

import pytest

from mealopt.core.clock import minutes_of
from mealopt.targets.timing import DayShape, lay_slots
from mealopt.targets.windows import TimedSession


def slots(wake: str, sleep: str, kcal: float, *sessions: tuple[str, str, str, str]) -> list[tuple[str, int, int]]:
    timed = tuple(
        TimedSession(number, minutes_of(start), minutes_of(end), kind, effort, kind != "strength")
        for number, (start, end, kind, effort) in enumerate(sessions, start=1)
    )
    laid = lay_slots(DayShape(minutes_of(wake), minutes_of(sleep), timed, (), kcal, 70.0, 4)).slots
    return [(slot.kind, slot.start, slot.end) for slot in laid]


#: ACSM/AND/DC 2016 and ISSN 2017 have food in the hours after demanding work; the hour is this project's own.
@pytest.mark.parametrize(
    ("wake", "sleep", "session"),
    [
        ("09:30", "25:30", ("20:00", "21:00", "ride", "steady")),
        ("06:30", "22:30", ("10:00", "11:15", "strength", "hard")),
        ("06:00", "22:00", ("16:30", "17:30", "run", "hard")),
        ("05:00", "21:30", ("06:00", "08:00", "run", "steady")),
        ("06:30", "22:30", ("19:00", "20:30", "run", "hard")),
        ("07:00", "23:00", ("12:00", "13:15", "strength", "hard")),
    ],
)
def test_food_follows_within_the_hour(wake: str, sleep: str, session: tuple[str, str, str, str]) -> None:
    end = minutes_of(session[1])
    first = min(start for kind, start, _ in slots(wake, sleep, 2600.0, session) if kind != "during" and start >= end)
    assert 15 <= first - end <= 60


def test_snacks_are_two_hours_from_other_food_where_the_day_has_room() -> None:
    laid = slots("07:00", "23:00", 2600.0, ("17:00", "18:00", "ride", "steady"))
    assert all(later[1] - meal[2] >= 120 for meal, later in pairwise(laid) if "snack" in (meal[0], later[0]))
