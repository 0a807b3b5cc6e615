"""A person's own dishes, and their own foods on the shipped dishes: the menu of one case.

The shipped menu and its dishes stay as they are; a dish on which an own food may stand is a copy.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from functools import lru_cache
from pathlib import Path
from typing import Any

from mealopt.errors import BadInput
from mealopt.menu.cookable import Measured, in_numbers, measured
from mealopt.menu.dishes import Component, Dish, Menu, checked_dish, shipped_menu
from mealopt.table.find import nearest
from mealopt.table.finding import Finding
from mealopt.table.own import OwnPantry, Shelf, own_shelf, own_text
from mealopt.table.own_checks import own_findings
from mealopt.table.own_entry import OwnFood


class OwnMenu(Menu):
    """The shipped dishes and a person's own, cooked from the shipped pantry and their own foods.

    plain: no dish holds a supplement; the pantry knows them all the same, for what is settled.
    """

    def __init__(self, dishes: dict[str, Dish], pantry: OwnPantry, plain: bool = False) -> None:
        super().__init__(dishes, pantry)
        self.shelf: Shelf = pantry.shelf
        self.plain = plain


def read_own(path: Path, plain: bool = False) -> OwnMenu:
    """The menu with what an own file adds; plain: with no supplement in any dish.

    Raises BadInput with file, entry and key; Refused where supplements pass an upper limit.
    """
    return own_menu(str(path), own_text(path), plain)


@lru_cache(maxsize=8)
def own_menu(where: str, text: str, plain: bool = False) -> OwnMenu:
    """The same from the file's text. where: its path."""
    shipped = shipped_menu()
    shelf = own_shelf(where, text)
    pantry = OwnPantry(shipped.pantry, shelf)
    left_out = {food.name for food in shelf.supplements} if plain else set()
    standing = _standing(shelf, left_out)
    dishes = {dish_id: with_own(dish, standing) for dish_id, dish in shipped.dishes.items()}
    foods = {**measured(shipped.pantry), **{name: in_numbers(food, pantry) for name, food in shelf.foods.items()}}
    for number, entry in enumerate(shelf.dishes, start=1):
        place = f"{where}, [[dish]] {number} ({str(entry.get('id'))[:60]})"
        _foods_known(entry, place, foods, pantry)
        dish = checked_dish(entry, place, foods)
        if "during" in dish.slots:
            raise BadInput(
                f"{place} slots: read 'during', and what is eaten in a session is packed by its fuel plan, no dish; "
                'other slots are expected, and counts = ["session_food"] for a food of your own to carry'
            )
        if dish.id in dishes:
            whose = "the program's dishes have" if dish.id in shipped.dishes else "this file has"
            raise BadInput(f"{place} id: read {dish.id!r}, which {whose} already; another id is expected")
        if not left_out.intersection(name for part in dish.component for name in part.foods):
            dishes[dish.id] = with_own(dish, standing)
    return OwnMenu(dishes, pantry, plain)


def _standing(shelf: Shelf, left_out: set[str]) -> dict[str, tuple[str, ...]]:
    """Pantry food -> the own foods that may stand in its place."""
    found: dict[str, list[str]] = {}
    for food in shelf.foods.values():
        for name in food.stands_for if food.name not in left_out else ():
            found.setdefault(name, []).append(food.name)
    return {name: tuple(names) for name, names in found.items()}


def with_own(dish: Dish, standing: Mapping[str, tuple[str, ...]]) -> Dish:
    """The dish with own foods beside those that they stand for, apart from whatever those are apart from."""
    if not any(name in standing for part in dish.component for name in part.foods):
        return dish

    def wider(names: tuple[str, ...]) -> tuple[str, ...]:
        own = (new for name in names for new in standing.get(name, ()))
        return tuple(dict.fromkeys([*names, *own]))

    parts = tuple(part.model_copy(update={"foods": wider(part.foods)}) for part in dish.component)
    return dish.model_copy(update={"component": parts, "apart": tuple(wider(group) for group in dish.apart)})


def _foods_known(entry: Any, place: str, foods: Mapping[str, Measured], pantry: OwnPantry) -> None:
    """Name the nearest food where a dish lists one that there is not; other faults are left to the dish's own check."""
    components = entry.get("component")
    for component in components if isinstance(components, list) else ():
        listed = component.get("foods") if isinstance(component, dict) else None
        for name in listed if isinstance(listed, list) else ():
            if isinstance(name, str) and name not in foods:
                near = nearest(name[:60], pantry)
                raise BadInput(f"{place} component foods: the pantry has no {name[:60]!r}{near}")


def menu_findings(menu: OwnMenu) -> list[Finding]:
    """What a person should hear of their own foods: the facts of each, and whether any dish can hold it."""
    pantry = menu.pantry
    if not isinstance(pantry, OwnPantry):
        return []
    return [*own_findings(pantry), *_unused(menu, pantry)]


def _unused(menu: OwnMenu, pantry: OwnPantry) -> Iterator[Finding]:
    listed: dict[str, list[Component]] = {name: [] for name in menu.shelf.foods}
    for dish in menu.dishes.values():
        for part in dish.component:
            for name in part.foods:
                if name in listed:
                    listed[name].append(part)
    what = "dishes that can hold it"
    for name, parts in listed.items():
        food = menu.shelf.foods[name]
        if not parts:
            reason = "name what it stands for, or a dish of your own; a settled meal may hold it all the same"
            yield Finding(menu.shelf.file, name, what, "none lists it", "one or more", "note", reason)
        elif not any(_fits(in_numbers(food, pantry), part) for part in parts):
            reason = "none of its steps lies within their grams: a smaller step may help"
            yield Finding(menu.shelf.file, name, what, f"0 of {len(parts)} parts", "one or more", "note", reason)


def _fits(food: Measured, part: Component) -> bool:
    least, most = part.grams
    fewest = max(food.fewest, math.ceil(least / food.step - 1e-9)) if part.pick[1] == 1 else food.fewest
    return fewest <= min(food.most, math.floor(most / food.step + 1e-9))


def own_foods_of(menu: Menu) -> Mapping[str, OwnFood]:
    """The own foods of a menu, by name; none of the shipped one."""
    return menu.shelf.foods if isinstance(menu, OwnMenu) else {}
