"""Both engines behind one door, and small programs that have an end known beforehand."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass

import pytest

from mealopt.milp import cbc
from mealopt.milp.answer import Answer, Relaxation
from mealopt.milp.highs import Highs
from mealopt.milp.model import Model, Row


@dataclass(frozen=True)
class Engine:
    """relax: the linear program; solve(model, gap, seconds): with whole numbers."""

    name: str
    relax: Callable[[Model], Relaxation]
    solve: Callable[..., Answer]


def _solve_with_highs(model: Model, gap: float = 0.0, seconds: float = 20.0) -> Answer:
    return Highs(model).solve(gap, seconds)


def _solve_with_cbc(model: Model, gap: float = 0.0, seconds: float = 20.0) -> Answer:
    return cbc.solve(model, gap, seconds)


ENGINES = (
    Engine("HiGHS", lambda model: Highs(model).relax(), _solve_with_highs),
    Engine("CBC", cbc.relax, _solve_with_cbc),
)


@pytest.fixture(params=ENGINES, ids=lambda engine: engine.name)
def engine(request: pytest.FixtureRequest) -> Engine:
    found: Engine = request.param
    return found


def market_split(planted: bool = True, rows: int = 5, columns: int = 40) -> tuple[Model, list[float]]:
    """0/1 columns whose every row must come to an exact sum: small, and far out of reach of both engines.

    The sums are those of a planted choice, which comes with it. Not planted: half of each row's coefficients.
    """
    chance = random.Random(3)
    model = Model()
    choice = [float(chance.randrange(2)) for _ in range(columns)]
    for column in range(columns):
        model.column(0, 1, whole=True, cost=float(1 + column % 7))
    for number in range(rows):
        held = [float(chance.randrange(1, 100)) for _ in range(columns)]
        total = sum(one * there for one, there in zip(held, choice, strict=True)) if planted else sum(held) // 2
        model.rows.append(Row(f"split_{number}", tuple(enumerate(held)), total, total))
    return model, choice


def knapsack(columns: int = 60, rows: int = 10) -> Model:
    """Maximise the worth of 0/1 columns under several weights; solved in well under a second."""
    chance = random.Random(1)
    model = Model(maximise=True)
    for _ in range(columns):
        model.column(0, 1, whole=True, cost=float(chance.randrange(100, 200)))
    for number in range(rows):
        weights = [float(chance.randrange(100, 200)) for _ in range(columns)]
        model.rows.append(Row(f"weight_{number}", tuple(enumerate(weights)), most=float(sum(weights) // 2)))
    return model
