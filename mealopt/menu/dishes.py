"""Dishes: what a dish is, and how the files in foods/dishes/ are read and checked.

A file holds one kind of meal. Each dish has components, each with the foods that may fill it, how many of them and a
gram range; ratios hold between components. Grams are as weighed (pantry state: cooked rice, dry oats).
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError, model_validator

from mealopt.core.clock import DAY_MINUTES
from mealopt.core.slots import KINDS, Slot
from mealopt.errors import BadInput
from mealopt.menu.cookable import Measured, measured, why_not
from mealopt.table.files import foods_folder
from mealopt.table.pantry import Food, Pantry, shipped_pantry

_ROLE = re.compile(r"\{(\w+)\}")
_BRACKET = re.compile(r"\[([^\[\]]*)\]")


class Component(BaseModel):
    """One part of a dish.

    role: its name in ratios, name and method. foods: pantry names that may fill it. pick: fewest and most of them at
    once (0 where it may be left out). grams: least and most in all, of those that are there.
    """

    model_config = ConfigDict(extra="forbid", frozen=True)

    role: str = Field(pattern=r"^[a-z_]+$")
    foods: tuple[str, ...] = Field(min_length=1, max_length=14)
    pick: tuple[int, int] = (1, 1)
    grams: tuple[float, float]

    @model_validator(mode="after")
    def _ranges(self) -> Component:
        if not 0 <= self.pick[0] <= self.pick[1] or self.pick[1] < 1:
            raise ValueError(f"pick {list(self.pick)} is not a range of counts")
        if self.pick[1] > len(self.foods):
            raise ValueError(f"pick {list(self.pick)} asks for more foods than the {len(self.foods)} listed")
        if not 0 < self.grams[0] <= self.grams[1]:
            raise ValueError(f"grams {list(self.grams)} is not a range")
        if len(set(self.foods)) < len(self.foods):
            raise ValueError("a food stands twice")
        return self


class Ratio(BaseModel):
    """Grams of one component lie between least and most times the grams of another, where both are there."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    of: str
    to: str
    least: float = Field(default=0.0, ge=0)
    most: float = Field(gt=0)


class Dish(BaseModel):
    """One dish.

    name: words with {role} where the chosen foods stand; a part in [square brackets] goes when its role is left out.
    kind: what sort of meal it is; no two of a kind in one day. kitchen: the kitchen that it comes from.
    method: steps, with {role} where the chosen foods stand; a step goes when a role in it is left out.
    heat: what making it needs. served: warm or cold. reheats: may be eaten reheated where only that is at hand.
    carry: may be taken along and eaten cold. minutes: hands and stove. from_hour: the hour before which nobody eats it.
    fridge_days: 0 where it does not keep. hours_out: may stand without a fridge, at most 2 for cooked food.
    salt_percent: cooking salt as % of the dish.
    energy: kcal that one plate of it holds, least and most. apart: groups of foods of which at most one is on a plate.
    also: seasonings and the like that its method names in amounts without energy (lemon juice, cumin), for the list.
    cooked_apart: roles that the method takes as cooked; what must be done for them is said above it (`plans/ahead.py`).
    """

    model_config = ConfigDict(extra="forbid", frozen=True)

    id: str = Field(pattern=r"^[a-z0-9_]+$")
    name: str = Field(min_length=3, max_length=120)
    kind: str = Field(min_length=3)
    kitchen: str = Field(min_length=3)
    slots: tuple[str, ...] = Field(min_length=1)
    heat: Literal["none", "microwave", "stove"]
    served: Literal["warm", "cold"]
    reheats: bool = False
    carry: bool = False
    freezes: bool = False
    minutes: int = Field(ge=0, le=120)
    from_hour: int = Field(default=0, ge=0, le=23)
    fridge_days: int = Field(ge=0, le=5)
    hours_out: float = Field(ge=0, le=72)
    salt_percent: float = Field(default=0.0, ge=0, le=1.5)
    energy: tuple[float, float]
    method: tuple[str, ...] = Field(min_length=1, max_length=5)
    component: tuple[Component, ...] = Field(min_length=1, max_length=8)
    ratio: tuple[Ratio, ...] = ()
    apart: tuple[tuple[str, ...], ...] = ()
    also: tuple[Annotated[str, Field(min_length=3, max_length=40)], ...] = Field(default=(), max_length=8)
    cooked_apart: tuple[str, ...] = ()

    @property
    def roles(self) -> tuple[str, ...]:
        """The roles of its components, in order."""
        return tuple(part.role for part in self.component)

    @model_validator(mode="after")
    def _names(self) -> Dish:
        roles = self.roles
        if len(set(roles)) < len(roles):
            raise ValueError("a role stands twice")
        for kind in self.slots:
            if kind not in KINDS:
                raise ValueError(f"slot {kind!r} is not one of {', '.join(KINDS)}")
        for ratio in self.ratio:
            if ratio.of not in roles or ratio.to not in roles:
                raise ValueError(f"ratio of {ratio.of!r} to {ratio.to!r} names no component")
        for text in (self.name, *self.method):
            for role in _ROLE.findall(text):
                if role not in roles:
                    raise ValueError(f"{{{role}}} in {text!r} names no component")
        for role in self.cooked_apart:
            if role not in roles:
                raise ValueError(f"cooked_apart: {role!r} names no component")
        listed = {food for part in self.component for food in part.foods}
        for group in self.apart:
            for food in group:
                if food not in listed:
                    raise ValueError(f"apart: {food!r} is in no component")
        if not 0 < self.energy[0] <= self.energy[1]:
            raise ValueError(f"energy {list(self.energy)} is not a range")
        return self

    @model_validator(mode="after")
    def _left_out(self) -> Dish:
        """Name and method read well whichever roles are left out: no word of a food that is not there, no step lost."""
        optional = {part.role for part in self.component if part.pick[0] == 0}
        for inside in _BRACKET.findall(self.name):
            roles = set(_ROLE.findall(inside))
            if not roles or roles - optional:
                raise ValueError(f"name: [{inside}] must hold a role that may be left out, and no other")
        outside = _BRACKET.sub("", self.name)
        if "[" in outside or "]" in outside:
            raise ValueError("name: a square bracket stands alone or within another")
        for role in _ROLE.findall(outside):
            if role in optional:
                raise ValueError(f"name: {{{role}}} may be left out, so it belongs in [square brackets]")
        for step in self.method:
            if len(optional & set(_ROLE.findall(step))) > 1:
                raise ValueError(f"method: {step!r} names two roles that may be left out; give each a step of its own")
        return self


class Menu:
    """All dishes by id, with the pantry that they are cooked from."""

    def __init__(self, dishes: dict[str, Dish], pantry: Pantry) -> None:
        self.dishes = dishes
        self.pantry = pantry
        self._by_slot: dict[str, tuple[Dish, ...]] = {}

    def by_slot(self, kind: str) -> tuple[Dish, ...]:
        """The dishes that suit a kind of slot."""
        if kind not in self._by_slot:
            self._by_slot[kind] = tuple(dish for dish in self.dishes.values() if kind in dish.slots)
        return self._by_slot[kind]

    def for_slot(self, slot: Slot) -> tuple[Dish, ...]:
        """The dishes that may be served in a slot, each once."""
        found = {
            dish.id: dish
            for kind in slot.dish_kinds
            for dish in self.by_slot(kind)
            if slot.start % DAY_MINUTES >= 60 * dish.from_hour
        }
        return tuple(found.values())


def read_dishes(path: Path, pantry: Pantry) -> dict[str, Dish]:
    """The dishes of one file. Raises BadInput with file and dish where one breaks a rule or the pantry lacks a food."""
    try:
        with path.open("rb") as file:
            content = tomllib.load(file)
    except (OSError, tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise BadInput(f"{path}: cannot be read ({error})") from error
    entries = content.get("dish")
    if not isinstance(entries, list):
        raise BadInput(f"{path}: holds no dish; each begins with [[dish]]")
    dishes: dict[str, Dish] = {}
    foods = measured(pantry)
    for number, entry in enumerate(entries, start=1):
        where = f"{path}, dish {number} ({entry.get('id') if isinstance(entry, dict) else entry})"
        dish = checked_dish(entry, where, foods)
        if dish.id in dishes:
            raise BadInput(f"{where}: the id stands twice")
        dishes[dish.id] = dish
    return dishes


def checked_dish(entry: object, where: str, foods: Mapping[str, Measured]) -> Dish:
    """One dish, which can be cooked from these foods. Raises BadInput that begins with where."""
    try:
        dish = Dish.model_validate(entry)
    except ValidationError as error:
        first = error.errors()[0]
        key = ".".join(str(part) for part in first["loc"]) or "dish"
        raise BadInput(f"{where}: {key}: {first['msg']}") from error
    for part in dish.component:
        for food in part.foods:
            if food not in foods:
                raise BadInput(f"{where}: the pantry has no {food!r}")
    clash = why_not(dish, foods)
    if clash:
        raise BadInput(f"{where}: {clash}")
    return dish


def read_menu(folder: Path, pantry: Pantry) -> Menu:
    """All dishes of a folder. Raises BadInput where a file, a dish or an id is wrong."""
    dishes: dict[str, Dish] = {}
    for path in sorted(folder.glob("*.toml")):
        for dish_id, dish in read_dishes(path, pantry).items():
            if dish_id in dishes:
                raise BadInput(f"{path}: dish {dish_id} stands in another file too")
            dishes[dish_id] = dish
    return Menu(dishes, pantry)


@lru_cache(maxsize=1)
def shipped_menu() -> Menu:
    """The dishes that ship with the program, read once a process."""
    return read_menu(foods_folder() / "dishes", shipped_pantry())


def foods_of(dish: Dish, pantry: Pantry) -> list[Food]:
    """Every pantry food that may stand in the dish."""
    return [pantry.foods[name] for part in dish.component for name in part.foods]
