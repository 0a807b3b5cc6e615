"""On small weeks the bound never passes the exact optimum of the whole model, and the value never beats it."""

from __future__ import annotations

import time
from dataclasses import replace
from typing import Any

import pytest

from mealopt.milp.answer import Status
from mealopt.milp.highs import Highs
from mealopt.people.case import Case
from mealopt.people.reading import case_from_dict
from mealopt.plans.week.crew import Crew
from mealopt.plans.week.day import Days
from mealopt.plans.week.job import Ask, task_of
from mealopt.plans.week.search import Search
from mealopt.plans.week.state import WeekState
from mealopt.rules.weekly.joined import joined
from tests.plans.cases import ATHLETE

#: Plates a slot, and the points to which the whole model is solved.
PLATES, EXACT = 3, 0.05
HOURS = {"wake": "06:30", "sleep": "22:30", "meals_per_day": 3}


def small_case(**kitchen: Any) -> Case:
    week = {"cook_ahead_days": 0, "plants_least": 60, "pulses_least": 7, "red_meat_most_g": 200.0}
    data = {"schema": "mealopt/case-1", "athlete": ATHLETE, "kitchen": HOURS | kitchen, "week": week}
    return case_from_dict(data, "small week")


def small_days(case: Case, days: tuple[str, ...]) -> Days:
    """The days with few plates a slot: their cards end there."""
    found = Days(task_of(case, days, {}))
    for day in days:
        posed = found.posed(day)
        found._posed[day] = replace(posed, laid=tuple(plates[:PLATES] for plates in posed.card().all))
    return found


@pytest.mark.slow
@pytest.mark.parametrize(
    ("days", "kitchen"),
    [(("mon", "tue"), {}), (("sat", "sun"), {"diet": "vegan"})],
)
def test_bound_and_value_stand_on_their_own_side_of_the_optimum(days: tuple[str, ...], kitchen: dict[str, Any]) -> None:
    case = small_case(**kitchen)
    posed = small_days(case, days)
    problems = []
    for day in days:
        card = posed.posed(day).card()
        card.deal(PLATES)
        problems.append(posed.posed(day).problem(card))
    whole, _ = joined(problems, posed.rows)
    exact = Highs(whole).solve(gap=0.0, seconds=120.0, gap_absolute=EXACT)
    assert exact.status.solved
    state = WeekState(days, posed.rows)
    crew = Crew(posed.task, 1)
    crew._here = posed
    # By the processor's clock: others may use the machine.
    Search(crew, state, gap=0.004, seconds=10.0, clock=time.process_time).run()
    assert state.bound <= exact.objective + 1e-4
    assert state.value >= exact.bound - 1e-4
    assert state.bound > 0
    prices = {row.name: row.charge for row in state.rows if row.least is not None and row.charge}
    assert state.lacks, "the week's rules are out of reach here, so that prices have something to say"
    bounds = [posed.answer(Ask("priced", day, 0.002, 30.0, prices=prices)).bound for day in days]
    state.priced = float("-inf")
    state.bound_by_prices(prices, bounds)
    assert float("-inf") < state.priced <= exact.objective + 1e-4
    # The two bounds are not the same thing: prices see what the rules cost.
    assert state.priced != pytest.approx(sum(state.alone.values()))
    assert exact.status in (Status.OPTIMAL, Status.GAP)
