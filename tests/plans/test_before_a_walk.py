"""A stroll is nothing to eat for; its limits hold all the same. Some things nobody eats in the morning."""

from __future__ import annotations

import pytest

from mealopt.core.slots import Slot
from mealopt.menu.dishes import shipped_menu
from tests.plans.cases import posed

WALK = {"day": "tue", "start": "10:30", "minutes": 60, "kind": "walk", "effort": "easy"}


def before(session: dict[str, object]) -> list[Slot]:
    """The meals of the two hours before it."""
    slots = posed(session, meals_per_day=5).slots
    return [slot for slot in slots if slot.lead_minutes is not None and slot.lead_minutes < 120]


def test_what_stands_before_a_stroll_is_a_snack_within_its_limits() -> None:
    assert {slot.kind for slot in before(WALK)} <= {"snack", "breakfast", "lunch"}
    assert all(slot.limits for slot in before(WALK))


@pytest.mark.parametrize("changed", [{"kind": "run"}, {"minutes": 120}])
def test_before_work_it_is_food_for_work(changed: dict[str, object]) -> None:
    assert "before" in {slot.kind for slot in posed(WALK | changed, meals_per_day=5).slots}


@pytest.mark.parametrize(("hour", "there"), [(9, False), (12, True), (16, True), (33, False)])
def test_ice_cream_is_not_for_the_morning(hour: int, there: bool) -> None:
    slot = Slot(index=0, kind="snack", start=60 * hour, end=60 * hour + 20, label="snack")
    assert ("frozen_yoghurt_and_fruit" in {dish.id for dish in shipped_menu().for_slot(slot)}) == there
