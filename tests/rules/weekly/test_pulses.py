"""Pulses on some days."""

from __future__ import annotations

from tests.rules import tiny
from tests.rules.weekly.eaten import eaten, missed

COVERS = "pulses"
LENTILS = tiny.food("lentils", "pulse")


def test_two_days_with_a_portion() -> None:
    assert missed(COVERS, [eaten((LENTILS, 80.0)), eaten((LENTILS, 200.0)), *[eaten()] * 5]) == {}
    assert missed(COVERS, [eaten((LENTILS, 79.0)), eaten((LENTILS, 200.0)), *[eaten()] * 5]) == {"pulses": 1.0}
    assert missed(COVERS, [eaten()] * 7, pulses_least=0) == {}
