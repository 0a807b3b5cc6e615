"""Plans made by hand for the groceries: days, meals and foods in grams as eaten, with the shipped table and pantry."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from mealopt.core.clock import DAYS, clock
from mealopt.documents.plan import Plan
from mealopt.menu.dishes import shipped_menu

MENU = shipped_menu()
FOODS = MENU.pantry.foods


@dataclass(frozen=True)
class Eaten:
    """One meal: foods as name and grams as eaten."""

    foods: Sequence[tuple[str, float]]
    slot: str = "dinner"
    cooked_on: str | None = None
    eaten: bool = False
    also: tuple[str, ...] = ()


def bought(name: str, grams: float) -> float:
    """Grams as bought, worked out here by hand: cooking, then peel and stones."""
    food = FOODS[name]
    return grams / food.yield_factor * 100.0 / food.edible_percent


def item(name: str, grams: float) -> dict[str, Any]:
    """An item of a document; a food that the pantry has not is one of a person's own."""
    food = FOODS.get(name)
    if food is None:
        own = {"source": f"own:mine.toml#{' '.join(name.split())}", "state": "ready", "as_bought_g": grams}
        return {"food": name, "grams": grams, "measure": "some", **own}
    return {
        "food": name,
        "source": food.source,
        "grams": grams,
        "measure": "some",
        "state": food.state,
        "as_bought_g": round(bought(name, grams), 1),
    }


def plan_of(days: Mapping[str, Sequence[Eaten]], *, anew: str | None = None, **kitchen: Any) -> Plan:
    """A plan of these days; anew: the day that was planned anew at noon."""
    solve = {"solver": "none", "status": "limit", "objective": None, "bound": None, "gap": None, "seconds": 0.0,
             "rows": 0, "columns": 0}  # fmt: skip
    entries = [_day(day, meals, "12:00" if day == anew else None) for day, meals in days.items()]
    athlete = {"name": "Skerry test athlete", "mass_kg": 68.0}
    table = MENU.pantry.composition
    return Plan.model_validate(
        {
            "schema": "mealopt/plan-1",
            "kind": "week" if len(entries) > 1 else "day",
            "case": {"athlete": athlete, "kitchen": kitchen},
            "table": {"name": table.name, "sha256": table.sha256},
            "days": entries,
            "solve": solve,
        }
    )


def _day(day: str, meals: Sequence[Eaten], now: str | None) -> dict[str, Any]:
    assert day in DAYS
    return {
        "day": day, "date": None, "sessions": (), "targets": {}, "totals": {}, "coverage": {}, "missed": (),
        "cautions": (), "now": now, "meals": tuple(_meal(number, meal) for number, meal in enumerate(meals, start=1)),
    }  # fmt: skip


def _meal(number: int, meal: Eaten) -> dict[str, Any]:
    time = clock(360 + 90 * number)
    return {
        "number": number, "slot": meal.slot, "time": time, "ends": time, "dish": "a dish", "dish_id": None,
        "minutes": 0, "before_session": None, "lead_minutes": None, "limits": {}, "totals": {},
        "items": tuple(item(name, grams) for name, grams in meal.foods),
        "cooked_on": meal.cooked_on, "eaten": meal.eaten, "also": meal.also,
    }  # fmt: skip
