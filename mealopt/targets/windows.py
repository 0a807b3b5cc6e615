"""What a meal may hold when a session is ahead: fibre, fat and energy by the minutes between them.

Steps [0,60) [60,120) [120,180) [180,240) minutes from the meal's end to the session's start; of all sessions ahead the
tightest holds. The direction is published (de Oliveira 2014; carbohydrate 1-4 g/kg over 1-4 h, ACSM/AND/DC 2016); the
values of the steps are the project's assumption.
"""

from __future__ import annotations

from dataclasses import dataclass

from mealopt.core.nutrients import FAT, FIBRE

STEP_MINUTES = 60
FIBRE_STEPS_G = (2.0, 4.0, 6.0, 8.0)
FAT_STEPS_G = (5.0, 10.0, 15.0, 20.0)
ENERGY_STEPS_KCAL: tuple[float | None, ...] = (300.0, 500.0, None, None)

#: Easy work shorter than this asks for no window at all.
EASY_WITHOUT_WINDOW_MINUTES = 45

#: An easy walk up to so many minutes is nothing to eat for [common practice, no source].
STROLL_MINUTES = 90


@dataclass(frozen=True, slots=True)
class TimedSession:
    """A session as the clock sees it. number: from 1 in the day; start, end: minutes of this plan day.

    during_g: carbohydrate to eat in it, least and most grams; (0, 0) where nothing is eaten. next_day: it belongs to
    the day after, so only meals before it matter.
    """

    number: int
    start: int
    end: int
    kind: str
    effort: str
    endurance: bool
    during_g: tuple[float, float] = (0.0, 0.0)
    next_day: bool = False

    @property
    def minutes(self) -> int:
        """How long it lasts."""
        return self.end - self.start

    @property
    def stroll(self) -> bool:
        """An easy walk of no great length, which nobody eats for."""
        return self.kind == "walk" and self.effort == "easy" and self.minutes <= STROLL_MINUTES

    @property
    def hard(self) -> bool:
        """Hard work or a race."""
        return self.effort in ("hard", "race")

    @property
    def window_steps(self) -> int:
        """How many of the four steps apply: all for runs, hard work and races, two for the rest, none for short easy
        work."""
        if self.effort == "easy" and self.minutes < EASY_WITHOUT_WINDOW_MINUTES:
            return 0
        return 4 if self.hard or self.kind == "run" else 2


@dataclass(frozen=True, slots=True)
class Window:
    """What a meal that ends at some time must stay under, and the nearest session whose window it stands in."""

    limits: dict[str, float]
    energy_most: float | None
    session: TimedSession | None
    lead_minutes: int | None

    @property
    def tightness(self) -> int:
        """0 where nothing is limited, to 4 within an hour of a session."""
        return 0 if FIBRE not in self.limits else 4 - FIBRE_STEPS_G.index(self.limits[FIBRE])

    @property
    def eaten_for(self) -> bool:
        """Whether a snack in it is food for the session ahead: within two hours of one that is no stroll."""
        return self.tightness >= 3 and not (self.session is not None and self.session.stroll)


def limits_of_lead(minutes: int) -> dict[str, float]:
    """What a meal that ends so many minutes before a session with all its steps may hold; empty from 4 h on."""
    step = minutes // STEP_MINUTES
    return {FIBRE: FIBRE_STEPS_G[step], FAT: FAT_STEPS_G[step]} if 0 <= step < len(FIBRE_STEPS_G) else {}


def window_at(end: int, sessions: tuple[TimedSession, ...]) -> Window:
    """The window that a meal ending at this minute stands in; limits empty where it stands in none."""
    limits: dict[str, float] = {}
    energy: float | None = None
    nearest: TimedSession | None = None
    for session in sorted(sessions, key=lambda entry: entry.start):
        lead = session.start - end
        if lead < 0:
            continue
        step = lead // STEP_MINUTES
        if step >= session.window_steps:
            continue
        nearest = nearest or session
        limits[FIBRE] = min(limits.get(FIBRE, FIBRE_STEPS_G[step]), FIBRE_STEPS_G[step])
        limits[FAT] = min(limits.get(FAT, FAT_STEPS_G[step]), FAT_STEPS_G[step])
        most = ENERGY_STEPS_KCAL[step]
        if most is not None:
            energy = most if energy is None else min(energy, most)
    return Window(limits, energy, nearest, None if nearest is None else nearest.start - end)
