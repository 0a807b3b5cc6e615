"""Times of a plan day: whole minutes after its midnight, read and written as HH:MM.

A plan day runs from waking to the next waking, so a time after midnight is written 24:00 to 47:59.
"""

from __future__ import annotations

import re

DAY_MINUTES = 24 * 60
DAYS: tuple[str, ...] = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")

_CLOCK = re.compile(r"^(\d{1,2}):([0-5]\d)$")


def minutes_of(text: str) -> int:
    """Minutes after midnight of "HH:MM", 00:00 to 47:59. Raises ValueError on anything else."""
    found = _CLOCK.match(text.strip())
    if not found or int(found[1]) > 47:
        raise ValueError(f"{text!r} is not a time like 07:30 (after midnight: 25:30)")
    return int(found[1]) * 60 + int(found[2])


def clock(minutes: float) -> str:
    """ "HH:MM" of minutes after midnight; 24:00 and more for the small hours that end a plan day."""
    whole = round(minutes)
    return f"{whole // 60:02d}:{whole % 60:02d}"


def on_the_clock(text: str) -> str:
    """A time of the plan day as a clock shows it: "00:15" of "24:15"; others as they are."""
    minutes = minutes_of(text)
    return clock(minutes - DAY_MINUTES) if minutes >= DAY_MINUTES else text


def late(text: str) -> str:
    """What stands behind a time of the plan day that is past midnight: " (after midnight)"; "" for others."""
    return " (after midnight)" if minutes_of(text) >= DAY_MINUTES else ""


def span(text: str) -> tuple[int, int]:
    """Start and end, in minutes, of "HH:MM-HH:MM". Raises ValueError where it does not end after it starts."""
    start, _, end = text.partition("-")
    first, last = minutes_of(start), minutes_of(end)
    if last <= first:
        raise ValueError(f"{text!r} does not end after it starts")
    return first, last
