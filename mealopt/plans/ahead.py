"""What a dish takes as cooked already, because boiling it takes longer than the dish [common practice, no source]."""

from __future__ import annotations

from collections.abc import Iterable

from mealopt.plans.grammar import joined
from mealopt.table.pantry import Food

#: Minutes on the stove, by food where its kin has others; pulses are soaked the night before.
_MINUTES = {
    "rice": 12, "rice, brown": 25, "rice, wild": 40, "barley": 30, "spelt": 30, "buckwheat": 15, "millet": 20,
    "quinoa": 15, "amaranth": 20, "bulgur": 12, "pasta": 11, "noodles": 5, "couscous": 5, "lentils": 25,
    "red lentils": 15, "split peas": 40, "edamame": 5,
}  # fmt: skip
_PULSE = 60

#: What saves the pot of pulses; bitter lupins are not safe before days of soaking and rinsing.
_TIN = " (or a tin of them)"
_SHORT_CUT = {"lupin": " (from a jar: dried ones must soak and be rinsed for days)"}


def cooked_ahead(foods: Iterable[Food], minutes: int, heat: str = "stove") -> str:
    """The sentence that says what must be cooked already; "" where all is cooked in the dish's own minutes.

    heat: what making the dish needs; without any, all that is eaten cooked and is bought raw was cooked before.
    """
    ready = [food for food in foods if food.state == "cooked" and _before(food, minutes, heat)]
    if not ready:
        return ""
    words = (f"{food.says}{_how(food)}" for food in ready)
    return f"Cooked beforehand: {joined(list(dict.fromkeys(words)))}"


def _before(food: Food, minutes: int, heat: str) -> bool:
    if heat != "stove" and food.kin == "egg":
        return True
    return _takes(food) > minutes or (heat == "none" and food.bought_ndb != food.ndb)


def _how(food: Food) -> str:
    if food.kin == "egg":
        return " (boiled firm)"
    return _SHORT_CUT.get(food.kin, _TIN) if _takes(food) == _PULSE else ""


def _takes(food: Food) -> int:
    usual = _PULSE if "pulse" in food.counts and food.yield_factor > 1.5 else 0
    return _MINUTES.get(food.name, _MINUTES.get(food.kin, usual))
