"""Fat over the week."""

from __future__ import annotations

from dataclasses import replace

import pytest

from mealopt.core.nutrients import ENERGY, FAT
from tests.rules import tiny
from tests.rules.weekly.eaten import eaten, missed

COVERS = "fat of the week"
LEAN = replace(tiny.food("rice"), per_gram={ENERGY: 1.0, FAT: 0.0})
OIL = replace(tiny.food("oil"), per_gram={ENERGY: 9.0, FAT: 1.0})


def test_a_fifth_of_the_energy_over_all_days() -> None:
    # 1800 kcal without fat and 50 g of oil: 450 of 2250 kcal are a fifth.
    assert missed(COVERS, [eaten((LEAN, 1800.0)), eaten((OIL, 50.0))]) == {}
    assert missed(COVERS, [eaten((LEAN, 1800.0)), eaten((OIL, 40.0))]) == pytest.approx({"fat": 72.0})
    assert missed(COVERS, [eaten((LEAN, 1800.0)), eaten((OIL, 40.0))], fat_least_percent=16.0) == {}
