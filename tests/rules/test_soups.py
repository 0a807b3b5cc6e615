"""One bowl of soup a day is free."""

from __future__ import annotations

import pytest

from mealopt.rules import weights
from mealopt.rules.soups import BOWLS
from tests.rules import tiny

COVERS = "soup again"


@pytest.mark.parametrize("bowls", range(4))
def test_each_bowl_beyond_the_first_is_charged(bowls: int) -> None:
    slots = tuple(tiny.slot(index) for index in range(3))
    kinds = (*sorted(BOWLS)[:3],)
    plates = tuple(
        (tiny.plate(f"bowl_{index}", tiny.part("all", tiny.food("broth")), kind=kind), tiny.simple("rice"))
        for index, kind in enumerate(kinds)
    )
    eaten = {index: (f"bowl_{index}", {"broth": 100.0}) if index < bowls else ("rice", {"rice": 100.0})
             for index in range(3)}  # fmt: skip
    charged = tiny.penalty(tiny.day(slots, *plates), COVERS, eaten)
    assert charged == pytest.approx(weights.SOUP * max(0, min(bowls, 3) - 1))
