"""A program of groups solved in stages: its claims hold beside one exact solve, whichever stage it ended in."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mealopt.milp import stages
from mealopt.milp.answer import Status
from mealopt.milp.highs import Highs
from mealopt.milp.model import Model, Row
from mealopt.milp.stages import solve_in_stages
from tests.milp.conftest import market_split

Groups = list[list[int]]

#: A program, its groups, and further columns that the first stage must not split.
Posed = tuple[Model, Groups, list[int]]


@st.composite
def choices(draw: st.DrawFn) -> Posed:
    """One option of each group, whole steps above its least, and a charge for each row's distance from its aim."""
    model, groups, decisive = Model(), [], []
    held: dict[int, list[tuple[int, float]]] = {0: [], 1: []}
    for place in range(draw(st.integers(1, 3))):
        group = []
        for option in range(draw(st.integers(1, 4))):
            used = model.column(0, 1, whole=True, cost=float(draw(st.integers(0, 6))))
            span = draw(st.integers(0, 3))
            more = model.column(0, span, whole=True)
            if draw(st.booleans()):
                decisive.append(more)
            model.rows.append(Row(f"steps_{place}_{option}", ((more, 1.0), (used, -float(span))), most=0.0))
            for terms in held.values():
                terms += [(used, float(draw(st.integers(0, 9)))), (more, float(draw(st.integers(1, 5))))]
            group.append(used)
        model.rows.append(Row(f"one_{place}", tuple((used, 1.0) for used in group), 1.0, 1.0))
        groups.append(group)
    for number, terms in held.items():
        aim = float(draw(st.integers(0, 25)))
        short, over = model.column(cost=1.0), model.column(cost=0.7)
        model.rows.append(Row(f"aim_{number}", (*terms, (short, 1.0), (over, -1.0)), aim, aim))
        if draw(st.booleans()):
            least = float(draw(st.integers(0, 20)))
            model.rows.append(Row(f"band_{number}", tuple(terms), least, least + draw(st.integers(0, 3))))
    return model, groups, decisive


def check(model: Model, groups: Groups, decisive: list[int], gap: float, floor: float) -> None:
    """The staged answer beside the exact one."""
    exact = Highs(model).solve(gap=0.0)
    found = solve_in_stages(model, groups, gap, floor, seconds=20.0, decisive=decisive)
    if exact.status is Status.INFEASIBLE:
        assert found.status is Status.INFEASIBLE
        assert found.values == []
        return
    assert found.status in (Status.OPTIMAL, Status.GAP)
    allowed = gap * max(abs(found.objective), floor) + 1e-5
    assert found.bound <= exact.objective + 1e-5 <= found.objective + 2e-5
    assert found.objective - found.bound <= allowed
    assert found.objective == pytest.approx(model.value(found.values), abs=1e-5)
    for row in model.rows:
        activity = row.activity(found.values)
        assert row.least is None or activity >= row.least - 1e-5
        assert row.most is None or activity <= row.most + 1e-5
    for column, whole in enumerate(model.whole):
        assert not whole or abs(found.values[column] - round(found.values[column])) < 1e-5
    for group in groups:
        assert sum(round(found.values[column]) for column in group) == 1


@settings(max_examples=80, deadline=None)
@given(choices(), st.sampled_from([(1e-6, 1e-6), (0.01, 1.0), (0.01, 40.0), (0.2, 10.0)]))
def test_its_claims_hold(posed: Posed, wanted: tuple[float, float]) -> None:
    check(*posed, *wanted)


@pytest.mark.parametrize("combinations", [0, 1, 2])
def test_its_claims_hold_where_few_combinations_are_looked_at(combinations: int) -> None:
    """The whole program then has to finish what the combinations leave."""

    @settings(max_examples=30, deadline=None)
    @given(choices())
    def hold(posed: Posed) -> None:
        check(*posed, 1e-6, 1e-6)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(stages, "COMBINATIONS", combinations)
        hold()


@pytest.mark.parametrize("held_for", [0.0, 3.0])
def test_its_claims_hold_where_naming_is_cut_short_and_options_are_probed(held_for: float) -> None:
    """Also where no combination was looked at to its end."""

    @settings(max_examples=40, deadline=None)
    @given(choices())
    def hold(posed: Posed) -> None:
        check(*posed, 1e-6, 1e-6)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(stages, "SECONDS_NAMING", 0.0)
        patch.setattr(stages, "SECONDS_EACH", held_for)
        hold()


def test_a_group_without_an_option_left_is_infeasible() -> None:
    model = Model()
    for _ in range(2):
        model.column(0, 0, whole=True)
    model.rows.append(Row("one", ((0, 1.0), (1, 1.0)), 1.0, 1.0))
    assert solve_in_stages(model, [[0, 1]]).status is Status.INFEASIBLE


def test_out_of_time_is_not_called_infeasible() -> None:
    """Every 0/1 column a group of its own choice: no solution is in reach, and none is claimed, nor ruled out."""
    model, _ = market_split(planted=False)
    found = solve_in_stages(model, [list(range(model.columns))], seconds=0.3)
    assert found.status is Status.NOTHING
    assert found.values == []


def test_cuts_are_taken_back() -> None:
    model = Model()
    for cost in (1.0, 2.0, 3.0):
        model.column(0, 1, whole=True, cost=cost)
    model.rows.append(Row("two", tuple((column, 1.0) for column in range(3)), 2.0, 2.0))
    engine = Highs(model)
    assert engine.solve().values == pytest.approx([1, 1, 0])
    engine.cut_off([0, 1])
    assert engine.solve().values == pytest.approx([1, 0, 1])
    engine.cut_off([0, 2])
    assert engine.solve().values == pytest.approx([0, 1, 1])
    engine.drop_cuts()
    assert engine.solve().values == pytest.approx([1, 1, 0])
    engine.drop_cuts()
    assert len(engine.relax().duals) == 1


def test_what_is_ruled_out_stays_out() -> None:
    model = Model(rows=[Row("one", ((0, 1.0), (1, 1.0)), 1.0, 1.0)])
    model.column(0, 1, whole=True, cost=1.0)
    model.column(0, 1, whole=True, cost=5.0)
    engine = Highs(model)
    engine.rule_out([0])
    engine.set_most([0, 1])
    assert engine.solve().values == pytest.approx([0, 1])


def test_whole_columns_may_be_let_go_and_held_again() -> None:
    model = Model(rows=[Row("r", ((0, 2.0), (1, 2.0)), least=3.0)])
    model.column(0, 9, whole=True, cost=1.0)
    model.column(0, 9, whole=True, cost=5.0)
    engine = Highs(model)
    ends = []
    for whole in (True, False, True):
        engine.set_whole([0], whole)
        ends.append(engine.solve(gap=0.0).objective)
    assert ends == pytest.approx([2.0, 1.5, 2.0])


def test_progress_falls() -> None:
    seen: list[tuple[float, float]] = []
    model, groups = Model(), []
    for place in range(4):
        used = [model.column(0, 1, whole=True, cost=float(3 + option)) for option in range(3)]
        more = [model.column(0, 5, whole=True) for _ in used]
        for column, step in zip(used, more, strict=True):
            model.rows.append(Row(f"s{column}", ((step, 1.0), (column, -5.0)), most=0.0))
        model.rows.append(Row(f"one_{place}", tuple((column, 1.0) for column in used), 1.0, 1.0))
        model.rows.append(Row(f"half_{place}", tuple((step, 2.0) for step in more), 3.0, 4.5))
        groups.append(used)
    found = solve_in_stages(model, groups, progress=lambda value, bound: seen.append((value, bound)))
    assert seen
    assert [value for value, _ in seen] == sorted((value for value, _ in seen), reverse=True)
    assert seen[-1][0] == found.objective
