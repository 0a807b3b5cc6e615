"""A made-up day in which every family of the week has something to say: the day of its golden rows."""

from __future__ import annotations

from dataclasses import replace

from mealopt.core.nutrients import ENERGY, FAT, FIBRE
from mealopt.rules.problem import Problem
from tests.rules import tiny

FISH = tiny.food("herring", "fish", "oily_fish", steps=(6, 20), **{FAT: 0.1})
HERRING = replace(FISH, per_gram={**FISH.per_gram, "retinol_ug": 0.5})
LENTILS = tiny.food("lentils", "pulse", "whole_food", steps=(5, 20), **{FIBRE: 0.08})
BEEF = tiny.food("beef", "red_meat", steps=(6, 20))
CABBAGE = tiny.food("cabbage, boiled", "vegetable", "whole_food", kin="cabbage", **{ENERGY: 0.2})
EGG = tiny.food("egg", "egg", step=50.0, steps=(1, 3))
NUTS = tiny.food("nuts", "nut", "whole_food", step=5.0, steps=(2, 8))
MILK = tiny.food("milk", "dairy", step=50.0, steps=(2, 6))


def small_plates() -> Problem:
    """A breakfast, a lunch and a dinner; nothing of it is posed yet."""
    slots = (tiny.slot(0, "breakfast"), tiny.slot(1, "lunch"), tiny.slot(2, "dinner"))
    bowl = tiny.plate("bowl", tiny.part("wet", MILK), tiny.part("top", NUTS, EGG))
    fish = tiny.plate("fish", tiny.part("protein", HERRING), tiny.part("side", CABBAGE))
    stew = tiny.plate("stew", tiny.part("protein", BEEF, LENTILS), tiny.part("side", CABBAGE, pick=(0, 1)))
    return tiny.day(slots, (bowl,), (fish, stew), (stew,))
