"""One model kept open: bounds moved between solves, a known solution offered, a target to stop at."""

from __future__ import annotations

import pytest

from mealopt.milp.answer import Status
from mealopt.milp.highs import Highs, version
from mealopt.milp.model import Model, Row
from tests.milp.conftest import knapsack, market_split


def cheaper_first() -> Model:
    """Five of three columns at most 4 each, at 1, 2 and 3."""
    model = Model(rows=[Row("five", ((0, 1.0), (1, 1.0), (2, 1.0)), least=5.0)])
    for cost in (1.0, 2.0, 3.0):
        model.column(0, 4, whole=True, cost=cost)
    return model


def test_set_most_and_back() -> None:
    engine = Highs(cheaper_first())
    assert engine.relax().values == pytest.approx([4, 1, 0])
    engine.set_most([0, 1], 0.0)
    assert engine.solve().status is Status.INFEASIBLE
    engine.set_most([1])
    assert engine.solve().values == pytest.approx([0, 4, 1])
    engine.set_most([0])
    assert engine.solve(gap=0).objective == pytest.approx(6.0)
    assert engine.relax().values == pytest.approx([4, 1, 0])


def test_set_most_gives_back_an_open_end() -> None:
    model = Model(maximise=True, rows=[Row("r", ((0, 1.0),), most=100.0)])
    model.column(cost=1.0)
    engine = Highs(model)
    engine.set_most([0], 7.0)
    assert engine.relax().objective == pytest.approx(7.0)
    engine.set_most([0])
    assert engine.relax().objective == pytest.approx(100.0)


def test_whether_a_column_could_beat_a_value() -> None:
    """Its linear program with the column at 1: 2.5 with the first way, 4.5 with the second, none with the third."""
    model = Model(
        rows=[
            Row("one", ((0, 1.0), (1, 1.0), (2, 1.0)), 1.0, 1.0),
            Row("amount", ((0, 2.0), (1, 1.0), (2, 9.0), (3, 2.0)), 5.0, 8.0),
        ]
    )
    for cost in (1.0, 2.5, 0.0):
        model.column(0, 1, whole=True, cost=cost)
    model.column(0, 10, whole=True, cost=1.0)
    engine = Highs(model)
    assert [engine.could_beat(column, 4.0) for column in range(3)] == [True, False, False]
    assert [engine.could_beat(column, 2.4) for column in range(3)] == [False, False, False]
    assert [engine.could_beat(column, 4.6) for column in range(3)] == [True, True, False]
    assert engine.solve(gap=0).objective == pytest.approx(3.0), "two whole amounts beside the first"
    engine.rule_out([0])
    assert not engine.could_beat(0, 100.0)


def test_set_least() -> None:
    engine = Highs(cheaper_first())
    engine.set_least(2, 3.0)
    assert engine.solve().values == pytest.approx([2, 0, 3])
    engine.set_least(2, 0.0)
    assert engine.solve().values == pytest.approx([4, 1, 0])


def test_a_known_solution_is_taken_up() -> None:
    """Without it nothing is found in this time (test_status); with it the answer is at least as good."""
    model, planted = market_split()
    engine = Highs(model)
    engine.start_from(planted)
    found = engine.solve(gap=0.0, seconds=0.2)
    assert found.status.solved
    assert found.objective <= model.value(planted) + 1e-6
    for row in model.rows:
        assert row.activity(found.values) == pytest.approx(row.least, abs=1e-6)
    assert found.bound <= found.objective + 1e-9


@pytest.mark.parametrize("maximise", [False, True])
def test_a_target_is_enough(maximise: bool) -> None:
    model = knapsack()
    best = Highs(model).solve(gap=0.0).objective
    if not maximise:
        model.maximise, model.cost = False, [-cost for cost in model.cost]
    sign = 1.0 if maximise else -1.0
    target = 0.99 * best
    found = Highs(model).solve(gap=0.0, target=sign * target)
    assert found.status.solved
    assert sign * found.objective >= target - 1e-6


def test_a_solve_that_ran_out_of_time_leaves_the_next_ones_theirs() -> None:
    model, _ = market_split(planted=False)
    engine = Highs(model)
    assert engine.solve(seconds=0.05).status is Status.NOTHING
    assert engine.relax().status is Status.OPTIMAL


def test_the_linear_program_does_not_unmake_the_whole_numbers() -> None:
    model = Model(rows=[Row("r", ((0, 2.0),), least=3.0)])
    model.column(0, 9, whole=True, cost=1.0)
    engine = Highs(model)
    ends = [engine.relax().objective, engine.solve().objective, engine.relax().objective, engine.solve().objective]
    assert ends == pytest.approx([1.5, 2.0, 1.5, 2.0])


def test_the_engine_names_itself() -> None:
    """The wrong optima of 1.14.0 are why 1.15.1 is the least."""
    name, _, number = version().partition(" ")
    assert name == "HiGHS"
    assert tuple(int(part) for part in number.split(".")[:3]) >= (1, 15, 1)
    assert Highs(cheaper_first()).solve().solver == version()


def misvalued() -> tuple[Model, list[float]]:
    """A program with a solution worth 17.0 that HiGHS 1.16.0, offered it, calls optimal at 14.9; the best is 16.3.

    Three groups of options with steps above them, and two rows whose distance from an aim costs.
    """
    model = Model()
    costs = (0, 0, 0, 0, 0, 0, 0, 0, 3, 0, 0, 0, 4, 0, 3, 0, 1, 0.7, 1, 0.7)
    most = (1, 0, 1, 0, 1, 1, 1, 2, 1, 1, 1, 0, 1, 0, 1, 0, None, None, None, None)
    for column, (cost, end) in enumerate(zip(costs, most, strict=True)):
        model.column(0, end, whole=column < 16, cost=cost)
    for used, span in ((0, 0), (2, 0), (4, 1), (6, 2), (8, 1), (10, 0), (12, 0), (14, 0)):
        model.rows.append(Row(f"steps_{used}", ((used + 1, 1.0), (used, -float(span))), most=0.0))
    for place, group in enumerate(((0, 2, 4), (6,), (8, 10, 12, 14))):
        model.rows.append(Row(f"one_{place}", tuple((column, 1.0) for column in group), 1.0, 1.0))
    first = tuple(enumerate((0.0, 1, 0, 1, 7, 2, 7, 4, 3, 1, 1, 1, 4, 1, 0, 1)))
    second = tuple(enumerate((0.0, 1, 0, 1, 0, 1, 0, 1, 0, 2, 0, 1, 0, 1, 0, 1)))
    model.rows.append(Row("aim_0", (*first, (16, 1.0), (17, -1.0)), 0.0, 0.0))
    model.rows.append(Row("band_0", first, 18.0, 18.0))
    model.rows.append(Row("aim_1", (*second, (18, 1.0), (19, -1.0)), 0.0, 0.0))
    known = [0.0] * 20
    for column, value in ((4, 1), (6, 1), (8, 1), (9, 1), (17, 18), (19, 2)):
        known[column] = float(value)
    return model, known


def test_a_known_solution_does_not_hide_a_better_one() -> None:
    model, known = misvalued()
    assert model.value(known) == pytest.approx(17.0)
    assert all(row.most is None or row.activity(known) <= row.most for row in model.rows)
    assert all(row.least is None or row.activity(known) >= row.least for row in model.rows)
    engine = Highs(model)
    engine.start_from(known)
    found = engine.solve(gap=0.0)
    assert found.status is Status.OPTIMAL
    assert found.objective == pytest.approx(16.3)
    assert model.value(found.values) == pytest.approx(16.3)


@pytest.mark.parametrize("lean", [False, True])
@pytest.mark.parametrize("model", [cheaper_first(), knapsack(25, 5)], ids=["least", "most"])
def test_what_is_not_better_does_not_count(model: Model, lean: bool) -> None:
    """A value just worse than the best finds it; the best itself finds nothing; and no later solve minds."""
    engine, worse = Highs(model), -0.5 if model.maximise else 0.5
    engine.lean(lean)
    best = engine.solve(gap=0.0).objective
    assert engine.solve(gap=0.0, below=best + worse).objective == pytest.approx(best)
    assert engine.solve(gap=0.0, below=best).status is Status.INFEASIBLE
    assert engine.relax().status is Status.OPTIMAL
    assert engine.solve(gap=0.0).objective == pytest.approx(best)
