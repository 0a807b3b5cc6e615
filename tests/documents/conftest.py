"""A plan document of the form that the README gives, in plain data."""

from __future__ import annotations

from typing import Any

import pytest


def example() -> dict[str, Any]:
    """A fresh copy of it."""
    band = {"least": 2700.0, "aim": 2740.0, "most": 2800.0}
    meal = {
        "number": 1, "slot": "breakfast", "time": "06:05", "ends": "06:25", "dish": "small porridge",
        "dish_id": "porridge", "minutes": 10, "before_session": 1, "lead_minutes": 65,
        "limits": {"fibre_g": 4.0, "fat_g": 10.0},
        "items": [{"food": "oats, rolled", "source": "USDA-SR28:08120", "grams": 35.0,
                   "measure": "1/2 cup less a spoon", "state": "dry", "as_bought_g": 35.0}],
        "totals": {"energy_kcal": 132.65, "fibre_g": 3.535},
    }  # fmt: skip
    day = {
        "day": "tue", "date": "2027-03-09",
        "sessions": [{"number": 1, "kind": "run", "effort": "hard", "start": "07:30", "ends": "08:45", "minutes": 75}],
        "targets": {"energy_kcal": band, "protein_g": {"least": 122.0, "aim": None, "most": None}},
        "meals": [meal], "totals": {"energy_kcal": 132.65}, "coverage": {"fibre_g": 0.99}, "missed": [],
        "cautions": ["not medical advice"],
    }  # fmt: skip
    return {
        "schema": "mealopt/plan-1", "kind": "day", "case": {"schema": "mealopt/case-1"},
        "table": {"name": "USDA SR28", "sha256": "ab" * 32}, "days": [day],
        "groceries": [{"aisle": "grains", "food": "oats, rolled", "need_g": 245, "at_home_g": 0, "packs": 1,
                       "pack_g": 500, "buy_g": 500, "price": 1.20, "days": ["mon", "tue"]}],
        "week": {"checks": [{"rule": "oily fish", "least": 1, "value": 2, "most": None, "met": True}]},
        "solve": {"solver": "HiGHS 1.16.0", "status": "optimal", "objective": 41.2, "bound": 40.9, "gap": 0.007,
                  "seconds": 0.8, "rows": 640, "columns": 1790},
    }  # fmt: skip


@pytest.fixture
def document() -> dict[str, Any]:
    return example()
