"""The case with what happened to the day's sessions, and the day's targets that follow from it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from mealopt.core.bands import Band
from mealopt.core.clock import clock, minutes_of
from mealopt.core.nutrients import ENERGY
from mealopt.documents.plan import PlanDay
from mealopt.errors import BadInput, Refused
from mealopt.people.case import Case, OwnBand
from mealopt.people.reading import case_from_dict, case_to_dict
from mealopt.plans.replan.events import Events, NewSession
from mealopt.targets.day import day_targets
from mealopt.targets.model import DayTargets

#: Share of its aim that a day's energy may lie off it.
ENERGY_ROOM = 0.02

#: A day is raised back to its floor where it lies more than this under it, kcal.
TRIFLE = 1.0


@dataclass(frozen=True, slots=True)
class ChangedDay:
    """The case of now. numbers: old number of a session -> its number of now, None where it is off; new: numbers of
    new sessions. words: what is to be said of it."""

    case: Case
    targets: DayTargets
    numbers: dict[int, int | None]
    new: frozenset[int]
    words: tuple[str, ...]


def changed_day(case: Case, entry: PlanDay, events: Events) -> ChangedDay:
    """The case with these sessions off and these new. Raises BadInput and Refused, as a case file with them would."""
    day, sessions = entry.day, case.sessions_on(entry.day)
    for number in events.off:
        if not 1 <= number <= len(sessions):
            raise BadInput(f"--session-off: read {number}; {_sessions_there(day, len(sessions))}")
    data = case_to_dict(case)
    written = data.get("session", [])
    mine = [index for index, one in enumerate(written) if one["day"] == day]
    off = {mine[number - 1] for number in events.off}
    kept = [one for index, one in enumerate(written) if index not in off]
    found = _read({**data, "session": kept}, events.sessions, day).beside(case.folder)
    now = found.sessions_on(day)
    times = [one.start_minute for one in now]
    numbers = {
        number: None if number in events.off else times.index(one.start_minute) + 1
        for number, one in enumerate(sessions, start=1)
    }
    new = frozenset(times.index(minutes_of(one.start)) + 1 for one in events.sessions)
    targets = day_targets(found, day)
    words = [f"session {number} ({sessions[number - 1].kind} at {sessions[number - 1].start}) is off"
             for number in events.off]  # fmt: skip
    if events.off:
        targets, said = _not_below(case, found, entry, targets)
        words += said
    return ChangedDay(found, targets, numbers, new, tuple(words))


def _sessions_there(day: str, count: int) -> str:
    if count == 0:
        return f"{day} has no session"
    return f"{day} has session{'s 1 to ' if count > 1 else ' '}{count}"


def _read(data: dict[str, Any], sessions: Sequence[NewSession], day: str) -> Case:
    """The case with the new sessions, one after another, so that a refusal names the one that is wrong."""
    case = case_from_dict(data, "the plan, case")
    for one in sessions:
        data = {**data, "session": [*data["session"], one.data(day)]}
        case = case_from_dict(data, f'--session "{one.words}"')
    return case


def _not_below(before: Case, case: Case, entry: PlanDay, targets: DayTargets) -> tuple[DayTargets, list[str]]:
    """A session that is off takes the day below neither its baseline nor what it was planned to, if that was less.

    The baseline is that of the week as it was: the hours of a lifting session that is off stand in it still.
    """
    was = entry.targets[ENERGY].aim or 0.0
    aim = targets.bands[ENERGY].aim or 0.0
    floor = min(max(targets.baseline_kcal, day_targets(before, entry.day).baseline_kcal), was)
    if aim >= floor - TRIFLE:
        return targets, []
    said = [f"the day is not taken below its baseline for a session that is off: {floor:,.0f} kcal stand"]
    return raised(case, entry.day, targets, floor), said


def raised(case: Case, day: str, targets: DayTargets, floor: float) -> DayTargets:
    """The day's targets with its energy at this floor, kcal, and the rest as follows from that."""
    own = any(band.nutrient == ENERGY and band.slot is None and band.meal is None for band in case.goal.band)
    if not own:
        energy = OwnBand.model_validate(
            {"nutrient": ENERGY, "day": day, "least": _down(floor), "aim": round(floor, 1), "most": _up(floor)}
        )
        goal = case.goal.model_copy(update={"band": (*case.goal.band, energy)})
        try:
            return _with_energy(day_targets(case.model_copy(update={"goal": goal}), day), floor)
        except (BadInput, Refused):
            pass
    return _with_energy(targets, floor)


def _with_energy(targets: DayTargets, kcal: float) -> DayTargets:
    band = Band(_down(kcal), round(kcal, 1), _up(kcal))
    return replace(targets, bands={**targets.bands, ENERGY: band})


def _down(kcal: float) -> float:
    return round((1 - ENERGY_ROOM) * kcal, 1)


def _up(kcal: float) -> float:
    return round((1 + ENERGY_ROOM) * kcal, 1)


def day_hours(case: Case, day: str) -> tuple[int, int]:
    """Waking of the plan day and the waking that ends it, in minutes."""
    kitchen = case.kitchen_on(day)
    return kitchen.wake, kitchen.next_wake


def check_now(case: Case, entry: PlanDay, now: int) -> None:
    """Raise BadInput where this minute is not one of the plan day, or lies before it was planned anew already."""
    wake, ends = day_hours(case, entry.day)
    if not wake <= now < ends:
        later = f"; after midnight write {clock(now + 1440)}" if now < wake and now + 1440 < ends else ""
        raise BadInput(
            f"--now: read {clock(now)}; {entry.day} runs from waking at {clock(wake)} to the next waking at "
            f"{clock(ends)}{later}"
        )
    if entry.now is not None and now < minutes_of(entry.now):
        raise BadInput(
            f"--now: read {clock(now)}; this day was planned anew at {entry.now} already, and a later time is expected"
        )
