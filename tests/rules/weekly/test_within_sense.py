"""Eggs, nuts and dairy within sense."""

from __future__ import annotations

import pytest

from tests.rules import tiny
from tests.rules.weekly.eaten import eaten, missed

COVERS = "eggs, nuts and dairy"
EGG, NUTS = tiny.food("egg", "egg"), tiny.food("nuts", "nut")
MILK, CHEESE = tiny.food("milk", "dairy"), tiny.food("cheese", "dairy")


def test_each_has_its_most() -> None:
    assert missed(COVERS, [eaten((EGG, 100.0), (NUTS, 50.0), (MILK, 700.0), (CHEESE, 100.0))] * 7) == {}
    days = [eaten((EGG, 110.0), (NUTS, 60.0), (MILK, 790.0), (CHEESE, 20.0))] * 7
    assert missed(COVERS, days) == pytest.approx({"eggs": 70.0, "nuts": 70.0, "dairy": 70.0})
