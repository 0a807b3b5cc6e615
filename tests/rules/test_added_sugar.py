"""Little energy from foods flagged as added sugar."""

from __future__ import annotations

import pytest

from mealopt.rules.problem import Wishes
from tests.rules import tiny

COVERS = "added sugar"


@pytest.mark.parametrize(("jam", "ok"), [(20, True), (30, False)])
def test_share_of_the_energy_outside_sessions(jam: float, ok: bool) -> None:
    """WHO, Healthy diet: free sugars under 10 % of energy. 20 of 200 kcal is a tenth; the session's are left out."""
    assert Wishes().added_sugar_share == 0.1
    slots = (tiny.slot(0), tiny.slot(1, "during"), tiny.slot(2))
    plates = (
        (tiny.simple("rice", steps=(1, 50)),),
        (tiny.simple("gel", "added_sugar"),),
        (tiny.simple("jam", "added_sugar"),),
    )
    eaten = {0: ("rice", {"rice": 180}), 1: ("gel", {"gel": 200}), 2: ("jam", {"jam": jam})}
    assert tiny.holds(tiny.day(slots, *plates), COVERS, eaten) == ok
