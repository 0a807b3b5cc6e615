"""What must fit together across the case: sessions against each other, the day's hours and a body's energy."""

from __future__ import annotations

from mealopt.core.clock import DAY_MINUTES, DAYS, clock
from mealopt.people.athlete import Athlete
from mealopt.people.days import day_after, sleep_on, wake_on
from mealopt.people.fields import case_complaint
from mealopt.people.kitchen import Kitchen
from mealopt.people.session import Session

#: kcal per kg of body mass and hour that no session exceeds. The highest value of the 2024 Compendium is 23.0 MET
#: (12135, running 14 mph; Herrmann et al. 2024), at 1 kcal/kg/h each; 25 leaves room for resting energy and rounding.
HOURLY_MOST = 25.0
#: kcal per kg that a plan day's sessions do not exceed: 250 km of running at 1 kcal/kg/km (ACSM, level running)
#: [common practice, no source for the distance].
DAILY_MOST = 250.0

WEEK_MINUTES = 7 * DAY_MINUTES


def check_sessions(athlete: Athlete, kitchen: Kitchen, sessions: tuple[Session, ...]) -> None:
    """Check sessions in the order of the file. Raises a complaint with the key of the first that does not fit."""
    for index, session in enumerate(sessions):
        _check_start(kitchen, sessions, index, session)
        _check_energy(athlete, index, session)
    _check_overlaps(sessions)
    for index, session in enumerate(sessions):
        _check_end(kitchen, sessions, index, session)
    _check_days_energy(athlete, sessions)


def check_fixed(kitchen: Kitchen, sessions: tuple[Session, ...]) -> None:
    """Check that settled meals fall in waking hours, outside sessions, and one at a time."""
    for index, meal in enumerate(kitchen.fixed):
        path = ("kitchen", "fixed", index, "time")
        wake, sleep = wake_on(kitchen, sessions, meal.day), sleep_on(kitchen, sessions, meal.day)
        if not wake <= meal.minute < sleep:
            raise case_complaint(
                f'read "{meal.time}" on {meal.day}; a time between waking at {clock(wake)} and sleeping at '
                f"{clock(sleep)} is expected (after midnight: 25:30)",
                *path,
            )
        for session in sessions:
            if session.day == meal.day and session.start_minute <= meal.minute < session.end_minute:
                raise case_complaint(
                    f'read "{meal.time}" on {meal.day}, which is in the {session.kind} from {session.start} to '
                    f"{clock(session.end_minute)}; a time outside sessions is expected",
                    *path,
                )
        if any(other.day == meal.day and other.minute == meal.minute for other in kitchen.fixed[:index]):
            raise case_complaint(
                f'read "{meal.time}" on {meal.day} a second time; one settled meal at a time is allowed', *path
            )


def _check_start(kitchen: Kitchen, sessions: tuple[Session, ...], index: int, session: Session) -> None:
    wake = wake_on(kitchen, sessions, session.day)
    following = day_after(session.day)
    next_wake = wake_on(kitchen, sessions, following) + DAY_MINUTES
    start = session.start_minute
    if start < wake:
        raise case_complaint(
            f'read "{session.start}" on {session.day}, in sleeping hours; a start after waking at {clock(wake)} is '
            f"expected, or a waking of its own in [[kitchen.day]], or {clock(start + DAY_MINUTES)} on the day before",
            "session", index, "start",
        )  # fmt: skip
    if start >= next_wake:
        raise case_complaint(
            f'read "{session.start}" on {session.day}, after the next waking; it is expected on {following} at '
            f"{clock(start - DAY_MINUTES)}",
            "session", index, "start",
        )  # fmt: skip


def _check_end(kitchen: Kitchen, sessions: tuple[Session, ...], index: int, session: Session) -> None:
    following = day_after(session.day)
    next_wake = wake_on(kitchen, sessions, following) + DAY_MINUTES
    end = session.end_minute
    if end > next_wake:
        raise case_complaint(
            f"read {session.minutes} from {session.start} on {session.day}, which ends at {clock(end)}; at the latest "
            f"it may end at {clock(next_wake)}, the next waking on {following}",
            "session", index, "minutes",
        )  # fmt: skip
    _, sleep = kitchen.hours(session.day)
    entry = kitchen.entry(session.day)
    if end > sleep and session.effort != "race" and not (entry and entry.wake):
        raise case_complaint(
            f'read "{session.start}" on {session.day} for {session.minutes} min, which ends at {clock(end)} in '
            f"sleeping hours; an end by {clock(sleep)} is expected, a race, or a waking and sleep of its own in "
            "[[kitchen.day]]",
            "session", index, "start",
        )  # fmt: skip


def _check_overlaps(sessions: tuple[Session, ...]) -> None:
    """Sessions of the week in order of time, the last against the first of the week after."""

    def at(index: int) -> int:
        return DAYS.index(sessions[index].day) * DAY_MINUTES + sessions[index].start_minute

    order = sorted(range(len(sessions)), key=at)
    for place, later in enumerate(order):
        earlier = order[place - 1]
        gap = at(later) - at(earlier) + (WEEK_MINUTES if place == 0 else 0)
        first, second = sessions[earlier], sessions[later]
        if gap < first.minutes and len(sessions) > 1:
            raise case_complaint(
                f'read "{second.start}" on {second.day}, while the {first.kind} that starts on {first.day} at '
                f"{first.start} lasts until {clock(first.end_minute)} of its day; a start after its end is expected",
                "session", later, "start",
            )  # fmt: skip


def _check_energy(athlete: Athlete, index: int, session: Session) -> None:
    if session.active_kcal is None:
        return
    most = HOURLY_MOST * athlete.mass_kg * session.minutes / 60
    if session.active_kcal > most:
        raise case_complaint(
            f"read {session.active_kcal:g} in {session.minutes} min; no body of {athlete.mass_kg:g} kg burns over "
            f"{most:.0f} kcal in that time ({HOURLY_MOST:g} kcal per kg and hour are allowed): was it kilojoules?",
            "session", index, "active_kcal",
        )  # fmt: skip


def _check_days_energy(athlete: Athlete, sessions: tuple[Session, ...]) -> None:
    most = DAILY_MOST * athlete.mass_kg
    for day in DAYS:
        given = [(at, one.active_kcal) for at, one in enumerate(sessions) if one.day == day and one.active_kcal]
        total = sum(energy for _, energy in given)
        if total > most:
            raise case_complaint(
                f"read {total:.0f} kcal for the sessions of {day} together; no body of {athlete.mass_kg:g} kg burns "
                f"over {most:.0f} kcal in a day ({DAILY_MOST:g} kcal per kg are allowed)",
                "session", given[-1][0], "active_kcal",
            )  # fmt: skip
