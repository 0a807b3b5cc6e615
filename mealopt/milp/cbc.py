"""The CBC engine that comes with PuLP: the second opinion, in a process of its own."""

from __future__ import annotations

import time
import warnings
from dataclasses import replace
from typing import Any

import pulp

from mealopt.milp.answer import Answer, Relaxation, Status
from mealopt.milp.model import Model
from mealopt.milp.pulp_model import Built, build

NAME = "CBC (the one that comes with PuLP)"


def _engine(**options: Any) -> pulp.LpSolver:
    # PuLP 4 takes CBC out of the package; until then this is the one that comes with it.
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", DeprecationWarning)
        return pulp.PULP_CBC_CMD(msg=False, threads=1, **options)


def _values(built: Built) -> list[float]:
    return [float(variable.varValue or 0.0) for variable in built.variables]


def _status(built: Built, proven: bool) -> Status:
    problem = built.problem
    if problem.sol_status == pulp.LpSolutionOptimal:
        return Status.OPTIMAL if proven else Status.GAP
    if problem.sol_status == pulp.LpSolutionIntegerFeasible:
        return Status.LIMIT
    if problem.status == pulp.LpStatusInfeasible:
        return Status.INFEASIBLE
    return Status.UNBOUNDED if problem.status == pulp.LpStatusUnbounded else Status.NOTHING


def solve(model: Model, gap: float = 1e-4, seconds: float = 60.0, gap_absolute: float = 1e-6) -> Answer:
    """Solve with whole numbers.

    CBC does not hand its bound back through PuLP: the bound given is what the gap asked for implies, which it has
    proven where it says that it is done; on a time limit there is none (minus infinity).
    """
    built = build(model)
    start = time.perf_counter()
    built.problem.solve(_engine(timeLimit=seconds, gapRel=gap, gapAbs=gap_absolute, options=["randomSeed 0"]))
    took = time.perf_counter() - start
    status = _status(built, proven=gap <= 1e-6 or not any(model.whole))
    values = _values(built) if status.solved else []
    objective = model.value(values) if values else 0.0
    slack = max(gap * abs(objective), gap_absolute) if any(model.whole) else 0.0
    sign = -1.0 if model.maximise else 1.0
    bound = objective - sign * slack if status in (Status.OPTIMAL, Status.GAP) else -sign * float("inf")
    return Answer(status, values, objective, bound, took, NAME)


def relax(model: Model) -> Relaxation:
    """Solve the linear program, with duals."""
    # Told to maximise, this engine loses the sign of reduced costs where its presolve leaves nothing to do.
    sign = -1.0 if model.maximise else 1.0
    built = build(replace(model, maximise=False, cost=[sign * cost for cost in model.cost]))
    start = time.perf_counter()
    built.problem.solve(_engine(mip=False))
    took = time.perf_counter() - start
    status = _status(built, proven=True)
    if status is not Status.OPTIMAL:
        return Relaxation(status, [], 0.0, [], [], took)
    duals = [0.0] * len(model.rows)
    for row, constraint in zip(built.row_of, built.problem.constraints(), strict=True):
        duals[row] += sign * float(constraint.pi or 0.0)
    values = _values(built)
    reduced = [sign * float(variable.dj or 0.0) for variable in built.variables]
    return Relaxation(status, values, model.value(values), duals, reduced, took)
