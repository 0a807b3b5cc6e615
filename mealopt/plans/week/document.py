"""A week that was found, written down as a plan document."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from datetime import timedelta

from mealopt import __version__
from mealopt.core.clock import DAYS
from mealopt.core.nutrients import ENERGY
from mealopt.documents.plan import Plan, PlanDay, Solve, Table, Week, WeekEnergy
from mealopt.menu.dishes import Menu
from mealopt.people.case import Case
from mealopt.people.reading import case_to_dict
from mealopt.plans.week.ahead import labelled
from mealopt.plans.week.checks import all_checks
from mealopt.plans.week.cooking import cooking_sheet
from mealopt.plans.week.job import DayAnswer
from mealopt.plans.week.state import WeekState
from mealopt.plans.week.words import week_cautions
from mealopt.rules import weights
from mealopt.rules.weekly.pose import WEEK
from mealopt.targets.model import WeekTargets


def week_plan(
    case: Case,
    state: WeekState,
    targets: WeekTargets,
    gap: float,
    seconds: float,
    stopped: bool,
    menu: Menu,
    reasons: Mapping[str, str] | None = None,
) -> Plan:
    """The plan document of the days that stand. stopped: by hand, before the gap was proven."""
    days = labelled(dated_days(case, [_day(state, day, gap) for day in state.days]), state.ahead)
    composition = menu.pantry.composition
    checks = all_checks(days, state.rows, state.ahead, menu.pantry, reasons)
    use_up = {row.name.removeprefix("use up "): row.least or 0.0 for row in state.rows if row.source == "the case"}
    week = Week(
        checks=checks,
        energy=week_energy(case, targets, days),
        cooking=cooking_sheet(days, menu),
        use_up=use_up,
        cautions=week_cautions(case, checks),
        penalty=_penalty(state),
    )
    return Plan(
        schema="mealopt/plan-1",
        kind="week",
        case=case_to_dict(case),
        table=Table(name=composition.name, sha256=composition.sha256),
        days=days,
        week=week,
        solve=_solve(state, gap, seconds, stopped),
        program=f"mealopt {__version__}",
    )


def dated_days(case: Case, days: Sequence[PlanDay]) -> tuple[PlanDay, ...]:
    """The days with their dates: those that come after the end of a calendar week belong to the next."""
    if case.week_of is None:
        return tuple(days)
    first = DAYS.index(days[0].day) if days else 0
    found = []
    for day in days:
        place = DAYS.index(day.day)
        later = place + (7 if place < first else 0)
        found.append(day.model_copy(update={"date": case.week_of + timedelta(days=later)}))
    return tuple(found)


def _day(state: WeekState, name: str, gap: float) -> PlanDay:
    """The day that stands, with what it brings to the week's bound."""
    answer = state.stands[name]
    assert answer.entry is not None
    solve = answer.entry.solve
    if solve is None or name not in state.alone:
        return answer.entry
    bound = min(state.bound_of(name), answer.value)
    apart = (answer.value - bound) / max(answer.value, weights.FLOOR)
    known = solve.model_copy(
        update={
            "bound": round(bound, 4),
            "gap": round(apart, 5),
            "status": "optimal" if apart <= gap else "gap",
        }
    )
    return answer.entry.model_copy(update={"solve": known})


def week_energy(case: Case, targets: WeekTargets, days: Sequence[PlanDay]) -> WeekEnergy:
    """The week's energy balance; for a part of a week, of its days alone."""
    aims = {day.day: round(targets.days[day.day].bands[ENERGY].aim or 0.0, 4) for day in days}
    total = math.fsum(aims.values())
    expected = targets.sum_expected_kcal if len(days) == len(DAYS) else total
    return WeekEnergy(
        spread=case.goal.spread,
        aims=aims,
        aims_kcal=round(total, 3),
        expected_kcal=round(expected, 3),
        eaten_kcal=round(math.fsum(day.totals.get(ENERGY, 0.0) for day in days), 2),
    )


def _penalty(state: WeekState) -> dict[str, float]:
    points: Counter[str] = Counter()
    for answer in state.stands.values():
        assert answer.entry is not None
        for term, value in answer.entry.penalty.items():
            points[term] += value  # type: ignore[assignment]
    if state.charge >= 0.005:
        points[WEEK] = round(state.charge, 2)  # type: ignore[assignment]
    return {term: round(value, 2) for term, value in points.items()}


def _solve(state: WeekState, gap: float, seconds: float, stopped: bool) -> Solve:
    answers: list[DayAnswer] = list(state.stands.values())
    bound = min(state.bound, state.value)
    apart = (state.value - bound) / max(state.value, state.floor)
    return Solve(
        solver=answers[0].solver,
        status="stopped" if stopped else "optimal" if apart <= gap + 1e-9 else "gap",
        objective=round(state.value, 4),
        bound=round(bound, 4),
        gap=round(apart, 5),
        seconds=round(seconds, 3),
        rows=sum(answer.rows for answer in answers),
        columns=sum(answer.columns for answer in answers),
    )
