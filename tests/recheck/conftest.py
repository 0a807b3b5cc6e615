"""A small day made by hand, of the shipped table and pantry, that each test breaks in one place."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from mealopt.core.nutrients import TARGETED
from mealopt.documents.plan import Plan
from mealopt.documents.totals import Portion, day_totals
from mealopt.recheck.check import recheck_plan
from mealopt.table.composition import shipped_composition
from mealopt.table.pantry import shipped_pantry

CASE: dict[str, Any] = {
    "schema": "mealopt/case-1",
    "athlete": {"name": "Skerry demo athlete", "sex": "female", "age": 31, "mass_kg": 60.0, "height_cm": 168.0},
    "kitchen": {"wake": "06:30", "sleep": "22:30"},
    "session": [
        {"day": "tue", "start": "18:00", "minutes": 75, "kind": "run", "effort": "hard"},
        {"day": "wed", "start": "09:00", "minutes": 60, "kind": "ride", "effort": "steady"},
    ],
}

# slot, time, ends, dish, before_session, lead_minutes, limits, foods with their kitchen steps
MEALS: tuple[tuple[Any, ...], ...] = (
    ("breakfast", "07:00", "07:20", "porridge with banana", None, None, {},
     [("oats, rolled", 4), ("milk, semi-skimmed", 4), ("banana", 2), ("orange juice", 3)]),
    ("lunch", "12:30", "12:50", "chicken, rice and broccoli", None, None, {},
     [("rice, white", 6), ("chicken breast", 12), ("broccoli", 4), ("olive oil", 4), ("salt", 2)]),
    ("before", "15:30", "15:40", "bread and jam with juice", 1, 140, {"fibre_g": 6.0, "fat_g": 15.0},
     [("bread, white", 3), ("jam", 4), ("apple juice", 3)]),
    ("during", "18:00", "19:15", "sugar drink", None, None, {"fibre_g": 2.5, "fat_g": 3.75},
     [("sugar", 11), ("salt", 1)]),
    ("dinner", "19:45", "20:05", "salmon, potatoes and broccoli", None, None, {},
     [("salmon", 15), ("potato, boiled", 3), ("broccoli", 4), ("olive oil", 4)]),
)  # fmt: skip


class Bench:
    """Makes the day, adds it up after a change, and asks the recheck."""

    composition = shipped_composition()
    pantry = shipped_pantry()

    def item(self, name: str, steps: int) -> dict[str, Any]:
        """A food at so many kitchen steps."""
        food = self.pantry.foods[name]
        grams = steps * food.step_g
        return {
            "food": name,
            "source": food.source,
            "grams": grams,
            "measure": f"{steps * food.step:g} {food.measure}",
            "state": food.state,
            "as_bought_g": round(grams / food.yield_factor * 100 / food.edible_percent, 1),
        }

    def meal(self, number: int, row: tuple[Any, ...]) -> dict[str, Any]:
        """One meal, not yet added up."""
        slot, time, ends, dish, before, lead, limits, foods = row
        return {
            "number": number, "slot": slot, "time": time, "ends": ends, "dish": dish,
            "dish_id": dish.replace(" ", "_"), "minutes": 10, "before_session": before, "lead_minutes": lead,
            "limits": dict(limits), "items": [self.item(*entry) for entry in foods], "totals": {},
        }  # fmt: skip

    def data(self) -> dict[str, Any]:
        """The document as plain data; all of it holds."""
        day = {
            "day": "tue",
            "date": None,
            "sessions": [
                {"number": 1, "kind": "run", "effort": "hard", "start": "18:00", "ends": "19:15", "minutes": 75}
            ],
            "targets": {},
            "meals": [self.meal(number, row) for number, row in enumerate(MEALS, start=1)],
            "totals": {},
            "coverage": {},
            "missed": [],
            "cautions": ["Planning help for healthy adults, not medical advice."],
        }
        data = {
            "schema": "mealopt/plan-1",
            "kind": "day",
            "case": copy.deepcopy(CASE),
            "table": {"name": self.composition.name, "sha256": self.composition.sha256},
            "days": [day],
            "solve": {"solver": "by hand", "status": "limit", "objective": None, "bound": None, "gap": None,
                      "seconds": 0.0, "rows": 0, "columns": 0},
        }  # fmt: skip
        return self.aimed(self.added_up(data))

    def portions(self, meal: dict[str, Any]) -> list[Portion]:
        found = []
        for item in meal["items"]:
            food = self.pantry.foods[item["food"]]
            found.append(Portion(item["grams"], self.pantry.row(food).per_100g, frozenset(food.counts)))
        return found

    def added_up(self, data: dict[str, Any]) -> dict[str, Any]:
        """The document with totals and coverage that fit its foods."""
        for day in data["days"]:
            totals = day_totals([self.portions(meal) for meal in day["meals"]])
            for meal, found in zip(day["meals"], totals.meals, strict=True):
                meal["totals"] = found
            day["totals"], day["coverage"] = totals.day, totals.coverage
        return data

    def aimed(self, data: dict[str, Any]) -> dict[str, Any]:
        """The document with targets around what its foods hold."""
        for day in data["days"]:
            day["targets"] = {
                key: {"least": 0.99 * day["totals"][key], "aim": day["totals"][key], "most": 1.01 * day["totals"][key]}
                for key in TARGETED
            }
        return data

    def broken(self, data: dict[str, Any], with_pantry: bool = True) -> list[str]:
        """What the recheck finds."""
        plan = Plan.model_validate(data)
        return recheck_plan(plan, self.composition, self.pantry if with_pantry else None)


@pytest.fixture(scope="session")
def bench() -> Bench:
    return Bench()
