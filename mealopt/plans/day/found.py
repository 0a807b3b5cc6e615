"""What a search for a day comes back with."""

from __future__ import annotations

from dataclasses import dataclass

from mealopt.milp.answer import Answer
from mealopt.plans.day.pose import PosedDay
from mealopt.rules.problem import Problem


@dataclass(frozen=True, slots=True)
class SolvedDay:
    """A day's answer: its problem, the solver's answer, and how long all of it took, in seconds.

    stopped: by hand, before the gap asked for was proven.
    """

    posed: PosedDay
    problem: Problem
    answer: Answer
    seconds: float
    stopped: bool = False


@dataclass(frozen=True, slots=True)
class NothingFits:
    """Proven: nothing meets the rows. empty: labels of slots that no dish fits at all."""

    posed: PosedDay
    empty: tuple[str, ...]
