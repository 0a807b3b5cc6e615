"""One meal with juice is free; what is drunk in a session is not counted."""

from __future__ import annotations

import pytest

from mealopt.rules import weights
from tests.rules import tiny

COVERS = "juice again"

SLOTS = (tiny.slot(0), tiny.slot(1, "during"), tiny.slot(2), tiny.slot(3))
PLATES = tuple((tiny.simple("glass", "juice"), tiny.simple("water")) for _ in SLOTS)


@pytest.mark.parametrize(("with_juice", "over"), [((), 0), ((0,), 0), ((0, 1), 0), ((0, 2), 1), ((0, 1, 2, 3), 2)])
def test_juice_again_is_charged(with_juice: tuple[int, ...], over: int) -> None:
    eaten = {
        index: (name, {name: 100.0}) for index in range(4) for name in ["glass" if index in with_juice else "water"]
    }
    assert tiny.penalty(tiny.day(SLOTS, *PLATES), COVERS, eaten) == pytest.approx(over * weights.JUICE)
