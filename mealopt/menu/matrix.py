"""How many dishes there are for each slot and each way of eating, and how many there must be.

In a session no dish is served: there the things to carry and the drinks of foods/carried.toml are counted.

`python -m mealopt.menu.matrix` prints it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from mealopt.core.filters import FoodFilter
from mealopt.core.nutrients import FAT, FIBRE
from mealopt.core.slots import KINDS, MAIN, Slot
from mealopt.menu.carried import shipped_carried
from mealopt.menu.cookable import measured, why_not
from mealopt.menu.dishes import Dish, Menu, shipped_menu
from mealopt.menu.plates import Larder, plate

_SOY_AND_NUTS = frozenset({"soybeans", "nuts", "peanuts"})

#: Ways of eating, in the order of the table's columns.
EATERS: dict[str, FoodFilter] = {
    "omnivore": FoodFilter(),
    "pescatarian": FoodFilter(diet="pescatarian"),
    "vegetarian": FoodFilter(diet="vegetarian"),
    "vegan": FoodFilter(diet="vegan"),
    "gluten-free": FoodFilter(gluten_free=True),
    "no milk": FoodFilter(avoid_allergens=frozenset({"milk"})),
    "no eggs": FoodFilter(avoid_allergens=frozenset({"eggs"})),
    "vegan, gluten-free": FoodFilter(diet="vegan", gluten_free=True),
    "the same, no soy, no nuts": FoodFilter(diet="vegan", gluten_free=True, avoid_allergens=_SOY_AND_NUTS),
}

_SINGLE = tuple(EATERS)[:7]
_EARLY = {FIBRE: 4.0, FAT: 10.0}
_VERY_EARLY = {FIBRE: 2.0, FAT: 5.0}


@dataclass(frozen=True)
class Line:
    """One line of the table: dishes of these slots, within these limits, that hold what is asked of them besides."""

    slots: tuple[str, ...]
    limits: tuple[tuple[str, float], ...] = ()
    energy_least: float = 0.0
    asked: Callable[[Dish], bool] = lambda dish: True


LINES: dict[str, Line] = {
    **{kind: Line((kind,)) for kind in KINDS if kind != "during"},
    "main meal (lunch or dinner)": Line(("lunch", "dinner")),
    "main meal, 15 minutes or less": Line(MAIN, asked=lambda dish: dish.minutes <= 15),
    "main meal, keeps three days": Line(MAIN, asked=lambda dish: dish.fridge_days >= 3),
    "breakfast, fibre 4 g, fat 10 g": Line(("breakfast",), tuple(_EARLY.items()), 300.0),
    "before, fibre 4 g, fat 10 g": Line(("before",), tuple(_EARLY.items())),
    "before, fibre 2 g, fat 5 g": Line(("before",), tuple(_VERY_EARLY.items())),
}

#: The line of what is carried.
IN_A_SESSION = "in a session: things and drinks"

#: line -> column -> the fewest dishes that there must be.
LEAST: dict[str, dict[str, int]] = {
    **{kind: dict.fromkeys(_SINGLE, 12) for kind in ("breakfast", "lunch", "dinner", "snack")},
    **{kind: dict.fromkeys(_SINGLE, 10) for kind in ("before", "after")},
    IN_A_SESSION: dict.fromkeys(EATERS, 10),
    "main meal (lunch or dinner)": {
        **dict.fromkeys(_SINGLE, 12),
        "vegan, gluten-free": 10,
        "the same, no soy, no nuts": 8,
    },
    "main meal, 15 minutes or less": {"omnivore": 10},
    "main meal, keeps three days": {"omnivore": 10},
    "breakfast, fibre 4 g, fat 10 g": {"omnivore": 10},
    "before, fibre 4 g, fat 10 g": dict.fromkeys(EATERS, 10),
    "before, fibre 2 g, fat 5 g": dict.fromkeys(_SINGLE, 5),
}


def _suits(dish: Dish, line: Line, eater: FoodFilter, larder: Larder) -> bool:
    if not line.asked(dish):
        return False
    limits = dict(line.limits)
    for kind in line.slots:
        slot = Slot(0, kind, 0, 0, kind, limits=limits, energy_least=line.energy_least, settles=bool(limits))
        found = plate(dish, slot, larder)
        if found is not None:
            every = measured(larder.menu.pantry)
            there = {choice.name: every[choice.name] for part in found.parts for choice in part.choices}
            return why_not(dish, there) is None
    return False


def dishes_for(line: Line, eater: FoodFilter, menu: Menu) -> list[str]:
    """Ids of the dishes that a line of the table counts for one way of eating."""
    larder = Larder(menu, eater)
    return [dish.id for dish in menu.dishes.values() if _suits(dish, line, eater, larder)]


def carried_for(eater: FoodFilter, menu: Menu) -> list[str]:
    """Ids of the things to carry and the drinks that can be made for one way of eating."""
    larder, carried = Larder(menu, eater), shipped_carried()
    things = [
        thing.id
        for thing in carried.thing
        if all(any(larder.choice(name) is not None for name in part.of) for part in thing.foods)
    ]
    return [*things, *(drink.id for drink in carried.drink if larder.choice(drink.parts[0]) is not None)]


def matrix(menu: Menu | None = None) -> dict[str, dict[str, int]]:
    """Line -> column -> how many dishes there are; the shipped menu's where none is given."""
    menu = menu or shipped_menu()
    counts = {
        name: {column: len(dishes_for(line, eater, menu)) for column, eater in EATERS.items()}
        for name, line in LINES.items()
    }
    return counts | {IN_A_SESSION: {column: len(carried_for(eater, menu)) for column, eater in EATERS.items()}}


def table(counts: dict[str, dict[str, int]]) -> str:
    """The counts as lines of text; a count below its least is followed by "<" and the least."""
    width = max(len(name) for name in counts)
    lines = [" " * width + "".join(f"  {column}" for column in EATERS)]
    for name, row in counts.items():
        cells = []
        for column, count in row.items():
            least = LEAST.get(name, {}).get(column, 0)
            cells.append(f"  {count if count >= least else f'{count}<{least}':>{len(column)}}")
        lines.append(f"{name:{width}}" + "".join(cells))
    return "\n".join(lines)


if __name__ == "__main__":
    print(f"{len(shipped_menu().dishes)} dishes of {len(shipped_menu().pantry.foods)} foods")
    print(table(matrix()))
