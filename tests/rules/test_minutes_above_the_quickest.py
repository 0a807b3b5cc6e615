"""Minutes in the kitchen above the quickest that there is."""

from __future__ import annotations

import pytest

from mealopt.rules import weights
from tests.rules import tiny

COVERS = "minutes above the quickest"


@pytest.mark.parametrize(("dish", "minutes"), [("quick", 0), ("slow", 30)])
def test_minutes_above_the_quickest_of_its_kind(dish: str, minutes: int) -> None:
    """The quickest lunch takes 5 minutes; where no quickest is known, every minute counts."""
    plates = (tiny.simple("quick", minutes=5), tiny.simple("slow", minutes=35))
    slots = (tiny.slot(0, "lunch"), tiny.slot(1, "dinner"))
    problem = tiny.day(slots, plates, plates, quickest={"lunch": 5, "dinner": 5})
    eaten = {0: (dish, {dish: 10.0}), 1: ("quick", {"quick": 10.0})}
    assert tiny.penalty(problem, COVERS, eaten) == pytest.approx(minutes * weights.MINUTE)
    unknown = tiny.with_wishes(problem, quickest={})
    assert tiny.penalty(unknown, COVERS, eaten) == pytest.approx((minutes + 10) * weights.MINUTE)
