"""What a row or column means survives the way through PuLP into either engine."""

from __future__ import annotations

import pytest

from mealopt.milp.answer import Status
from mealopt.milp.model import Model, Row
from mealopt.milp.pulp_model import build
from tests.milp.conftest import Engine


def one(cost: float, *rows: Row, least: float = 0.0, most: float | None = None, whole: bool = False) -> Model:
    """A program of one column."""
    model = Model(rows=list(rows))
    model.column(least, most, whole=whole, cost=cost)
    return model


@pytest.mark.parametrize(("cost", "value"), [(1.0, 2.0), (-1.0, 5.0)])
def test_both_sides_of_a_row_hold(engine: Engine, cost: float, value: float) -> None:
    model = one(cost, Row("both", ((0, 1.0),), 2.0, 5.0))
    assert engine.relax(model).values == pytest.approx([value])
    assert engine.solve(model).values == pytest.approx([value])


@pytest.mark.parametrize(("cost", "dual"), [(3.0, 3.0), (-3.0, -3.0)])
def test_a_row_with_two_sides_has_the_dual_of_the_side_that_binds(engine: Engine, cost: float, dual: float) -> None:
    assert engine.relax(one(cost, Row("both", ((0, 1.0),), 2.0, 5.0))).duals == pytest.approx([dual])


def test_a_row_with_equal_sides_is_one_equality(engine: Engine) -> None:
    model = one(1.0, Row("equal", ((0, 2.0),), 5.0, 5.0))
    assert build(model).row_of == [0]
    assert engine.relax(model).values == pytest.approx([2.5])


def test_a_row_without_sides_holds_nothing(engine: Engine) -> None:
    model = one(1.0, Row("free", ((0, 1.0),)), Row("real", ((0, 1.0),), least=1.0))
    assert build(model).row_of == [1]
    found = engine.relax(model)
    assert found.values == pytest.approx([1.0])
    assert found.duals == pytest.approx([0.0, 1.0])


def test_a_column_that_stands_twice_in_a_row_adds_up(engine: Engine) -> None:
    model = one(-1.0, Row("twice", ((0, 2.0), (0, -1.0)), most=0.5), Row("cancels", ((0, 1.0), (0, -1.0)), most=0.0))
    model.most = [1.0]
    assert engine.relax(model).values == pytest.approx([0.5])


def test_a_column_in_no_row_keeps_its_bounds(engine: Engine) -> None:
    model = Model()
    model.column(2.0, 3.0)
    model.column(-5.0, -4.0, whole=True)
    model.column(0.0, 1.0, cost=1.0)
    model.rows.append(Row("last", ((2, 1.0),), least=0.25))
    for values in (engine.relax(model).values, engine.solve(model).values):
        assert 2.0 <= values[0] <= 3.0
        assert -5.0 <= values[1] <= -4.0
        assert values[2] == pytest.approx(0.25)


def test_a_program_without_rows(engine: Engine) -> None:
    model = Model()
    model.column(1.0, 3.0, cost=2.0)
    model.column(0.0, 5.0, cost=-1.0)
    for found in (engine.relax(model), engine.solve(model)):
        assert found.status is Status.OPTIMAL
        assert found.values == pytest.approx([1.0, 5.0])
        assert found.objective == pytest.approx(-3.0)


@pytest.mark.parametrize(("least", "status"), [(0.0, Status.OPTIMAL), (1.0, Status.INFEASIBLE)])
def test_a_row_without_columns(engine: Engine, least: float, status: Status) -> None:
    assert engine.solve(one(1.0, Row("empty", (), least=least), most=1.0)).status is status


def test_values_below_nought(engine: Engine) -> None:
    model = one(1.0, Row("r", ((0, -2.0),), most=7.0), least=-10.0, whole=True)
    assert engine.relax(model).values == pytest.approx([-3.5])
    assert engine.solve(model).values == pytest.approx([-3.0])


def test_more_than_ten_columns_and_rows_keep_their_order(engine: Engine) -> None:
    model = Model()
    for column in range(123):
        model.column(cost=1.0)
        model.rows.append(Row(f"r{column}", ((column, 1.0),), least=float(column)))
    found = engine.relax(model)
    assert found.values == pytest.approx([float(column) for column in range(123)])
    assert engine.solve(model).values == pytest.approx(found.values)


def test_maximise(engine: Engine) -> None:
    model = one(3.0, Row("most", ((0, 2.0),), most=7.0), whole=True)
    model.maximise = True
    relaxed, solved = engine.relax(model), engine.solve(model)
    assert (relaxed.objective, solved.objective) == pytest.approx((10.5, 9.0))
    assert solved.bound >= solved.objective - 1e-9
    assert relaxed.duals == pytest.approx([1.5])
