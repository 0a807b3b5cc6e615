"""What a dish takes as cooked: its method does not cook it, or has no time [common practice, no source]."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from mealopt.menu.dishes import Dish
from mealopt.plans.grammar import joined
from mealopt.table.pantry import Food

#: Minutes on the stove, by food or, where that is not named, by its kin; pulses are soaked the night before.
_MINUTES = {
    "rice": 12, "rice, brown": 25, "rice, wild": 40, "barley": 30, "spelt": 30, "buckwheat": 15, "millet": 20,
    "quinoa": 15, "amaranth": 20, "bulgur": 12, "pasta": 11, "noodles": 5, "couscous": 5, "lentils": 25,
    "red lentils": 15, "split peas": 40, "edamame": 5, "potato, boiled": 20, "sweet potato, boiled": 15,
    "potato, baked": 30, "sweet potato, baked": 30, "plantain, boiled": 20, "yam, boiled": 20, "taro, boiled": 25,
    "egg": 10,
}  # fmt: skip
_PULSE, _ELSE = 60, 8

#: Minutes that a dish needs beside what boils meanwhile: bringing water to the boil, draining.
_BESIDE = 8

#: What saves the pot of pulses; bitter lupins are not safe before days of soaking and rinsing.
_TIN = " (or a tin of them)"
_SHORT_CUT = {"lupin": " (from a jar: dried ones must soak and be rinsed for days)"}


def cooked_ahead(foods: Iterable[tuple[Food, str]], dish: Dish) -> tuple[str, ...]:
    """The sentences that say what must be cooked for the dish; none where its method cooks all.

    foods: each with the role that it fills. What the method takes as cooked is boiled meanwhile where the dish's
    minutes on the stove allow, and cooked beforehand where they do not.
    """
    before: list[str] = []
    besides: list[str] = []
    for food, role in foods:
        if not _cooked_at_home(food):
            continue
        if role in dish.cooked_apart and dish.heat == "stove" and _takes(food) + _BESIDE <= dish.minutes:
            besides.append(f"{food.says} (about {_takes(food)} min)")
        elif role in dish.cooked_apart or _before(food, dish):
            before.append(f"{food.says}{_how(food)}")
    return (*_sentence("Cooked beforehand", before), *_sentence("Cook besides", besides))


def _sentence(begin: str, words: Sequence[str]) -> tuple[str, ...]:
    return (f"{begin}: {joined(list(dict.fromkeys(words)))}",) if words else ()


def _cooked_at_home(food: Food) -> bool:
    """Whether it is eaten cooked and bought raw or dry."""
    return (food.state == "cooked" and food.bought_ndb != food.ndb) or food.kin == "egg"


def _before(food: Food, dish: Dish) -> bool:
    if dish.heat != "stove" and food.kin == "egg":
        return True
    slow = food.name in _MINUTES or food.kin in _MINUTES or _is_pulse(food)
    by_microwave = dish.heat == "microwave" and food.name.endswith((", baked", ", boiled"))
    return (slow and not by_microwave and _takes(food) > dish.minutes) or dish.heat == "none"


def _is_pulse(food: Food) -> bool:
    return "pulse" in food.counts and food.yield_factor > 1.5


def _how(food: Food) -> str:
    if food.kin == "egg":
        return " (boiled firm)"
    return _SHORT_CUT.get(food.kin, _TIN) if _takes(food) == _PULSE else ""


def _takes(food: Food) -> int:
    usual = _PULSE if _is_pulse(food) else _ELSE
    return _MINUTES.get(food.name, _MINUTES.get(food.kin, usual))
