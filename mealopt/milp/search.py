"""The state of one staged solve: the best answer so far, its bound, and the clock."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, field

from mealopt.milp.answer import Answer, Status
from mealopt.milp.highs import version

Progress = Callable[[float, float], None]
Stop = Callable[[], bool]


def tolerance(value: float, gap: float, floor: float) -> float:
    """The distance to the bound that a gap allows: gap x max(|value|, floor)."""
    return gap * max(abs(value), floor)


@dataclass(slots=True)
class Search:
    """One run: the best answer so far, its bound, and the clock.

    objective: of the best answer, or the value to beat where none is found yet. ruled_out: no bound may pass it, for
    what could have cost that much was left out. held: combinations looked at, with the bound of each.
    """

    gap: float
    floor: float
    seconds: float
    start: float = field(default_factory=time.perf_counter)
    values: list[float] = field(default_factory=list)
    objective: float = float("inf")
    bound: float = float("-inf")
    ruled_out: float = float("inf")
    held: dict[frozenset[int], float] = field(default_factory=dict)
    progress: Progress | None = None
    stop: Stop | None = None

    def left(self) -> float:
        """Seconds that are left, never less than a blink."""
        return max(0.05, self.seconds - (time.perf_counter() - self.start))

    def over(self) -> bool:
        """Whether the time is used up, or somebody asked to stop."""
        stopped = self.stop is not None and self.stop()
        return stopped or time.perf_counter() - self.start >= self.seconds

    def known(self) -> bool:
        """Whether there is an answer, or the value of one that is to be beaten."""
        return self.objective < float("inf")

    def allowed(self) -> float:
        """Distance to the bound that the gap allows now."""
        return tolerance(self.objective if self.known() else max(self.bound, 0.0), self.gap, self.floor)

    def worth(self) -> float:
        """Only answers below this are worth finding: nothing else beats the best by more than the gap."""
        return self.objective - self.allowed() if self.known() else float("inf")

    def raise_bound(self, bound: float) -> None:
        """Take a bound of all that was not left out."""
        self.bound = max(self.bound, min(bound, self.ruled_out))

    def proven(self) -> bool:
        """Whether the best answer lies within the gap of the bound."""
        return self.objective - self.bound <= self.allowed() + 1e-9

    def offer(self, answer: Answer) -> None:
        """Keep an answer where it is the best."""
        if answer.status.solved and answer.objective < self.objective - 1e-12:
            self.values, self.objective = answer.values, answer.objective
            if self.progress is not None:
                self.progress(self.objective, self.bound)

    def ended(self, status: Status | None = None) -> Answer:
        """The run as an answer; the status follows from value and bound where none is given.

        Without values but with a value to beat, GAP says that nothing beats it by more than the gap.
        """
        if status is None:
            found = bool(self.values) or self.known()
            status = Status.GAP if found and self.proven() else Status.LIMIT if self.values else Status.NOTHING
            if status is Status.GAP and self.objective - self.bound <= 1e-6 * max(1.0, abs(self.bound)):
                status = Status.OPTIMAL
        took = time.perf_counter() - self.start
        bound = min(self.bound, self.objective)
        value = self.objective if self.known() else 0.0
        return Answer(status, self.values, value, bound, took, version())
