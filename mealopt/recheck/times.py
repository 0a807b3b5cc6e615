"""The clock of a day: sessions as the case has them, meals in order, none in a session, all while awake."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count, pairwise

from mealopt.core.clock import clock, minutes_of
from mealopt.documents.plan import Meal, PlanDay
from mealopt.recheck.facts import Ahead, Facts, hours, sessions_ahead
from mealopt.recheck.sums import Books
from mealopt.recheck.windows import limits_before
from mealopt.recheck.words import at_meal

#: Eating takes 20 min for a main meal, 10 for others (README, the plan document).
MAIN_MINUTES = 20
OTHER_MINUTES = 10


def broken_times(day: PlanDay, books: Books) -> Iterator[str]:
    """Order, overlaps, waking hours, eating times, and the minutes to the session ahead."""
    yield from _order(day, books)
    if books.facts is None:
        return
    yield from _sessions(day, books.facts)
    ahead = sessions_ahead(books.facts, day.day)
    wake, next_wake = hours(books.facts, day.day)
    for meal in day.meals:
        begins, ends = minutes_of(meal.time), minutes_of(meal.ends)
        place = at_meal(day, meal)
        if begins < wake or ends > next_wake:
            yield f"{place}: not between waking at {clock(wake)} and the next waking at {clock(next_wake)}"
        if meal.eaten:
            # It was eaten when it was, whatever sessions have become known since.
            continue
        met = [session for session in ahead if begins < session.ends and session.begins < ends]
        inside = any(entry.begins <= begins and ends <= entry.ends for entry in met if entry.number)
        if meal.slot == "during" and not inside:
            yield f"{place}: eaten in a session, but none lasts from {meal.time} to {meal.ends}"
        if meal.slot != "during" and met:
            yield f"{place}: runs into {met[0].words}"
        yield from _lead(place, meal, ends, ahead)


def _order(day: PlanDay, books: Books) -> Iterator[str]:
    skipped = {entry.number for entry in day.skipped}
    numbers = (number for number in count(1) if number not in skipped)
    for number, meal in zip(numbers, day.meals, strict=False):
        if meal.number != number:
            yield f"{at_meal(day, meal)}: it is the day's meal {number}, counted from 1"
        lasts = minutes_of(meal.ends) - minutes_of(meal.time)
        least = MAIN_MINUTES if meal.slot in ("breakfast", "lunch", "dinner") else OTHER_MINUTES
        free = meal.slot == "during" or meal.eaten or books.is_settled(day, meal)
        if (lasts < least and not free) or lasts <= 0:
            yield f"{at_meal(day, meal)}: {lasts} min to eat it, {least} min are needed"
    for first, second in pairwise(day.meals):
        if (minutes_of(second.time), minutes_of(second.ends)) < (minutes_of(first.time), minutes_of(first.ends)):
            yield f"{at_meal(day, second)}: stands after a later meal"
        elif minutes_of(second.time) < minutes_of(first.ends) and not first.eaten:
            yield f"{at_meal(day, second)}: begins before meal {first.number} ends at {first.ends}"


def _sessions(day: PlanDay, facts: Facts) -> Iterator[str]:
    written = [
        (entry.number, entry.kind, entry.effort, minutes_of(entry.start), minutes_of(entry.ends), entry.minutes)
        for entry in day.sessions
    ]
    asked = [
        (number, entry.kind, entry.effort, entry.begins, entry.ends, entry.minutes)
        for number, entry in enumerate(facts.sessions_on(day.day), start=1)
    ]
    if written != asked:
        yield f"{day.day}: its {len(written)} sessions are not the {len(asked)} of the case, in order of time"


def _lead(place: str, meal: Meal, ends: int, ahead: list[Ahead]) -> Iterator[str]:
    """The minutes to the session ahead, and whether a meal in a session's window says so."""
    number, said = meal.before_session, meal.lead_minutes
    meant = [session for session in ahead if session.number == number]
    if number is not None and not meant:
        yield f"{place}: there is no session {number} on the day"
    elif said is not None and all(session.begins - ends != said for session in meant):
        found = ", ".join(f"{session.begins - ends} min to {session.words}" for session in meant[:1])
        yield f"{place}: {said} min to a session are said; {found or 'none follows on the next day'}"
    elif number is not None and said is None:
        yield f"{place}: it stands before session {number}, but its minutes to it are not said"
    if meal.slot == "during":
        return
    nearest = next((session for session in ahead if limits_before(session, ends)), None)
    if nearest is not None and (said is None or (nearest.number is not None and number is None)):
        yield f"{place}: it ends {nearest.begins - ends} min before {nearest.words}, and does not say so"
