"""Which dish fits which slot, and what may then stand on the plate: foods, steps, and what each gram of them holds."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from hashlib import blake2b

from mealopt.core.filters import FoodFilter
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FAT, FIBRE, FRUIT_VEGETABLE, PROTEIN, SATURATED, SODIUM
from mealopt.core.slots import Slot
from mealopt.menu.dishes import Component, Dish, Menu
from mealopt.table.pantry import Food, Pantry


@dataclass(frozen=True, slots=True)
class Choice:
    """One food that may fill a part of a plate.

    per_gram: nutrient key -> amount in one gram; a nutrient that the table leaves blank is absent. step_g: grams of one
    kitchen step; steps: fewest and most of them where it is picked. price_per_gram: None where there is no price.
    """

    name: str
    says: str
    kin: str
    per_gram: dict[str, float]
    counts: frozenset[str]
    settles: str
    step_g: float
    steps: tuple[int, int]
    most_day_g: float
    price_per_gram: float | None = None

    @property
    def least_g(self) -> float:
        """Grams of it where it is picked at its least."""
        return self.steps[0] * self.step_g

    @property
    def most_g(self) -> float:
        """Grams of it at its most."""
        return self.steps[1] * self.step_g


@dataclass(frozen=True, slots=True)
class Part:
    """One component of a plate: its role, how many of its choices at once, and grams in all where any is there."""

    role: str
    pick: tuple[int, int]
    grams: tuple[float, float]
    choices: tuple[Choice, ...]


@dataclass(frozen=True, slots=True)
class Plate:
    """A dish as it can be served to this athlete in this slot.

    place: on the day's card, from 0; None where that is its place among the plates that it is posed with. salt: what a
    gram of the salt holds that it is cooked with, by nutrient key; empty where it is not salted.
    """

    dish: Dish
    parts: tuple[Part, ...]
    place: int | None = None
    salt: Mapping[str, float] = field(default_factory=dict)


def per_gram(food: Food, pantry: Pantry) -> dict[str, float]:
    """Nutrients in one gram of a food; fruit and vegetables count as grams of themselves. Unknown ones are absent."""
    amounts = {key: value / 100.0 for key, value in pantry.row(food).per_100g.items()}
    if {"fruit", "vegetable"} & set(food.counts):
        amounts[FRUIT_VEGETABLE] = 1.0
    return amounts


@lru_cache(maxsize=8192)
def draw(seed: str, name: str) -> bytes:
    """A name's place in the order that a seed gives."""
    return blake2b(f"{seed}|{name}".encode(), digest_size=8).digest()


#: Foods that few would choose for themselves; another food of the part stands in, where nobody prefers them.
SELDOM = frozenset({"lupin beans", "matzo", "lemonade"})

#: What stands in for meat, for those who eat meat or fish.
FOR_MEAT = frozenset({"tempeh", "tofu, firm", "tofu, fried", "seitan"})


def seldom(name: str, wishes: FoodFilter) -> bool:
    """Whether this eater would seldom choose the food."""
    if name in wishes.prefer:
        return False
    return name in SELDOM or (wishes.diet in ("omnivore", "pescatarian") and name in FOR_MEAT)


class Larder:
    """The foods that one athlete may be given, as choices, each made once."""

    def __init__(
        self,
        menu: Menu,
        foods: FoodFilter,
        prices: dict[str, float] | None = None,
        seed: str | None = None,
        thrifty: bool = False,
    ) -> None:
        """seed: of the foods that stand in today for those they are alike to; None keeps every food. thrifty: the
        cheaper of them stands in, whatever the seed draws."""
        self.menu = menu
        self.filter = foods
        self._seed, self.thrifty = seed, thrifty
        self.prices = prices or {}
        self._choices: dict[str, Choice | None] = {}

    def choice(self, name: str) -> Choice | None:
        """The food as a choice with the pantry's own limits; None where the filter refuses it."""
        if name not in self._choices:
            self._choices[name] = self._make(self.menu.pantry.foods[name])
        return self._choices[name]

    def without_alike(self, component: Component, choices: tuple[Choice, ...]) -> tuple[Choice, ...]:
        """The choices less those that another stands in for today: preferred ones stay, "less" and seldom ones go."""
        if self._seed is None or len(choices) <= component.pick[1]:
            return choices
        wishes = self.filter
        usual = tuple(choice for choice in choices if not seldom(choice.name, wishes))
        choices = usual if len(usual) >= max(1, component.pick[0]) else choices

        def order(choice: Choice) -> tuple[int, float, bytes]:
            liked = 0 if choice.name in wishes.prefer else 2 if choice.name in wishes.less else 1
            price = (choice.price_per_gram or 0.0) if self.thrifty else 0.0
            return liked, price, draw(self._seed or "", choice.name)

        kept: list[Choice] = []
        for choice in sorted(choices, key=order):
            grams = min(choice.most_g, component.grams[1])
            same = sum(alike(choice, other, grams) for other in kept)
            if choice.name in wishes.prefer or same < component.pick[1]:
                kept.append(choice)
        names = {choice.name for choice in kept}
        return tuple(choice for choice in choices if choice.name in names)

    def _asked_for(self, food: Food) -> bool:
        """Whether a food that stands in for gluten, milk or meat is for this eater; other foods are for everybody."""
        wishes = self.filter
        reasons = {
            "instead_of_gluten": wishes.gluten_free or "gluten" in wishes.avoid_allergens,
            "instead_of_milk": wishes.diet == "vegan" or "milk" in wishes.avoid_allergens,
            "instead_of_meat": wishes.diet in ("vegetarian", "vegan"),
        }
        standing_in = [reason for reason in reasons if reason in food.counts]
        return not standing_in or food.name in wishes.prefer or any(reasons[reason] for reason in standing_in)

    def _make(self, food: Food) -> Choice | None:
        if food.name in self.filter.never or self.filter.refuses(food.diet, frozenset(food.allergens)):
            return None
        if not self._asked_for(food):
            return None
        least = max(1, math.ceil(food.least_g / food.step_g - 1e-9))
        most = math.floor(food.most_meal_g / food.step_g + 1e-9)
        return Choice(
            name=food.name,
            says=food.says,
            kin=food.kin,
            per_gram=per_gram(food, self.menu.pantry),
            counts=frozenset(food.counts),
            settles=food.settles,
            step_g=food.step_g,
            steps=(least, max(most, least)),
            most_day_g=food.most_day_g,
            price_per_gram=self.prices.get(food.name),
        )


#: Two foods of a part stand in for each other where a full portion differs by no more than this (project's assumption).
ALIKE = {ENERGY: 40.0, PROTEIN: 2.5, CARBOHYDRATE: 8.0, FAT: 2.5, FIBRE: 2.0, SATURATED: 1.5, SODIUM: 250.0}


def alike(one: Choice, other: Choice, grams: float) -> bool:
    """Whether a portion of so many grams makes no odds between the two."""
    if one.counts != other.counts or one.settles != other.settles:
        return False
    return all(
        (key in one.per_gram) == (key in other.per_gram)
        and abs(one.per_gram.get(key, 0.0) - other.per_gram.get(key, 0.0)) * grams <= most
        for key, most in ALIKE.items()
    )


def kitchen_allows(dish: Dish, slot: Slot) -> bool:
    """Whether the dish can be made, heated or taken along for this slot, in the minutes at hand."""
    if dish.minutes <= slot.minutes_most and (
        dish.heat == "none" or (slot.stove and dish.heat == "stove") or (slot.heat and dish.heat == "microwave")
    ):
        return True
    return dish.carry or (dish.reheats and slot.heat)


#: A plate holds no more of a boiled grain than this many grams for each kcal that suits the meal, and so many at least:
#: a mountain of rice is no dinner for somebody small [common practice, no source].
GRAIN_PER_KCAL, GRAIN_FREE = 0.37, 200.0
GRAINS = frozenset({"rice", "pasta", "noodles", "couscous", "bulgur", "millet", "quinoa", "buckwheat", "barley"})


def _grain_most(choice: Choice, slot: Slot) -> float:
    """The most grams of a boiled grain that suit the slot; no limit for other foods, or where no energy suits it."""
    if choice.kin not in GRAINS or slot.kind == "during" or slot.energy_aim <= 0:
        return math.inf
    return max(GRAIN_FREE, GRAIN_PER_KCAL * slot.energy_aim)


def _limited(choice: Choice, component: Component, slot: Slot) -> Choice | None:
    """The choice within what component and slot leave it; None where not even its least fits."""
    if slot.settles and choice.settles == "badly":
        return None
    most = min(choice.most_g, component.grams[1], _grain_most(choice, slot))
    for key, limit in ((ENERGY, slot.energy_most), *slot.limits.items()):
        if key not in choice.per_gram:
            return None
        if choice.per_gram[key] > 0:
            most = min(most, limit / choice.per_gram[key])
    fewest, largest = choice.steps[0], math.floor(most / choice.step_g + 1e-9)
    if component.pick[1] == 1:
        fewest = max(fewest, math.ceil(component.grams[0] / choice.step_g - 1e-9))
    if largest < fewest:
        return None
    return replace(choice, steps=(fewest, largest))


def plate(dish: Dish, slot: Slot, larder: Larder) -> Plate | None:
    """The dish as it can be served in the slot; None where it suits another hour, kitchen or eater."""
    if not slot.suits(dish.slots) or dish.id in larder.filter.never or not kitchen_allows(dish, slot):
        return None
    if min(slot.energy_most, dish.energy[1]) < max(slot.energy_least, dish.energy[0]):
        return None
    parts = []
    for component in dish.component:
        options = (larder.choice(name) for name in component.foods)
        choices = tuple(
            fitting
            for choice in options
            if choice is not None and (fitting := _limited(choice, component, slot)) is not None
        )
        if len(choices) < component.pick[0]:
            return None
        choices = larder.without_alike(component, choices)
        if choices:
            pick = (component.pick[0], min(component.pick[1], len(choices)))
            parts.append(Part(component.role, pick, component.grams, choices))
    found = Plate(dish, tuple(parts), salt=_salt_of(dish, parts, larder))
    return found if _least_fits(found, slot) else None


SALT = "salt"


def _salt_of(dish: Dish, parts: Sequence[Part], larder: Larder) -> dict[str, float]:
    """What a gram of the dish's cooking salt holds; nothing where it takes none, or has salt among its own foods."""
    pantry = larder.menu.pantry
    own = any(choice.name == SALT for part in parts for choice in part.choices)
    if own or not dish.salt_percent or SALT in larder.filter.never or SALT not in pantry.foods:
        return {}
    return per_gram(pantry.foods[SALT], pantry)


def _least_fits(found: Plate, slot: Slot) -> bool:
    """Whether the plate at its least stays within the slot's limits (a necessary condition, not a sufficient one)."""
    limits = {ENERGY: slot.energy_most} | {key: slot.limits[key] for key in (FIBRE, FAT) if key in slot.limits}
    for key, limit in limits.items():
        least = 0.0
        for part in found.parts:
            each = sorted(choice.per_gram[key] * choice.least_g for choice in part.choices)
            least += sum(each[: part.pick[0]])
        if least > limit + 1e-9:
            return False
    return True
