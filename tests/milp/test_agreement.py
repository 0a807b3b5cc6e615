"""Random small programs: both engines against trying every combination, and against the conditions of optimality."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mealopt.milp.answer import Relaxation, Status
from mealopt.milp.elastic import find_clash, least_relaxation
from mealopt.milp.model import Model, Row
from tests.milp.conftest import ENGINES, Engine

SMALL = st.integers(-4, 4).map(float)


@st.composite
def rows(draw: st.DrawFn, columns: int, number: int) -> Row:
    """A row of a few terms, a column perhaps twice, with either side, both, or the same on both."""
    places = draw(st.lists(st.integers(0, columns - 1), min_size=1, max_size=5))
    terms = tuple((column, draw(SMALL)) for column in places)
    least = draw(st.none() | st.integers(-6, 8).map(float))
    width = draw(st.none() | st.integers(0, 6).map(float))
    most = None if width is None else width + (least if least is not None else 2.0)
    return Row(f"row_{number}", terms, least, most, scale=draw(st.sampled_from([0.5, 1.0, 3.0])))


@st.composite
def programs(draw: st.DrawFn, whole: bool | None = True) -> Model:
    """Up to four columns of small ranges and up to four rows. whole: of all columns; None: of each by chance."""
    model = Model(maximise=draw(st.booleans()))
    for _ in range(draw(st.integers(1, 4))):
        least = float(draw(st.integers(-2, 2)))
        kind = draw(st.booleans()) if whole is None else whole
        model.column(least, least + draw(st.integers(0, 3)), whole=kind, cost=draw(SMALL))
    for number in range(draw(st.integers(0, 4))):
        model.rows.append(draw(rows(model.columns, number)))
    return model


def meets(model: Model, values: list[float], but: frozenset[int] = frozenset()) -> bool:
    """Whether every row holds at these values, but those left out."""
    return all(
        (row.least is None or row.activity(values) >= row.least - 1e-6)
        and (row.most is None or row.activity(values) <= row.most + 1e-6)
        for number, row in enumerate(model.rows)
        if number not in but
    )


def combinations(model: Model) -> list[list[float]]:
    """Every choice of whole numbers within the columns' bounds."""
    ranges = [
        [least + step for step in range(int((most or 0.0) - least) + 1)]
        for least, most in zip(model.least, model.most, strict=True)
    ]
    return [list(values) for values in itertools.product(*ranges)]


@settings(max_examples=60, deadline=None)
@given(programs())
def test_every_combination_tried(model: Model) -> None:
    feasible = [values for values in combinations(model) if meets(model, values)]
    best = max if model.maximise else min
    for engine in ENGINES:
        found = engine.solve(model)
        if not feasible:
            assert found.status is Status.INFEASIBLE, engine.name
            continue
        assert found.status is Status.OPTIMAL, engine.name
        assert found.objective == pytest.approx(best(model.value(values) for values in feasible), abs=1e-6)
        assert found.bound == pytest.approx(found.objective, abs=1e-4)
        assert meets(model, found.values)
        assert all(abs(value - round(value)) < 1e-6 for value in found.values)


@settings(max_examples=40, deadline=None)
@given(programs(whole=None))
def test_both_engines_agree(model: Model) -> None:
    first, second = (engine.solve(model) for engine in ENGINES)
    assert first.status is second.status
    if first.status.solved:
        assert first.objective == pytest.approx(second.objective, abs=1e-6)
        assert meets(model, first.values)
        assert meets(model, second.values)


def optimality(model: Model, found: Relaxation) -> None:
    """The conditions of an optimum: a dual or reduced cost only where its limit binds, with the sign of that side."""
    sign = -1.0 if model.maximise else 1.0
    near = 1e-6
    for row, dual in zip(model.rows, found.duals, strict=True):
        activity = row.activity(found.values)
        if sign * dual > near:
            assert activity == pytest.approx(row.least, abs=near)
        if sign * dual < -near:
            assert activity == pytest.approx(row.most, abs=near)
    for column, reduced in enumerate(found.reduced_costs):
        worth = sum(
            dual * one
            for row, dual in zip(model.rows, found.duals, strict=True)
            for place, one in row.terms
            if place == column
        )
        assert reduced == pytest.approx(model.cost[column] - worth, abs=near)
        if sign * reduced > near:
            assert found.values[column] == pytest.approx(model.least[column], abs=near)
        if sign * reduced < -near:
            assert found.values[column] == pytest.approx(model.most[column], abs=near)


@pytest.mark.parametrize("engine", ENGINES, ids=lambda engine: engine.name)
@settings(max_examples=50, deadline=None)
@given(model=programs(whole=None))
def test_duals_prove_the_linear_program(engine: Engine, model: Model) -> None:
    found = engine.relax(model)
    if found.status is Status.OPTIMAL:
        assert meets(model, found.values)
        assert found.objective == pytest.approx(model.value(found.values), abs=1e-6)
        optimality(model, found)
    else:
        assert found.status is Status.INFEASIBLE
        assert engine.solve(model).status is Status.INFEASIBLE


@settings(max_examples=60, deadline=None)
@given(programs())
def test_least_relaxation_is_the_least_of_all_combinations(model: Model) -> None:
    """Each combination's harm is what its rows lack, in their own scales; no engine tells it."""

    def harm(values: list[float]) -> float:
        lacks = 0.0
        for row in model.rows:
            activity = row.activity(values)
            below = max(0.0, (row.least if row.least is not None else -math.inf) - activity)
            above = max(0.0, activity - (row.most if row.most is not None else math.inf))
            lacks += (below + above) / row.scale
        return lacks

    relief = least_relaxation(model, gap=0.0)
    assert relief is not None
    assert relief.status is Status.OPTIMAL
    assert relief.total == pytest.approx(min(harm(values) for values in combinations(model)), abs=1e-5)
    assert relief.total == pytest.approx(harm(relief.values), abs=1e-5)
    assert relief.bound <= relief.total + 1e-6
    for give in relief.gives:
        row = model.rows[give.row]
        activity, limit = row.activity(relief.values), row.least if give.side == "least" else row.most
        assert limit is not None
        assert give.by == pytest.approx(limit - activity if give.side == "least" else activity - limit)
        assert give.by > 0


@settings(max_examples=60, deadline=None)
@given(programs())
def test_a_clash_is_real_and_irreducible(model: Model) -> None:
    everything = frozenset(range(len(model.rows)))
    options = combinations(model)

    def can_meet(kept: frozenset[int]) -> bool:
        return any(meets(model, values, everything - kept) for values in options)

    clash = find_clash(model)
    kept = frozenset(clash.rows)
    assert clash.irreducible
    assert bool(kept) != can_meet(everything)
    if kept:
        assert not can_meet(kept)
        assert all(can_meet(kept - {number}) for number in kept)
