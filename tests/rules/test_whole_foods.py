"""Most energy from whole foods."""

from __future__ import annotations

import pytest

from tests.rules import tiny

COVERS = "whole foods"
SLOTS = (tiny.slot(0), tiny.slot(1, "during"), tiny.slot(2))
PLATES = (
    (tiny.simple("rice", "whole_food", steps=(1, 50)),),
    (tiny.simple("gel", "session_food"),),
    (tiny.simple("cake", steps=(1, 50)),),
)


@pytest.mark.parametrize(("cake", "ok"), [(30, True), (40, False)])
def test_share_of_the_energy_outside_sessions(cake: float, ok: bool) -> None:
    """70 g of every 100 kcal; 200 kcal in the session play no part."""
    problem = tiny.day(SLOTS, *PLATES, whole_food_share=0.7)
    eaten = {0: ("rice", {"rice": 70}), 1: ("gel", {"gel": 200}), 2: ("cake", {"cake": cake})}
    assert tiny.holds(problem, COVERS, eaten) == ok


def test_no_share_asks_nothing() -> None:
    problem = tiny.day(SLOTS, *PLATES, whole_food_share=0.0)
    assert tiny.rows(problem, COVERS) == {}
