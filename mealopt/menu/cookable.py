"""Whether a dish can be cooked within its own limits: intervals of grams, narrowed by steps, ratios and energy.

Every interval holds all that a plate could hold, so a dish that is refused here cannot be cooked at all. A dish that
passes may still, rarely, have no plate: the intervals know nothing of two limits that only clash together.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from mealopt.core.nutrients import ENERGY
from mealopt.table.pantry import Food, Pantry

if TYPE_CHECKING:
    from mealopt.menu.dishes import Component, Dish

_ROUNDS = 100
_SLACK = 1e-6


class Measured(NamedTuple):
    """A food in numbers. step: grams of one kitchen step; fewest, most: of them in a meal; kcal: in one gram."""

    step: float
    fewest: int
    most: int
    kcal: float


class _Range(NamedTuple):
    """One food in one component: grams of a step, fewest and most steps there, kcal in a gram."""

    step: float
    fewest: int
    most: int
    kcal: float


class _Part:
    """A component as an interval of grams, with the foods that fit it."""

    __slots__ = ("foods", "high", "low", "most_foods", "role")

    def __init__(self, component: Component, foods: list[_Range]) -> None:
        self.role = component.role
        self.foods = foods
        self.most_foods = component.pick[1]
        fewest = max(component.pick[0], 1)
        least = sorted(food.fewest * food.step for food in foods)[:fewest]
        most = sorted(food.most * food.step for food in foods)[-self.most_foods :]
        self.low = max(component.grams[0], sum(least))
        self.high = min(component.grams[1], sum(most))

    @property
    def empty(self) -> bool:
        """Whether no amount is left."""
        return not self.foods or self.low > self.high * (1 + _SLACK) + _SLACK

    def narrow(self, low: float, high: float) -> bool:
        """Hold it within these grams too; whether that changed anything worth another round."""
        moved = low > self.low * (1 + _SLACK) or high < self.high * (1 - _SLACK)
        self.low, self.high = max(self.low, low), min(self.high, high)
        return moved

    def snap(self) -> None:
        """Move the ends of a part of one food onto whole steps of a food that reaches them."""
        if self.most_foods > 1:
            return
        kept = []
        for step, fewest, most, kcal in self.foods:
            first = max(fewest, math.ceil(self.low / step - _SLACK))
            last = min(most, math.floor(self.high / step + _SLACK))
            if first <= last:
                kept.append(_Range(step, first, last, kcal))
        self.foods = kept
        if kept:
            self.low = min(food.fewest * food.step for food in kept)
            self.high = max(food.most * food.step for food in kept)

    @property
    def energy(self) -> tuple[float, float]:
        """At least and at most so many kcal."""
        if self.most_foods > 1:
            kcal = [food.kcal for food in self.foods]
            return self.low * min(kcal), self.high * max(kcal)
        return (
            min(food.fewest * food.step * food.kcal for food in self.foods),
            max(food.most * food.step * food.kcal for food in self.foods),
        )


@lru_cache(maxsize=4)
def measured(pantry: Pantry) -> Mapping[str, Measured]:
    """Every food of the pantry in numbers, with the steps that a plate gives it."""
    return {name: in_numbers(food, pantry) for name, food in pantry.foods.items()}


def in_numbers(food: Food, pantry: Pantry) -> Measured:
    """One food in numbers."""
    step = food.step_g
    fewest = max(1, math.ceil(food.least_g / step - 1e-9))
    most = max(fewest, math.floor(food.most_meal_g / step + 1e-9))
    return Measured(step, fewest, most, pantry.row(food).per_100g[ENERGY] / 100.0)


def why_not(dish: Dish, foods: Mapping[str, Measured]) -> str | None:
    """Why the dish cannot be cooked from these foods within its own limits; None where nothing speaks against it."""
    there: dict[str, _Part] = {}
    may_be: list[_Part] = []
    for component in dish.component:
        part = _Part(component, _fitting(component, foods))
        fewest, words = component.pick[0], f"{component.grams[0]:g} to {component.grams[1]:g} g"
        if fewest == 0:
            if not part.empty:
                may_be.append(part)
        elif len(part.foods) < fewest or part.empty:
            return f"{component.role}: no {fewest} of its foods fit {words} in whole steps within a meal's most"
        else:
            there[component.role] = part
    return _forced_apart(dish, foods) or _narrowed(dish, there) or _energy(dish, there, may_be)


def _fitting(component: Component, foods: Mapping[str, Measured]) -> list[_Range]:
    """The foods of a component that can stand in it at all."""
    least, most = component.grams
    alone = component.pick[1] == 1
    fitting = []
    for name in component.foods:
        if name in foods:
            step, fewest, last, kcal = foods[name]
            last = min(last, math.floor(most / step + 1e-9))
            if alone:
                fewest = max(fewest, math.ceil(least / step - 1e-9))
            if fewest <= last:
                fitting.append(_Range(step, fewest, last, kcal))
    return fitting


def _narrowed(dish: Dish, there: dict[str, _Part]) -> str | None:
    """Narrow the parts that are always there by the ratios between them."""
    ratios = [ratio for ratio in dish.ratio if ratio.of in there and ratio.to in there]
    moved = bool(ratios)
    for _ in range(_ROUNDS):
        if not moved:
            return None
        moved = False
        for ratio in ratios:
            of, to = there[ratio.of], there[ratio.to]
            if of.narrow(ratio.least * to.low, ratio.most * to.high):
                of.snap()
                moved = True
            if to.narrow(of.low / ratio.most, of.high / ratio.least if ratio.least else math.inf):
                to.snap()
                moved = True
            if of.empty or to.empty:
                return f"{ratio.of} cannot be {ratio.least:g} to {ratio.most:g} times {ratio.to} within their grams"
    return None


def _energy(dish: Dish, there: dict[str, _Part], may_be: list[_Part]) -> str | None:
    least = most = 0.0
    for part in there.values():
        low, high = part.energy
        least, most = least + low, most + high
    most += sum(part.energy[1] for part in may_be)
    if most < dish.energy[0] - _SLACK:
        return f"energy: holds at most {most:.0f} kcal, at least {dish.energy[0]:g} asked"
    if least > dish.energy[1] + _SLACK:
        return f"energy: holds at least {least:.0f} kcal, at most {dish.energy[1]:g} asked"
    return None


def _forced_apart(dish: Dish, foods: Mapping[str, Measured]) -> str | None:
    """Two parts that can only be filled from one group of foods that do not go together."""
    for group in dish.apart:
        forced = 0
        for component in dish.component:
            free = sum(name in foods and name not in group for name in component.foods)
            forced += max(0, component.pick[0] - free)
        if forced > 1:
            return f"apart: {', '.join(group)} cannot be kept apart"
    return None
