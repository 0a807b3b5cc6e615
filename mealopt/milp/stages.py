"""A program whose choices come in groups (one option of each), solved in stages to a proven gap.

First only the options are whole numbers, all else is continuous: that is quick, its answer names one option a group,
and its bound holds for the whole program. Then those options are held and the rest is solved in whole numbers: small.
Where the two are still too far apart, that combination is cut off and the next best is looked at; the bound is then
the lower of the next combination's and those that were cut off. Last, the whole program from the best found.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from mealopt.milp.answer import Answer, Status
from mealopt.milp.highs import Highs, version
from mealopt.milp.model import Model

#: Combinations looked at before the whole program is; seconds for one; share of the gap that each stage may keep.
COMBINATIONS = 6
SECONDS_EACH = 1.5
KEEP = 0.3

Progress = Callable[[float, float], None]


def tolerance(value: float, gap: float, floor: float) -> float:
    """The distance to the bound that a gap allows: gap x max(|value|, floor)."""
    return gap * max(abs(value), floor)


@dataclass(slots=True)
class Search:
    """One run: the best answer so far, its bound, and the clock."""

    gap: float
    floor: float
    seconds: float
    start: float = field(default_factory=time.perf_counter)
    values: list[float] = field(default_factory=list)
    objective: float = float("inf")
    bound: float = float("-inf")
    progress: Progress | None = None

    def left(self) -> float:
        """Seconds that are left, never less than a blink."""
        return max(0.05, self.seconds - (time.perf_counter() - self.start))

    def over(self) -> bool:
        """Whether the time is used up."""
        return time.perf_counter() - self.start >= self.seconds

    def allowed(self) -> float:
        """Distance to the bound that the gap allows now."""
        known = self.objective if self.values else max(self.bound, 0.0)
        return tolerance(known, self.gap, self.floor)

    def proven(self) -> bool:
        """Whether the best answer lies within the gap of the bound."""
        return bool(self.values) and self.objective - self.bound <= self.allowed() + 1e-9

    def offer(self, answer: Answer) -> None:
        """Keep an answer where it is the best."""
        if answer.status.solved and answer.objective < self.objective - 1e-12:
            self.values, self.objective = answer.values, answer.objective
            if self.progress is not None:
                self.progress(self.objective, self.bound)

    def ended(self, status: Status | None = None) -> Answer:
        """The run as an answer; the status follows from value and bound where none is given."""
        if status is None:
            status = Status.NOTHING if not self.values else Status.GAP if self.proven() else Status.LIMIT
            if status is Status.GAP and self.objective - self.bound <= 1e-6 * max(1.0, abs(self.bound)):
                status = Status.OPTIMAL
        took = time.perf_counter() - self.start
        bound = min(self.bound, self.objective)
        return Answer(status, self.values, self.objective if self.values else 0.0, bound, took, version())


def solve_in_stages(
    model: Model,
    groups: Sequence[Sequence[int]],
    gap: float = 0.01,
    floor: float = 1.0,
    seconds: float = 20.0,
    progress: Progress | None = None,
    decisive: Sequence[int] = (),
) -> Answer:
    """Minimise the model. groups: 0/1 columns of which exactly one a group is 1; decisive: further whole-number columns
    that the first stage must not split, such as those that cost something themselves.

    The bound given holds for the whole model. Status INFEASIBLE is proven; LIMIT has a solution without the gap asked
    for; NOTHING has none. progress: called with value and bound when the value falls.
    """
    search = Search(gap, floor, seconds, progress=progress)
    engine = Highs(model)
    switches = [column for group in groups for column in group]
    first = {*switches, *decisive}
    others = [column for column, whole in enumerate(model.whole) if whole and column not in first]
    engine.set_whole(others, False)
    exhausted = _combinations(engine, switches, others, search)
    if exhausted and not search.values:
        return search.ended(Status.INFEASIBLE)
    if not exhausted and not search.proven() and not search.over():
        return search.ended(_whole(engine, others, search))
    return search.ended()


def _combinations(engine: Highs, switches: list[int], others: list[int], search: Search) -> bool:
    """Look at one combination of options after the other; whether all that matter were looked at to their end."""
    behind = float("inf")
    for _ in range(COMBINATIONS):
        keep = KEEP * search.allowed()
        chosen = engine.solve(1e-9, search.left(), gap_absolute=keep)
        if chosen.status is Status.INFEASIBLE:
            search.bound = max(search.bound, min(behind, search.objective))
            return behind == float("inf") or search.proven()
        if not chosen.status.solved:
            return False
        search.bound = max(search.bound, min(chosen.bound, behind))
        on = [column for column in switches if chosen.values[column] > 0.5]
        engine.set_whole(others, True)
        engine.set_most((column for column in switches if chosen.values[column] <= 0.5), 0.0)
        goal = search.bound + search.allowed()
        held = engine.solve(1e-9, min(SECONDS_EACH, search.left()), gap_absolute=keep, target=goal)
        engine.set_most(switches)
        engine.set_whole(others, False)
        search.offer(held)
        if search.proven():
            return True
        if search.over():
            return False
        behind = min(behind, float("inf") if held.status is Status.INFEASIBLE else held.bound)
        engine.cut_off(on)
    return False


def _whole(engine: Highs, others: list[int], search: Search) -> Status | None:
    """The whole program, from the best found; INFEASIBLE where it proves that there is none, otherwise None."""
    engine.drop_cuts()
    engine.set_whole(others, True)
    if search.values:
        engine.start_from(search.values)
    answer = engine.solve(search.gap, search.left(), gap_absolute=search.allowed())
    search.offer(answer)
    if answer.status.solved:
        search.bound = max(search.bound, answer.bound)
    return Status.INFEASIBLE if answer.status is Status.INFEASIBLE and not search.values else None
