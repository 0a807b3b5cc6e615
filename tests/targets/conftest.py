"""A case built in memory, and ways to vary it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from mealopt.people.case import Case

ATHLETE: dict[str, Any] = {
    "name": "Skerry test athlete",
    "sex": "female",
    "age": 31,
    "mass_kg": 68.0,
    "height_cm": 171.0,
    "body_fat_percent": 24.0,
    "steps_per_day": 8000,
    "lifting_hours_per_week": 4.0,
    "cautions": (),
}


def make(
    athlete: dict[str, Any] | None = None,
    goal: dict[str, Any] | None = None,
    session: list[dict[str, Any]] | None = None,
    kitchen: dict[str, Any] | None = None,
) -> Case:
    """The test athlete's case with the given keys changed; None removes a key."""
    body = {key: value for key, value in {**ATHLETE, **(athlete or {})}.items() if value is not None}
    data = {"schema": "mealopt/case-1", "athlete": body, "goal": goal or {}, "kitchen": kitchen or {}}
    return Case.model_validate({**data, "session": session or []})


def training(day: str, start: str = "08:00", minutes: int = 60, **more: Any) -> dict[str, Any]:
    """One session's table."""
    return {"day": day, "start": start, "minutes": minutes, "kind": "run", "effort": "steady", **more}


@pytest.fixture
def case() -> Callable[..., Case]:
    """Makes a case: case(athlete, goal, session, kitchen)."""
    return make


@pytest.fixture
def session() -> Callable[..., dict[str, Any]]:
    """Makes a session's table: session(day, start, minutes, **more)."""
    return training
