"""The plan day: from waking to the next waking, with night shifts, races in the night and days that differ."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mealopt.core.clock import DAYS, clock
from mealopt.errors import BadInput
from mealopt.people.case import Case
from mealopt.people.notes import case_notes
from mealopt.people.reading import case_from_dict

Read = Callable[..., Case]
NEVER = 'never = ["liver",\n  "cod"]'
RUN = ('start = "07:30"\nminutes = 75', 'start = "{}"\nminutes = {}')


def at(start: str, minutes: int) -> tuple[str, str]:
    """The change that moves the small case's run."""
    return RUN[0], RUN[1].format(start, minutes)


def test_an_ordinary_day(read: Read) -> None:
    day = read().kitchen_on("tue")
    assert (day.wake, day.sleep, day.next_wake) == (390, 1350, 1830)
    assert (day.cook_minutes, day.meals_per_day, day.away, day.can_cook) == (60, 4, "", None)
    assert (day.away_from, day.away_to, day.budget, day.fixed) == (None, None, None, ())


def test_a_day_that_differs(read: Read) -> None:
    entry = (
        '[[kitchen.day]]\nday = "wed"\nwake = "04:45"\ncook_minutes = 15\nmeals_per_day = 6\nbudget_per_day = 9.5\n'
        'can_cook = ["17:00-21:00", "05:00-08:00"]\naway = "microwave"\naway_from = "08:00"\naway_to = "17:00"'
    )
    case = read((NEVER, entry))
    day = case.kitchen_on("wed")
    assert (day.wake, day.sleep, day.cook_minutes, day.meals_per_day, day.budget) == (285, 1350, 15, 6, 9.5)
    assert day.can_cook == ((300, 480), (1020, 1260))
    assert (day.away, day.away_from, day.away_to) == ("microwave", 480, 1020)
    assert case.kitchen_on("tue").next_wake == 285 + 1440
    assert case.kitchen_on("thu").wake == 390


def test_no_stove_is_not_a_stove_all_day(read: Read) -> None:
    case = read(
        ('wake = "06:30"', 'can_cook = ["06:30-08:00"]'), (NEVER, '[[kitchen.day]]\nday = "sat"\ncan_cook = []')
    )
    assert case.kitchen_on("sat").can_cook == ()
    assert case.kitchen_on("fri").can_cook == ((390, 480),)


def test_a_night_shift(read: Read) -> None:
    case = read(('"06:30"', '"15:00"'), ('"22:30"', '"07:00"'), ("07:30", "25:30"))
    day = case.kitchen_on("tue")
    assert (day.wake, day.sleep, day.next_wake) == (900, 1860, 2340)
    assert [session.start_minute for session in case.sessions_on("tue")] == [1050, 1530]


def test_sunday_ends_with_mondays_waking(read: Read) -> None:
    case = read((NEVER, '[[kitchen.day]]\nday = "mon"\nwake = "05:00"'))
    assert case.kitchen_on("sun").next_wake == 300 + 1440


def test_midnight_may_be_crossed(read: Read) -> None:
    case = read((NEVER, '[[kitchen.day]]\nday = "tue"\nsleep = "01:30"'), at("23:30", 90))
    run = case.sessions_on("tue")[1]
    assert (run.start_minute, run.end_minute) == (1410, 1500)
    assert case.kitchen_on("tue").sleep == 1530


def test_an_early_race_moves_waking_and_says_so(read: Read) -> None:
    case = read(at("05:00", 75), ('"hard"', '"race"'))
    assert case.kitchen_on("tue").wake == 240
    assert case.kitchen_on("mon").next_wake == 240 + 1440
    assert "tue: a race begins before 06:30, so waking is taken as 04:00" in case_notes(case)


def test_a_late_race_moves_sleep_and_says_so(read: Read) -> None:
    case = read(at("20:00", 240), ('"hard"', '"race"'))
    assert case.kitchen_on("tue").sleep == 1500
    assert "tue: a session ends after 22:30, so sleep is taken as 25:00" in case_notes(case)


def test_a_race_through_the_night_ends_at_the_latest_on_waking(read: Read) -> None:
    day = read(at("19:00", 690), ('"hard"', '"race"')).kitchen_on("tue")
    assert day.sleep == day.next_wake == 1830


def test_a_minute_past_the_next_waking_is_too_late(read: Read) -> None:
    with pytest.raises(BadInput, match=r"ends at 30:31; at the latest it may end at 30:30, the next waking on wed"):
        read(at("19:00", 691), ('"hard"', '"race"'))


def test_an_early_race_shortens_the_night_before(read: Read) -> None:
    case = read(('"22:30"', '"02:00"'), at("02:15", 75), ('"hard"', '"race"'))
    assert case.kitchen_on("mon").sleep == case.kitchen_on("mon").next_wake == 75 + 1440
    assert "mon: a race moves the next waking, so sleep is taken as 25:15" in case_notes(case)


def test_a_waking_of_its_own_holds_even_against_a_race(read: Read) -> None:
    with pytest.raises(BadInput, match="in sleeping hours"):
        read((NEVER, '[[kitchen.day]]\nday = "tue"\nwake = "06:00"'), at("05:00", 75), ('"hard"', '"race"'))


def test_a_day_with_its_own_waking_may_train_in_the_night(read: Read) -> None:
    entry = '[[kitchen.day]]\nday = "tue"\nwake = "01:00"'
    assert read((NEVER, entry), at("01:30", 75)).sessions_on("tue")[0].start_minute == 90
    late = read((NEVER, entry), at("23:00", 75))
    assert late.kitchen_on("tue").sleep == 23 * 60 + 75 + 60


def test_settled_meals_stand_in_order(read: Read) -> None:
    meal = '[[kitchen.fixed]]\nday = "fri"\ntime = "{}"\nwhat = "{}"\n{}\n'
    meals = (
        meal.format("19:30", "dinner out", "energy_kcal = 900")
        + meal.format("08:00", "usual", 'foods = ["oats, rolled=80g", "milk, whole = 200.5 g"]')
        + meal.format("12:30", "canteen", 'dish = "porridge"')
    )
    case = read((NEVER, meals))
    fixed = case.kitchen_on("fri").fixed
    assert [one.minute for one in fixed] == [480, 750, 1170]
    assert fixed[0].portions == (("oats, rolled", 80.0), ("milk, whole", 200.5))
    assert case.kitchen_on("sat").fixed == ()


def test_a_session_knows_what_it_is(read: Read) -> None:
    run, lift = read().sessions_on("tue")
    assert (run.start_minute, run.end_minute, run.endurance, run.hard) == (450, 525, True, True)
    assert (lift.endurance, lift.hard) == (False, False)


def test_sessions_stand_in_order_of_time(read: Read) -> None:
    case = read(("07:30", "19:00"), ('day = "tue"\nstart = "17:30"', 'day = "mon"\nstart = "17:30"'))
    assert [session.day for session in case.session] == ["mon", "tue"]


hours = st.integers(0, 47 * 60 + 59).map(clock)
entries = st.fixed_dictionaries({"day": st.sampled_from(DAYS)}, optional={"wake": hours, "sleep": hours})
sessions = st.fixed_dictionaries(
    {
        "day": st.sampled_from(DAYS),
        "start": hours,
        "minutes": st.integers(5, 1440),
        "kind": st.sampled_from(["run", "ride", "lift"]),
        "effort": st.sampled_from(["easy", "hard", "race"]),
    }
)


@given(
    st.integers(3 * 60, 18 * 60), st.integers(6 * 60, 22 * 60),
    st.lists(entries, max_size=2), st.lists(sessions, max_size=4),
)  # fmt: skip
def test_every_session_lies_in_its_day(wake: int, awake: int, days: list[Any], week: list[Any]) -> None:
    """Whatever is accepted: wake <= start, end <= sleep <= next wake, in order and apart; the rest is refused."""
    athlete = {"name": "a", "sex": "male", "age": 40, "mass_kg": 80, "height_cm": 180}
    kitchen = {"wake": clock(wake), "sleep": clock((wake + awake) % 1440), "day": days}
    data = {"schema": "mealopt/case-1", "athlete": athlete, "kitchen": kitchen, "session": week}
    try:
        case = case_from_dict(data, "case")
    except BadInput:
        return
    assert len(case.session) == len(week)
    for place, name in enumerate(DAYS):
        day = case.kitchen_on(name)
        assert 0 <= day.wake < day.sleep <= day.next_wake
        assert day.next_wake == case.kitchen_on(DAYS[(place + 1) % 7]).wake + 1440
        end = day.wake
        for session in case.sessions_on(name):
            assert end <= session.start_minute
            end = session.end_minute
        assert end <= day.sleep
