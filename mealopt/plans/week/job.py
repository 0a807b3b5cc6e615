"""What is asked of one day of a week, and its answer: done here or in another process, so all of it can be sent."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from mealopt.documents.plan import PlanDay
from mealopt.people.case import Case
from mealopt.rules.weekly.ahead import Pot
from mealopt.rules.weekly.shares import Shares


@dataclass(frozen=True, slots=True)
class WeekTask:
    """The week that a process works for. case: as plain data; folder: of the case file; days: in the week's order."""

    case: dict[str, Any]
    folder: str | None
    days: tuple[str, ...]
    use_up: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Ask:
    """One question about one day.

    what: "first", a day that keeps its rules; "alone", its bound by itself; "within", the day given what the others
    count (others), the pots that it could share (pots) and the meals from a pot that the others lack (need); "priced",
    the day with a price for each unit of a row (prices); "reach", the most of each named row; "prices", a price for
    each row, of whatever day. gap: to prove, as a share of the larger of value and floor; seconds: of work. beat: the
    value of an answer that is known. places: plates a slot that it takes at least to have a day at all. base: of the
    day before, for "alone" (`potted.py`).
    """

    what: str
    day: str
    gap: float = 0.01
    seconds: float = 20.0
    others: tuple[Shares, ...] = ()
    prices: Mapping[str, float] = field(default_factory=dict)
    rows: tuple[str, ...] = ()
    beat: float = float("inf")
    pots: tuple[Pot, ...] = ()
    need: float = 0.0
    places: int = 0
    base: float = 0.0
    solver: str = "highs"


@dataclass(frozen=True, slots=True)
class DayAnswer:
    """A day's answer. entry: as the document holds it; None where nothing better than `beat` was found.

    value: the day's own penalty, no charge of the week in it. bound: of what was asked. shares: toward the week's rows.
    reach: row's name -> the most that the day could bring. rows, columns, places: of the last model; plates a slot.
    ceiling: no bound of what was asked can pass it.
    """

    ask: Ask
    entry: PlanDay | None
    value: float
    bound: float
    shares: dict[str, dict[str, float]]
    solver: str = ""
    rows: int = 0
    columns: int = 0
    seconds: float = 0.0
    stopped: bool = False
    reach: Mapping[str, float] = field(default_factory=dict)
    places: int = 0
    ceiling: float = float("inf")


#: Asked while a day is solved; True ends it with the best so far.
Stop = Callable[[], bool]


def task_of(case: Case, days: tuple[str, ...], use_up: Mapping[str, float]) -> WeekTask:
    """The task of a case."""
    from mealopt.people.reading import case_to_dict

    folder = None if case.folder is None else str(case.folder)
    return WeekTask(case_to_dict(case), folder, days, dict(use_up))
