"""The main meal after a session, moved forward to within the hour: no long wait for food once home."""

from __future__ import annotations

from dataclasses import replace

from mealopt.targets.mealtimes import COOKING_AFTER, GRID, MAIN_APART, MAIN_MINUTES, Occasion, WakingDay
from mealopt.targets.windows import TimedSession

#: A main meal later than this after a session is moved forward, min; so late it is moved to (ISSN 2017 and ACSM/AND/DC
#: 2016 have food soon after; the minutes are the project's assumption), and so far at most.
LATE, WANTED, MOST_MOVED = 60, 45, 90

#: The meal after it is no further away than this, min, once it is moved.
STRETCH = 400


def sooner(day: WakingDay, meals: list[Occasion]) -> list[Occasion]:
    """The meals, the main ones that lie late after a session moved forward where the day has room for it."""
    found = sorted(meals, key=lambda meal: meal.start)
    for session in day.sessions:
        place = next((number for number, meal in enumerate(found) if meal.start >= session.end), None)
        if place is None or session.window_steps == 0:
            continue
        start = _start(day, found, place, session)
        if start is not None:
            found[place] = replace(found[place], start=start, end=start + MAIN_MINUTES)
    return found


def _start(day: WakingDay, meals: list[Occasion], place: int, session: TimedSession) -> int | None:
    """When the meal at this place may begin instead; None where it stays."""
    meal = meals[place]
    if not meal.main or meal.settled is not None or meal.start - session.end <= LATE:
        return None
    wanted = -(-(session.end + WANTED) // GRID) * GRID
    before = meals[place - 1].start if place else -10_000
    after = meals[place + 1].start if place + 1 < len(meals) else wanted
    stands = [
        start
        for start in range(wanted, session.end + COOKING_AFTER - 1, -GRID)
        if day.free(start, MAIN_MINUTES)
        and meal.start - start <= MOST_MOVED
        and start - before >= MAIN_APART
        and after - start <= STRETCH
        and day.tightness(start + MAIN_MINUTES) <= day.tightness(meal.end)
    ]
    return next(iter(stands), None)
