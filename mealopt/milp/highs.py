"""The HiGHS engine, in process: PuLP builds the model, its solver object then stays open for several solves.

A day is solved in stages (linear program, restricted program, whole program); building it once for all of them is what
keeps the whole close to the solver's own time.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Sequence
from importlib import metadata
from typing import Any

import highspy
import numpy as np
import pulp

from mealopt.milp.answer import Answer, Relaxation, Status
from mealopt.milp.effort import after
from mealopt.milp.model import Model
from mealopt.milp.pulp_model import build
from mealopt.milp.quiet import open_once_in_silence

open_once_in_silence()

_FOUND = {
    highspy.HighsModelStatus.kOptimal: Status.OPTIMAL,
    highspy.HighsModelStatus.kObjectiveTarget: Status.LIMIT,
    highspy.HighsModelStatus.kObjectiveBound: Status.INFEASIBLE,
    highspy.HighsModelStatus.kTimeLimit: Status.LIMIT,
    highspy.HighsModelStatus.kSolutionLimit: Status.LIMIT,
    highspy.HighsModelStatus.kInterrupt: Status.LIMIT,
    highspy.HighsModelStatus.kIterationLimit: Status.LIMIT,
    highspy.HighsModelStatus.kInfeasible: Status.INFEASIBLE,
    highspy.HighsModelStatus.kUnboundedOrInfeasible: Status.INFEASIBLE,
    highspy.HighsModelStatus.kUnbounded: Status.UNBOUNDED,
    highspy.HighsModelStatus.kModelEmpty: Status.OPTIMAL,
}

#: The engine's searches for answers beside branch and bound, its restarts, and what they are usually set to.
_SEARCHES: dict[str, bool | float] = {
    "mip_heuristic_run_root_reduced_cost": True,
    "mip_heuristic_run_rins": True,
    "mip_heuristic_run_rens": True,
    "mip_heuristic_run_feasibility_jump": True,
    "mip_heuristic_effort": 0.05,
    "mip_allow_restart": True,
}

#: Beyond this an objective is "no solution yet".
_HUGE = 1e29


def version() -> str:
    """Name and version, as the plan document writes it."""
    return f"HiGHS {metadata.version('highspy')}"


def _never() -> bool:
    return False


class Highs:
    """One model, open in the solver. Not thread-safe; one thread a solve (one process a core).

    stop: asked again and again while whole numbers are solved; True ends that solve with the best so far. It must not
    raise: it is called from within the engine.
    """

    def __init__(self, model: Model, stop: Callable[[], bool] | None = None, **options: float | str | bool) -> None:
        self.model = model
        self._built = build(model)
        pulp_engine = pulp.HiGHS(msg=False, threads=1, **options)
        pulp_engine.createAndConfigureSolver(self._built.problem)
        pulp_engine.buildSolverModel(self._built.problem)
        self._engine: highspy.Highs = self._built.problem.solverModel
        self._engine.setOptionValue("random_seed", 0)
        self._most = [highspy.kHighsInf if most is None else most for most in model.most]
        self._sign = -1.0 if model.maximise else 1.0
        self._cuts = 0
        self._stop, self._worked = stop, _never
        self._listens = False
        if stop is not None:
            self._listen()

    def _listen(self) -> None:
        """Let the engine ask again and again whether to end."""
        if self._listens:
            return
        stop = self._stop or _never

        def asked(kind: Any, message: str, out: Any, into: Any, data: Any) -> None:
            into.user_interrupt = stop() or self._worked()

        self._engine.setCallback(asked, None)
        self._engine.startCallback(highspy.cb.HighsCallbackType.kCallbackMipInterrupt)
        self._listens = True

    def option(self, name: str, value: float | str | bool) -> None:
        """Set one of the solver's own options for the solves that follow."""
        self._engine.setOptionValue(name, value)

    def lean(self, lean: bool) -> None:
        """Whether the solves that follow only branch and bound, with no search for answers beside and no restarts.

        Where few columns are whole or the value to beat is known, the searches take four fifths of the time.
        """
        for name, usual in _SEARCHES.items():
            self._engine.setOptionValue(name, type(usual)(0) if lean else usual)

    def set_most(self, columns: Iterable[int], most: float | None = None) -> None:
        """Bound these columns from above; None gives them the model's own bound back."""
        for column in columns:
            self._engine.changeColBounds(column, self.model.least[column], self._most[column] if most is None else most)

    def rule_out(self, columns: Iterable[int]) -> None:
        """Fix these columns at none for good: no later `set_most` gives them back."""
        for column in columns:
            self._most[column] = 0.0
            self._engine.changeColBounds(column, 0.0, 0.0)

    def may(self, column: int) -> bool:
        """Whether this column may be more than none: it was not ruled out."""
        return self._most[column] > 0.0

    def set_least(self, column: int, least: float) -> None:
        """Bound one column from below."""
        self._engine.changeColBounds(column, least, self._most[column])

    def set_whole(self, columns: Sequence[int], whole: bool) -> None:
        """Take these columns as whole numbers, or as continuous, in the solves that follow."""
        kind = highspy.HighsVarType.kInteger if whole else highspy.HighsVarType.kContinuous
        numbers = np.array(sorted(set(columns)), dtype=np.int32)
        if len(numbers):
            self._engine.changeColsIntegrality(len(numbers), numbers, np.array([kind] * len(numbers)))

    def cut_off(self, columns: Sequence[int]) -> None:
        """Forbid that all these 0/1 columns are 1 together."""
        numbers = np.array(sorted(set(columns)), dtype=np.int32)
        ones = np.ones(len(numbers))
        self._engine.addRow(-highspy.kHighsInf, len(numbers) - 1.0, len(numbers), numbers, ones)
        self._cuts += 1

    def drop_cuts(self) -> None:
        """Take back every `cut_off`."""
        if self._cuts:
            rows = len(self._built.row_of)
            self._engine.deleteRows(self._cuts, np.arange(rows, rows + self._cuts, dtype=np.int32))
            self._cuts = 0

    def relax(self) -> Relaxation:
        """Solve with whole-number columns taken as continuous."""
        start = time.perf_counter()
        self._engine.setOptionValue("solve_relaxation", True)
        self._engine.setOptionValue("time_limit", highspy.kHighsInf)
        self._engine.run()
        self._engine.setOptionValue("solve_relaxation", False)
        status = _FOUND.get(self._engine.getModelStatus(), Status.NOTHING)
        seconds = time.perf_counter() - start
        if status is not Status.OPTIMAL:
            return Relaxation(status, [], 0.0, [], [], seconds)
        solution = self._engine.getSolution()
        duals = [0.0] * len(self.model.rows)
        for dual, row in zip(solution.row_dual, self._built.row_of, strict=False):
            duals[row] += self._sign * dual
        return Relaxation(
            status=status,
            values=list(solution.col_value),
            objective=self._sign * self._engine.getObjectiveValue(),
            duals=duals,
            reduced_costs=[self._sign * cost for cost in solution.col_dual],
            seconds=seconds,
        )

    def could_beat(self, column: int, below: float) -> bool:
        """Whether the linear program with this 0/1 column at 1 has a value below this; False where it has none."""
        engine = self._engine
        engine.setOptionValue("solve_relaxation", True)
        engine.setOptionValue("time_limit", highspy.kHighsInf)
        engine.setOptionValue("objective_bound", self._sign * below)
        engine.changeColBounds(column, 1.0, self._most[column])
        engine.run()
        # Both are forgotten as soon as a bound changes.
        ended, value = engine.getModelStatus(), self._sign * engine.getObjectiveValue()
        engine.changeColBounds(column, self.model.least[column], self._most[column])
        engine.setOptionValue("objective_bound", highspy.kHighsInf)
        engine.setOptionValue("solve_relaxation", False)
        if ended == highspy.HighsModelStatus.kOptimal:
            return bool(value < below)
        return ended not in (highspy.HighsModelStatus.kInfeasible, highspy.HighsModelStatus.kObjectiveBound)

    def start_from(self, values: list[float]) -> None:
        """Offer a known solution to the next solve."""
        solution = highspy.HighsSolution()
        solution.col_value = values
        self._engine.setSolution(solution)

    def _run_within(self, seconds: float) -> None:
        self._engine.setOptionValue("time_limit", self._engine.getRunTime() + max(seconds, 0.01))
        self._engine.run()

    def _misvalued(self) -> bool:
        """Whether the engine's objective is not that of its own solution.

        1.16.0 may value an offered solution (start_from) too low once it has presolved the program; whatever is better
        than the true value, but not than that one, is then lost, and it is called optimal.
        """
        values = self._engine.getSolution().col_value
        if self._engine.getInfo().primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
            return False
        true = self._sign * self.model.value(list(values))
        return abs(true - self._engine.getObjectiveValue()) > 1e-5 * max(1.0, abs(true))

    def solve(
        self,
        gap: float = 1e-4,
        seconds: float = 60.0,
        gap_absolute: float = 1e-6,
        target: float | None = None,
        below: float | None = None,
        effort: float | None = None,
    ) -> Answer:
        """Solve with whole numbers until the gap (relative or absolute), the target value or the time is reached.

        seconds: by the clock; effort: of the processor, so that a busy machine answers as an idle one does.
        below: only answers better than this count; INFEASIBLE then says that there is nothing better.
        """
        start = time.perf_counter()
        engine = self._engine
        engine.setOptionValue("mip_rel_gap", gap)
        engine.setOptionValue("mip_abs_gap", gap_absolute)
        engine.setOptionValue("objective_target", -highspy.kHighsInf if target is None else self._sign * target)
        limit = highspy.kHighsInf if below is None else self._sign * below
        engine.setOptionValue("objective_bound", limit)
        if effort is not None:
            self._listen()
        self._worked = _never if effort is None else after(effort)
        self._run_within(seconds)
        if self._misvalued():
            engine.clearSolver()
            self._run_within(seconds - (time.perf_counter() - start))
        engine.setOptionValue("objective_bound", highspy.kHighsInf)
        took = time.perf_counter() - start
        status = _FOUND.get(engine.getModelStatus(), Status.NOTHING)
        if engine.getModelStatus() == highspy.HighsModelStatus.kUnboundedOrInfeasible:
            # With whole numbers the engine does not tell the two apart; the linear program does.
            open_ended = self.relax().status is Status.UNBOUNDED
            return Answer(Status.UNBOUNDED if open_ended else status, [], 0.0, 0.0, took, version())
        info = engine.getInfo()
        found = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
        objective = engine.getObjectiveValue()
        if status.solved and (not found or abs(objective) > _HUGE):
            status = Status.NOTHING
        whole_numbers = any(self.model.whole)
        bound = info.mip_dual_bound if whole_numbers else objective
        if status is Status.OPTIMAL and whole_numbers and objective - bound > 1e-6 * max(1.0, abs(objective)):
            status = Status.GAP
        if status.solved and objective >= limit - 1e-9:
            # Presolve alone may answer, and then asks nobody whether the answer is good enough.
            status = Status.INFEASIBLE if bound >= limit - 1e-9 else Status.NOTHING
            bound = min(bound, limit)
        values = list(engine.getSolution().col_value) if status.solved else []
        return Answer(status, values, self._sign * objective, self._sign * bound, took, version())
