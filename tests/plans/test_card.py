"""The order of a day's card: what the day cannot do without stands first where there is little of it."""

from __future__ import annotations

import pytest

from bench.cases import CASES, DAY
from bench.whole import read
from mealopt.menu.fit import protein_per_kcal
from mealopt.plans.day import card as cards
from mealopt.plans.day.pose import PosedDay, pose_day


def posed(name: str) -> PosedDay:
    """A day of the bench by name."""
    return pose_day(read(next(case for case in CASES if case.name == name)), DAY)


def test_where_few_plates_are_as_rich_in_protein_as_the_day_they_stand_first() -> None:
    day = posed("vegan without soy, at rest")
    assert day.protein_wanted > 0
    few = 0
    for plates in day.card().all:
        rich = [protein_per_kcal(plate) >= day.protein_wanted for plate in plates]
        if sum(rich) <= cards.SCARCE * len(rich):
            few += 1
            assert rich == sorted(rich, reverse=True)
    assert few


def test_elsewhere_the_order_is_drawn(monkeypatch: pytest.MonkeyPatch) -> None:
    """With enough rich plates nothing is put first for its protein, so that days keep their variety."""
    drawn = posed("small rest day").card().all
    monkeypatch.setattr(cards, "SCARCE", 0.0)
    assert posed("small rest day").card().all == drawn
    monkeypatch.setattr(cards, "SCARCE", 1.0)
    assert posed("small rest day").card().all != drawn
