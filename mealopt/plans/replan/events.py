"""What happened that the plan did not know: read from words such as "pizza=350g" and "17:00 60 run hard"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from mealopt.core.clock import clock, minutes_of
from mealopt.errors import BadInput

_ATE = re.compile(
    r"^(?P<name>.*\S)\s*=\s*(?P<amount>\d{1,5}(?:\.\d{1,3})?)\s*(?P<unit>g|kcal)(?:\s+at\s+(?P<time>\d{1,2}:\d{2}))?$"
)
_SESSION = re.compile(r"^(?P<start>\d{1,2}:\d{2})\s+(?P<minutes>\d{1,4})\s+(?P<kind>[a-z]+)\s+(?P<effort>[a-z]+)$")

#: The least and the most of one thing that was eaten.
GRAMS, KCAL = (1.0, 3000.0), (1.0, 5000.0)

ATE_EXPECTED = (
    'a food and its grams are expected, like "pizza=350g", or words and an energy, like "dinner out=900kcal"; '
    'a time may follow, like "pizza=350g at 12:30"'
)
SESSION_EXPECTED = 'a start, minutes, kind and effort are expected, like "17:00 60 run hard"'

#: More entries than a day has room for.
MOST = 30


@dataclass(frozen=True, slots=True)
class Ate:
    """Something eaten beside the plan: a food by its grams, or words with an energy alone; one of the two is None.

    minute: when, None where that was not said. words: as they were given.
    """

    name: str
    grams: float | None
    kcal: float | None
    minute: int | None
    words: str


@dataclass(frozen=True, slots=True)
class NewSession:
    """A session that the plan did not know. start: as the case file writes it."""

    start: str
    minutes: int
    kind: str
    effort: str
    words: str

    def data(self, day: str) -> dict[str, object]:
        """As the case file has it."""
        return {"day": day, "start": self.start, "minutes": self.minutes, "kind": self.kind, "effort": self.effort}


def read_now(text: str) -> int:
    """Minutes after the plan day's midnight. Raises BadInput."""
    try:
        return minutes_of(text)
    except ValueError:
        raise BadInput(
            f'--now: read {text[:40]!r}; a time "HH:MM" from 00:00 to 47:59 is expected (after midnight: 25:30)'
        ) from None


def read_ate(text: str) -> Ate:
    """One thing that was eaten. Raises BadInput."""
    found = _ATE.match(text.strip())
    if found is None or len(found["name"]) > 200:
        raise BadInput(f"--ate: read {text[:80]!r}; {ATE_EXPECTED}")
    amount, unit = float(found["amount"]), found["unit"]
    least, most = GRAMS if unit == "g" else KCAL
    if not least <= amount <= most:
        raise BadInput(f"--ate: read {amount:g} {unit} of {found['name']}; {least:g} to {most:g} {unit} are allowed")
    minute = None
    if found["time"]:
        try:
            minute = minutes_of(found["time"])
        except ValueError:
            raise BadInput(f"--ate: read the time {found['time']!r}; 00:00 to 47:59 is expected") from None
    grams, kcal = (amount, None) if unit == "g" else (None, amount)
    return Ate(found["name"].strip(), grams, kcal, minute, text.strip())


def read_session(text: str) -> NewSession:
    """A new session. Raises BadInput; kinds, efforts and hours are left to the case's own checks."""
    found = _SESSION.match(" ".join(text.split()))
    if found is None:
        raise BadInput(f"--session: read {text[:80]!r}; {SESSION_EXPECTED}")
    try:
        start = clock(minutes_of(found["start"]))
    except ValueError:
        raise BadInput(f"--session: read the time {found['start']!r}; 00:00 to 47:59 is expected") from None
    return NewSession(start, int(found["minutes"]), found["kind"], found["effort"], text.strip())


@dataclass(frozen=True, slots=True)
class Events:
    """All that happened, read. now: minutes. skipped: numbers of meals; off: numbers of sessions that did not or will
    not take place."""

    now: int
    ate: tuple[Ate, ...] = ()
    skipped: tuple[int, ...] = ()
    off: tuple[int, ...] = ()
    sessions: tuple[NewSession, ...] = ()

    @property
    def changes_sessions(self) -> bool:
        """Whether the day's work is another than was planned."""
        return bool(self.off or self.sessions)


def read_events(
    now: str,
    ate: Sequence[str] = (),
    skipped: Sequence[int] = (),
    off: Sequence[int] = (),
    sessions: Sequence[str] = (),
) -> Events:
    """All of it from words. Raises BadInput."""
    for name, given in (("--ate", ate), ("--skipped", skipped), ("--session-off", off), ("--session", sessions)):
        if len(given) > MOST:
            raise BadInput(f"{name}: read {len(given)} entries; at most {MOST} are allowed")
    return Events(
        now=read_now(now),
        ate=tuple(read_ate(text) for text in ate),
        skipped=tuple(dict.fromkeys(skipped)),
        off=tuple(dict.fromkeys(off)),
        sessions=tuple(read_session(text) for text in sessions),
    )
