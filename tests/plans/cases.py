"""The Skerry test athlete on a plain day, changed where a test asks for it, and planned."""

from __future__ import annotations

from typing import Any

from mealopt import api
from mealopt.documents.plan import Meal, Plan
from mealopt.menu.dishes import shipped_menu
from mealopt.people.case import Case
from mealopt.people.reading import case_from_dict
from mealopt.plans.day.pose import PosedDay, pose_day

ATHLETE: dict[str, Any] = {
    "name": "Skerry test athlete",
    "sex": "female",
    "age": 31,
    "mass_kg": 68.0,
    "height_cm": 171.0,
    "steps_per_day": 8000,
    "lifting_hours_per_week": 2.0,
    "cautions": [],
}
RUN: dict[str, Any] = {"day": "tue", "start": "17:30", "minutes": 60, "kind": "run", "effort": "steady"}


def case(*session: dict[str, Any], fixed: list[dict[str, Any]] | None = None, goal: Any = None, **kitchen: Any) -> Case:
    """The case with these sessions and settled meals of tuesday, and other keys of its kitchen by name."""
    settled = [{"day": "tue", **entry} for entry in fixed or ()]
    own = {"wake": "06:30", "sleep": "22:30"} | kitchen | ({"fixed": settled} if settled else {})
    data = {"schema": "mealopt/case-1", "athlete": ATHLETE, "goal": goal or {}, "kitchen": own, "session": session}
    return case_from_dict({key: list(value) if key == "session" else value for key, value in data.items()}, "test case")


def planned(*session: dict[str, Any], gap: float = 0.1, **keys: Any) -> Plan:
    """The tuesday of that case, planned with a wide gap: these tests ask what is kept, not how near the best it is."""
    return api.plan_day(case(*session, **keys), "tue", gap=gap)


def posed(*session: dict[str, Any], **keys: Any) -> PosedDay:
    """The same day posed, not solved."""
    return pose_day(case(*session, **keys), "tue")


def at(plan: Plan, time: str) -> Meal:
    """The meal that begins at this time."""
    return next(meal for meal in plan.days[0].meals if meal.time == time)


def foods(plan: Plan) -> list[str]:
    """Every food of the day, as often as it is eaten."""
    return [item.food for meal in plan.days[0].meals for item in meal.items]


def small_menu(*names: str) -> list[str]:
    """What a case never wants, so that only these dishes are left."""
    return [dish for dish in shipped_menu().dishes if dish not in names]
