"""Before a session nothing needs to be heated, and milk keeps away from its last hour."""

from __future__ import annotations

import pytest

from mealopt.rules import weights
from tests.rules import tiny

COVERS = "fuss before a session"


@pytest.mark.parametrize(
    ("kind", "lead", "heat", "kin", "points"),
    [
        ("before", 90, "none", "bread", 0.0),
        ("before", 90, "stove", "bread", weights.HEATED_BEFORE),
        ("before", 90, "none", "milk", 0.0),
        ("before", weights.NO_MILK_MINUTES - 1, "none", "milk", weights.MILK_BEFORE),
        ("snack", None, "stove", "milk", 0.0),
        ("breakfast", 30, "stove", "milk", 0.0),
    ],
)
def test_fuss_is_charged(kind: str, lead: int | None, heat: str, kin: str, points: float) -> None:
    plate = tiny.plate("bite", tiny.part("all", tiny.food("bite", kin=kin)), heat=heat)
    problem = tiny.day((tiny.slot(0, kind, lead_minutes=lead),), (plate,))
    assert tiny.penalty(problem, COVERS, {0: ("bite", {"bite": 100.0})}) == pytest.approx(points)
