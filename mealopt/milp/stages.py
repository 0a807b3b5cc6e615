"""A program whose choices come in groups (one option of each), solved in stages to a proven gap.

The linear program first: its value bounds every answer, and its reduced costs tell which options matter. Then only the
options are whole numbers and all else is continuous: that is quick, and its answer names one option a group. Those are
held and the rest is solved in whole numbers: small. This is done first among the options that the linear program leans
on, for a first answer; what cannot beat it by more than the gap is then ruled out by reduced cost, and the same is done
among all that are left, for the bound. Where answer and bound are still too far apart, the combination is cut off and
the next best looked at; the bound is then the lower of the next combination's and those cut off. Last, the whole
program from the best found.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from mealopt.milp.answer import Answer, Relaxation, Status
from mealopt.milp.highs import Highs, version
from mealopt.milp.model import Model

#: Combinations looked at before the whole program is; seconds for one; share of the gap that each stage may keep.
COMBINATIONS = 3
SECONDS_EACH = 1.5
KEEP = 0.3

#: Options of a group in the first look: always this many, and more where the linear program uses them.
LOOKED_AT, LOOKED_AT_MOST, USED = 2, 4, 0.02

#: The solver's dives from a found answer: they do not pay where only options are whole (a quarter of the time).
DIVES = ("mip_heuristic_run_rins", "mip_heuristic_run_rens")

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

    def allowed(self) -> float:
        """Distance to the bound that the gap allows now."""
        known = self.objective if self.objective < float("inf") else max(self.bound, 0.0)
        return tolerance(known, self.gap, self.floor)

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
            found = bool(self.values) or self.objective < float("inf")
            status = Status.GAP if found and self.proven() else Status.LIMIT if self.values else Status.NOTHING
            if status is Status.GAP and self.objective - self.bound <= 1e-6 * max(1.0, abs(self.bound)):
                status = Status.OPTIMAL
        took = time.perf_counter() - self.start
        bound = min(self.bound, self.objective)
        value = self.objective if self.objective < float("inf") else 0.0
        return Answer(status, self.values, value, bound, took, version())


def solve_in_stages(
    model: Model,
    groups: Sequence[Sequence[int]],
    gap: float = 0.01,
    floor: float = 1.0,
    seconds: float = 20.0,
    progress: Progress | None = None,
    decisive: Sequence[int] = (),
    beat: float = float("inf"),
    stop: Stop | None = None,
) -> Answer:
    """Minimise the model. groups: 0/1 columns of which exactly one a group is 1; decisive: further whole-number columns
    that the first stage must not split, such as those that cost something themselves. beat: the value of an answer that
    is known already; the run then ends, without values, as soon as nothing beats it by more than the gap.

    The bound given holds for the whole model. Status INFEASIBLE is proven; LIMIT has a solution without the gap asked
    for; NOTHING has none. progress: called with value and bound when the value falls. stop: asked while it runs;
    True ends it as the time would, with the best so far.
    """
    search = Search(gap, floor, seconds, objective=beat, progress=progress, stop=stop)
    engine = Highs(model, stop)
    switches = [column for group in groups for column in group]
    first = {*switches, *decisive}
    others = [column for column, whole in enumerate(model.whole) if whole and column not in first]
    relaxed = engine.relax()
    if not relaxed.status.solved:
        return search.ended(relaxed.status)
    search.bound = relaxed.objective
    engine.set_whole(others, False)
    _rule_out(engine, switches, relaxed, search)
    if search.proven() or (beat == float("inf") and _first_look(engine, groups, switches, others, relaxed, search)):
        return search.ended()
    exhausted = _combinations(engine, switches, others, search)
    if exhausted and search.objective == float("inf"):
        return search.ended(Status.INFEASIBLE)
    if not exhausted and not search.proven() and not search.over():
        return search.ended(_whole(engine, others, search))
    return search.ended()


def _first_look(
    engine: Highs,
    groups: Sequence[Sequence[int]],
    switches: list[int],
    others: list[int],
    relaxed: Relaxation,
    search: Search,
) -> bool:
    """An answer from the options that the linear program leans on, and by it what is ruled out; whether that is all."""
    off: list[int] = []
    for group in groups:
        ranked = sorted(group, key=lambda column: (-relaxed.values[column], relaxed.reduced_costs[column]))
        for place, column in enumerate(ranked):
            if place >= LOOKED_AT and (place >= LOOKED_AT_MOST or relaxed.values[column] < USED):
                off.append(column)
    engine.set_most(off, 0.0)
    keep = KEEP * search.allowed()
    named = _name(engine, search, keep)
    engine.set_most(off)
    if not named.status.solved:
        return False
    held = _hold(engine, switches, others, named, search, search.bound + search.allowed(), keep)
    search.offer(held)
    if search.proven():
        return True
    _rule_out(engine, switches, relaxed, search)
    return False


def _rule_out(engine: Highs, switches: list[int], relaxed: Relaxation, search: Search) -> None:
    """Leave out the options that cannot beat the best by more than the gap, by their reduced cost."""
    if search.objective == float("inf"):
        return
    threshold = search.ruled_out = search.objective - search.allowed()
    engine.rule_out(
        column
        for column in switches
        if relaxed.values[column] < 1e-7 and relaxed.objective + relaxed.reduced_costs[column] >= threshold
    )


def _name(engine: Highs, search: Search, keep: float) -> Answer:
    """One option a group, all else continuous. The answer matters less than the bound: no dives from a found one."""
    for option in DIVES:
        engine.option(option, False)
    named = engine.solve(1e-9, search.left(), gap_absolute=keep)
    for option in DIVES:
        engine.option(option, True)
    return named


def _hold(
    engine: Highs,
    switches: list[int],
    others: list[int],
    named: Answer,
    search: Search,
    goal: float,
    keep: float,
) -> Answer:
    """The whole-number answer with the named options held."""
    on = frozenset(column for column in switches if named.values[column] > 0.5)
    if on in search.held:
        return Answer(Status.NOTHING, [], 0.0, search.held[on], 0.0, "")
    engine.set_whole(others, True)
    engine.set_most((column for column in switches if named.values[column] <= 0.5), 0.0)
    held = engine.solve(1e-9, min(SECONDS_EACH, search.left()), gap_absolute=keep, target=goal)
    engine.set_most(switches)
    engine.set_whole(others, False)
    search.held[on] = float("inf") if held.status is Status.INFEASIBLE else held.bound
    return held


def _combinations(engine: Highs, switches: list[int], others: list[int], search: Search) -> bool:
    """Look at one combination of options after the other; whether all that matter were looked at to their end."""
    behind = float("inf")
    for _ in range(COMBINATIONS):
        keep = KEEP * search.allowed()
        chosen = _name(engine, search, keep)
        if chosen.status is Status.INFEASIBLE:
            search.bound = max(search.bound, min(behind, search.objective, search.ruled_out))
            return behind == float("inf") or search.proven()
        if not chosen.status.solved:
            return False
        search.bound = max(search.bound, min(chosen.bound, behind, search.ruled_out))
        on = [column for column in switches if chosen.values[column] > 0.5]
        held = _hold(engine, switches, others, chosen, search, search.bound + search.allowed(), keep)
        search.offer(held)
        if search.proven():
            return True
        if search.over():
            return False
        behind = min(behind, search.held[frozenset(on)])
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
        search.bound = max(search.bound, min(answer.bound, search.ruled_out))
    if answer.status is not Status.INFEASIBLE:
        return None
    if search.objective == float("inf"):
        return Status.INFEASIBLE
    search.bound = max(search.bound, search.ruled_out)
    return None
