"""One day as the program plans it, from a case in memory to a rechecked document, with a clock on each step."""

from __future__ import annotations

from dataclasses import dataclass, field, fields, replace
from typing import Any

from bench.cases import DAY, BenchCase
from bench.engines import End, Run
from bench.measure import Took, stopwatch
from mealopt.documents.plan import Plan
from mealopt.errors import MealoptError, OutOfTime
from mealopt.milp.answer import Status
from mealopt.people.case import Case
from mealopt.plans.day.document import day_plan
from mealopt.plans.day.found import NothingFits
from mealopt.plans.day.pose import PosedDay, pose_day
from mealopt.plans.day.solve import solve_posed
from mealopt.recheck.check import recheck_plan
from mealopt.rules.problem import Problem

#: The steps that are timed, in order. Building is part of solving: a card's rows and columns.
STEPS = ("posing", "solving", "writing", "recheck")


@dataclass(slots=True)
class Options:
    """What every part is told. gap: to prove; limit: seconds for each solve; pairs: of processes started; rounds: times
    that each case is measured."""

    gap: float = 0.01
    limit: float = 20.0
    pairs: int = 10
    rounds: int = 1


@dataclass(slots=True)
class Planned:
    """A day planned once. solve: its end, value and bound over all dishes that fit; took: each step's time; building:
    rows and columns of all the cards together; problems: one a card, in order; error: what was said where it failed."""

    case: BenchCase
    solve: Run
    took: dict[str, Took] = field(default_factory=dict)
    building: Took = field(default_factory=Took)
    posed: PosedDay | None = None
    problems: list[Problem] = field(default_factory=list)
    plan: Plan | None = None
    broken: list[str] = field(default_factory=list)
    error: str = ""

    @property
    def whole(self) -> Took:
        """All steps together."""
        return sum(self.took.values(), Took())


def watched(posed: PosedDay, planned: Planned) -> PosedDay:
    """The same day, but each problem that it builds is kept and timed."""

    class Watched(PosedDay):
        def problem(self, *given: Any, **named: Any) -> Problem:
            with stopwatch() as took:
                built = PosedDay.problem(self, *given, **named)
            planned.building = planned.building + took
            planned.problems.append(built)
            return built

    return Watched(**{entry.name: getattr(posed, entry.name) for entry in fields(posed)})


def read(case: BenchCase) -> Case:
    """The case as the program reads it. Raises BadInput."""
    from mealopt.people.reading import case_from_dict

    return case_from_dict(case.data(), case.name)


def plan_once(case: BenchCase, options: Options) -> Planned:
    """Plan the case's day with a clock on each step; a day that cannot be planned says why in `error`."""
    planned = Planned(case, Run(End.ERROR, Took()))
    try:
        _plan(read(case), planned, options)
    except OutOfTime as error:
        planned.solve.end, planned.error = End.NOTHING, str(error)
        planned.solve.took = planned.took["solving"]
    except MealoptError as error:
        planned.error = f"{type(error).__name__}: {error}"
    return planned


def _plan(case: Case, planned: Planned, options: Options) -> None:
    took = planned.took = {step: Took() for step in STEPS}
    with stopwatch() as took["posing"]:
        planned.posed = posed = watched(pose_day(case, DAY), planned)
    with stopwatch() as took["solving"]:
        solved = solve_posed(posed, options.gap, options.limit)
    if isinstance(solved, NothingFits):
        planned.solve.end, planned.solve.took, planned.error = End.INFEASIBLE, took["solving"], "nothing fits"
        return
    answer = solved.answer
    end = End.LIMIT if answer.status is Status.LIMIT else End.PROVEN
    planned.solve = Run(end, took["solving"], answer.objective, answer.bound)
    with stopwatch() as took["writing"]:
        planned.plan = day_plan(solved)
    pantry = posed.larder.menu.pantry
    with stopwatch() as took["recheck"]:
        planned.broken = recheck_plan(planned.plan, pantry.composition, pantry)


class Days:
    """The days of this run, each planned once a round and handed to every part that asks."""

    def __init__(self, cases: tuple[BenchCase, ...], options: Options) -> None:
        self.cases = cases
        self.options = options
        self._planned: dict[tuple[str, int], Planned] = {}
        self._warm = False

    def warm(self) -> None:
        """Plan a day that is not measured, so that tables, dishes and engines are loaded before the first that is."""
        if not self._warm:
            self._warm = True
            other = replace(self.cases[0], name="warming up")
            plan_once(other, replace(self.options, limit=min(2.0, self.options.limit)))

    def planned(self, case: BenchCase, number: int = 0) -> Planned:
        """The case's day of this round."""
        self.warm()
        key = case.name, number
        if key not in self._planned:
            self._planned[key] = plan_once(case, self.options)
        return self._planned[key]
