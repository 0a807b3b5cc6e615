"""What the tests of food and drink in sessions share: a ride, an athlete with other keys, a planned day's fuel."""

from __future__ import annotations

from typing import Any

from mealopt.documents.fuel import FuelPlan
from mealopt.documents.plan import Plan
from mealopt.people.case import Case

RIDE: dict[str, Any] = {"day": "tue", "start": "08:30", "minutes": 150, "kind": "ride", "effort": "steady"}


def with_athlete(case: Case, **keys: Any) -> Case:
    """The case with other keys of its athlete."""
    data = case.model_dump(mode="json", by_alias=True, exclude_unset=True)
    return Case.model_validate({**data, "athlete": {**data["athlete"], **keys}})


def fuel_of(plan: Plan) -> FuelPlan:
    """The fuel of the day's one long session."""
    found = [session.fuel for session in plan.days[0].sessions if session.fuel is not None]
    assert len(found) == 1
    return found[0]
