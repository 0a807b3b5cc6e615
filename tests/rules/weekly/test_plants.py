"""Many different plants."""

from __future__ import annotations

from tests.rules import tiny
from tests.rules.weekly.eaten import comes_out, eaten, missed

COVERS = "different plants"


def plant(name: str, kin: str = "") -> tuple[tiny.Choice, float]:
    return tiny.food(name, "whole_food", kin=kin or name), 10.0


def test_kinds_over_the_week_count_once() -> None:
    days = [eaten(*(plant(f"plant {number}") for number in range(20))), eaten(plant("plant 3"), plant("leek"))]
    assert comes_out(COVERS, days, days=7) == 21.0
    assert missed(COVERS, days, days=7) == {"plants": 4.0}
    assert missed(COVERS, days, days=7, plants_least=21) == {}


def test_kin_count_as_one_and_animals_and_sugar_not_at_all() -> None:
    cheese = (tiny.food("cheese", "whole_food", "dairy"), 30.0)
    jam = (tiny.food("jam", "added_sugar"), 30.0)
    day = eaten(plant("white rice", "rice"), plant("brown rice", "rice"), cheese, jam)
    assert comes_out(COVERS, [day], days=7) == 1.0
