"""What a solve gives back: status and solution as small types, so that no string is compared twice."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Status(Enum):
    """How a solve ended.

    OPTIMAL: proven within the solver's own tolerance. GAP: a solution, proven within the gap asked for. LIMIT: a
    solution, but time ended the proof. NOTHING: time ended before any solution. INFEASIBLE: proven that there is none.
    UNBOUNDED: the objective has no end. STOPPED: by hand.
    """

    OPTIMAL = "optimal"
    GAP = "gap"
    LIMIT = "limit"
    NOTHING = "nothing"
    INFEASIBLE = "infeasible"
    UNBOUNDED = "unbounded"

    @property
    def solved(self) -> bool:
        """Whether there is a solution to read."""
        return self in (Status.OPTIMAL, Status.GAP, Status.LIMIT)


@dataclass(frozen=True, slots=True)
class Answer:
    """The end of one solve of a program with whole-number columns.

    values: one a column (empty where nothing was found). objective, bound: same unit as the costs. seconds: wall time.
    """

    status: Status
    values: list[float]
    objective: float
    bound: float
    seconds: float
    solver: str

    def gap(self, floor: float = 1e-9) -> float:
        """(value - bound) / max(|value|, floor), never below zero."""
        return max(0.0, abs(self.objective - self.bound) / max(abs(self.objective), floor))


@dataclass(frozen=True, slots=True)
class Relaxation:
    """The end of one linear program: whole-number columns taken as continuous.

    duals: one a row, the change of the objective per unit of that row's limit; reduced_costs: one a column.
    """

    status: Status
    values: list[float]
    objective: float
    duals: list[float]
    reduced_costs: list[float]
    seconds: float
