"""How a solve ends, told apart on both engines."""

from __future__ import annotations

import pytest

from mealopt.milp.answer import Status
from mealopt.milp.model import Model, Row
from tests.milp.conftest import Engine, knapsack, market_split


def clash(whole: bool) -> Model:
    model = Model()
    model.column(0, 10, whole=whole, cost=1.0)
    model.rows += [Row("least", ((0, 1.0),), least=4.0), Row("most", ((0, 1.0),), most=3.0)]
    return model


def open_end(whole: bool, maximise: bool) -> Model:
    model = Model(maximise=maximise)
    model.column(whole=whole, cost=1.0 if maximise else -1.0)
    model.column()
    model.rows.append(Row("tied", ((0, 1.0), (1, -1.0)), most=1.0))
    return model


@pytest.mark.parametrize("whole", [False, True])
def test_infeasible(engine: Engine, whole: bool) -> None:
    for found in (engine.relax(clash(whole)), engine.solve(clash(whole))):
        assert found.status is Status.INFEASIBLE
        assert found.values == []


def test_infeasible_in_whole_numbers_only(engine: Engine) -> None:
    model = Model()
    model.column(0, 10, whole=True)
    model.rows.append(Row("odd", ((0, 2.0),), 3.0, 3.0))
    assert engine.relax(model).status is Status.OPTIMAL
    assert engine.solve(model).status is Status.INFEASIBLE


@pytest.mark.parametrize("whole", [False, True])
@pytest.mark.parametrize("maximise", [False, True])
def test_unbounded(engine: Engine, whole: bool, maximise: bool) -> None:
    model = open_end(whole, maximise)
    assert engine.relax(model).status is Status.UNBOUNDED
    assert engine.solve(model).status is Status.UNBOUNDED


def test_out_of_time_before_any_solution(engine: Engine) -> None:
    found = engine.solve(market_split(planted=False)[0], seconds=0.2)
    assert found.status is Status.NOTHING
    assert found.values == []


def test_a_gap_is_kept_to(engine: Engine) -> None:
    exact = engine.solve(knapsack())
    assert exact.status is Status.OPTIMAL
    assert exact.gap() <= 1e-6
    loose = engine.solve(knapsack(), gap=0.05)
    assert loose.status in (Status.GAP, Status.OPTIMAL)
    assert 0.95 * exact.objective <= loose.objective <= exact.objective + 1e-6
    assert loose.bound >= exact.objective - 1e-6, "a bound of a maximisation lies above the best"
    assert loose.gap() <= 0.05 + 1e-9


def test_a_linear_program_is_optimal_whatever_the_gap(engine: Engine) -> None:
    model = Model(rows=[Row("r", ((0, 2.0),), least=3.0)])
    model.column(cost=1.0)
    found = engine.solve(model, gap=0.05)
    assert (found.status, found.objective, found.bound) == (Status.OPTIMAL, *[pytest.approx(1.5)] * 2)
