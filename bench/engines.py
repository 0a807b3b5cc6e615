"""A posed model taken out of the program, and the bare engines on it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from pathlib import Path

from bench.measure import Took, stopwatch
from mealopt.milp.model import Model


class End(Enum):
    """How a run ended. NOTHING: time was over before there was any solution."""

    PROVEN = "proven"
    LIMIT = "time over"
    NOTHING = "no answer"
    INFEASIBLE = "nothing fits"
    ERROR = "error"


@dataclass(slots=True)
class Run:
    """One run of one engine. value: of the best solution; bound: no answer is below it; both in points."""

    end: End
    took: Took
    value: float = math.inf
    bound: float = -math.inf
    reading: Took | None = None


def export(model: Model, folder: Path) -> Path:
    """Write the model as an MPS file by PuLP, with integers as names. Raises OSError."""
    from mealopt.milp.pulp_model import build

    path = folder / "posed.mps"
    build(model).problem.writeMPS(str(path))
    return path


def raw_highs(path: Path, gap: float, gap_absolute: float, limit: float) -> Run:
    """HiGHS alone on a file: one thread, its own defaults but for the two gaps and the time limit, in seconds.

    took is the solve; reading the file stands apart. Raises ValueError where it cannot read the file.
    """
    import highspy

    import mealopt.milp.highs  # noqa: F401  # turns the greeting away that a first opening prints

    engine = highspy.Highs()  # type: ignore[no-untyped-call]
    settings = {"output_flag": False, "threads": 1, "random_seed": 0, "mip_rel_gap": gap, "mip_abs_gap": gap_absolute}
    for name, value in settings.items():
        engine.setOptionValue(name, value)
    with stopwatch() as reading:
        if engine.readModel(str(path)) != highspy.HighsStatus.kOk:
            raise ValueError(f"{path}: the engine cannot read it")
    engine.setOptionValue("time_limit", engine.getRunTime() + limit)
    with stopwatch() as took:
        engine.run()
    status, info = engine.getModelStatus(), engine.getInfo()
    if status in (highspy.HighsModelStatus.kInfeasible, highspy.HighsModelStatus.kUnboundedOrInfeasible):
        return Run(End.INFEASIBLE, took, bound=math.inf, reading=reading)
    if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return Run(End.NOTHING, took, bound=info.mip_dual_bound, reading=reading)
    end = End.PROVEN if status == highspy.HighsModelStatus.kOptimal else End.LIMIT
    return Run(end, took, info.objective_function_value, info.mip_dual_bound, reading)


def raw_cbc(model: Model, gap: float, gap_absolute: float, limit: float) -> Run:
    """CBC on the same model as PuLP hands it over: a file, a process of its own, one thread; all of that is counted."""
    from mealopt.milp import cbc
    from mealopt.milp.answer import Status

    ends = {
        Status.OPTIMAL: End.PROVEN,
        Status.GAP: End.PROVEN,
        Status.LIMIT: End.LIMIT,
        Status.INFEASIBLE: End.INFEASIBLE,
    }
    with stopwatch() as took:
        answer = cbc.solve(model, gap, limit, gap_absolute)
    end = ends.get(answer.status, End.NOTHING)
    return Run(end, took, answer.objective if answer.status.solved else math.inf, answer.bound)


def contradiction(one: Run, other: Run, least: float = 1e-3) -> str | None:
    """A sentence where two runs on one problem cannot both be right: a value below what the other rules out.

    least: points that rounding may explain.
    """
    for value_of, bound_of in ((one, other), (other, one)):
        if End.INFEASIBLE in (value_of.end, bound_of.end):
            continue
        if value_of.value < bound_of.bound - least:
            return f"a value of {value_of.value:.4f} lies below the other's bound of {bound_of.bound:.4f}"
    ends = (one.end, other.end)
    if End.INFEASIBLE in ends and any(math.isfinite(run.value) for run in (one, other)):
        return "one found an answer where the other proved that there is none"
    return None
