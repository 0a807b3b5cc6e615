"""A plan day as the kitchen sees it: from waking to the next waking, in minutes after the day's midnight."""

from __future__ import annotations

from dataclasses import dataclass

from mealopt.core.clock import DAY_MINUTES, DAYS, minutes_of
from mealopt.people.kitchen import Fixed, Kitchen
from mealopt.people.session import Session

#: Minutes awake before a race that begins in sleeping hours, and after a session that ends in them
#: [common practice, no source].
AWAKE_AROUND = 60


@dataclass(frozen=True, slots=True)
class KitchenDay:
    """One plan day. All times are minutes after its midnight; wake < sleep <= next_wake.

    next_wake: the next day's waking plus 1440. can_cook: spans with a stove, None for all day. away: "", no_kitchen,
    microwave or can_buy, between away_from and away_to. budget: in the price list's currency. fixed: settled meals in
    order of time. Every session of the day lies between wake and sleep.
    """

    wake: int
    sleep: int
    next_wake: int
    cook_minutes: int
    away: str
    away_from: int | None
    away_to: int | None
    can_cook: tuple[tuple[int, int], ...] | None
    meals_per_day: int
    budget: float | None
    fixed: tuple[Fixed, ...]


def day_after(day: str) -> str:
    """The next day's name; after "sun" comes "mon"."""
    return DAYS[(DAYS.index(day) + 1) % len(DAYS)]


def wake_on(kitchen: Kitchen, sessions: tuple[Session, ...], day: str) -> int:
    """Waking: as written, or earlier for a race before it on a day whose own waking is not written."""
    wake, _ = kitchen.hours(day)
    entry = kitchen.entry(day)
    if entry and entry.wake:
        return wake
    starts = [session.start_minute for session in sessions if session.day == day and session.effort == "race"]
    early = [start for start in starts if start < wake]
    return max(0, min(early) - AWAKE_AROUND) if early else wake


def sleep_on(kitchen: Kitchen, sessions: tuple[Session, ...], day: str) -> int:
    """Sleeping: as written, or later for a session that ends after it; at most the next waking."""
    _, sleep = kitchen.hours(day)
    ends = [session.end_minute for session in sessions if session.day == day]
    late = [end + AWAKE_AROUND for end in ends if end > sleep]
    return min(max([sleep, *late]), wake_on(kitchen, sessions, day_after(day)) + DAY_MINUTES)


def kitchen_day(kitchen: Kitchen, sessions: tuple[Session, ...], day: str) -> KitchenDay:
    """The kitchen of one plan day, with what differs on it."""
    entry = kitchen.entry(day)
    away_from, away_to = away_hours(kitchen, day)
    budget = entry.budget_per_day if entry and entry.budget_per_day is not None else kitchen.budget_per_day
    return KitchenDay(
        wake=wake_on(kitchen, sessions, day),
        sleep=sleep_on(kitchen, sessions, day),
        next_wake=wake_on(kitchen, sessions, day_after(day)) + DAY_MINUTES,
        cook_minutes=kitchen.cook_minutes if entry is None or entry.cook_minutes is None else entry.cook_minutes,
        away=entry.away if entry else "",
        away_from=away_from,
        away_to=away_to,
        can_cook=kitchen.stove(day),
        meals_per_day=kitchen.meals_per_day if entry is None or entry.meals_per_day is None else entry.meals_per_day,
        budget=budget,
        fixed=tuple(sorted((meal for meal in kitchen.fixed if meal.day == day), key=lambda meal: meal.minute)),
    )


def away_hours(kitchen: Kitchen, day: str) -> tuple[int | None, int | None]:
    """Leaving home and coming back on this day, in minutes; None and None on a day at home."""
    entry = kitchen.entry(day)
    if entry is None or entry.away_from is None or entry.away_to is None:
        return None, None
    return minutes_of(entry.away_from), minutes_of(entry.away_to)
