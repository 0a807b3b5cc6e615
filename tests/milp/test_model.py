"""Columns and rows as plain numbers, and the small types that a solve gives back."""

from __future__ import annotations

import pytest

from mealopt.milp.answer import Answer, Status
from mealopt.milp.model import Model, Row


def test_columns_are_numbered_from_nought() -> None:
    model = Model()
    assert [model.column(), model.column(1, 3, whole=True, cost=2.0), model.column(-4)] == [0, 1, 2]
    assert model.columns == 3
    assert model.least == [0.0, 1, -4]
    assert model.most == [None, 3, None]
    assert model.whole == [False, True, False]
    assert model.cost == [0.0, 2.0, 0.0]


def test_models_share_nothing() -> None:
    Model().column()
    assert Model().columns == 0


def test_value_is_the_costs_at_these_values() -> None:
    model = Model()
    for cost in (2.0, 0.0, -1.5):
        model.column(cost=cost)
    assert model.value([3.0, 100.0, 2.0]) == pytest.approx(3.0)
    with pytest.raises(ValueError, match="zip"):
        model.value([1.0])


def test_activity_adds_up_a_column_that_stands_twice() -> None:
    row = Row("r", ((0, 2.0), (1, 1.0), (0, -0.5)))
    assert row.activity([4.0, 3.0]) == pytest.approx(9.0)
    assert Row("none", ()).activity([1.0]) == 0.0


@pytest.mark.parametrize(
    ("objective", "bound", "gap"), [(100.0, 99.0, 0.01), (100.0, 101.0, 0.01), (-50.0, -60.0, 0.2), (0.0, 0.0, 0.0)]
)
def test_gap_is_relative_to_the_value(objective: float, bound: float, gap: float) -> None:
    assert Answer(Status.GAP, [], objective, bound, 0.0, "").gap() == pytest.approx(gap)


def test_gap_of_a_small_value_is_taken_from_the_floor() -> None:
    answer = Answer(Status.GAP, [], 2.0, 1.0, 0.0, "")
    assert answer.gap() == pytest.approx(0.5)
    assert answer.gap(floor=40.0) == pytest.approx(1 / 40)


def test_which_ends_have_a_solution() -> None:
    assert {status for status in Status if status.solved} == {Status.OPTIMAL, Status.GAP, Status.LIMIT}
