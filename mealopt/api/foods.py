"""Foods and dishes: found, shown, checked, imported."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pandas as pd

    from mealopt.menu.dishes import Dish, Menu
    from mealopt.table.find import Found, Shown
    from mealopt.table.finding import Finding


def _menu(own: str | Path | None) -> Menu:
    """The shipped menu, with what a file of a person's own foods and dishes adds. Raises BadInput, Refused."""
    from mealopt.menu.dishes import shipped_menu
    from mealopt.menu.own import read_own

    return shipped_menu() if own is None else read_own(Path(own))


def find_foods(words: str, own: str | Path | None = None) -> list[Found]:
    """Foods whose names hold all the words: the pantry's first, then the table's, best first.

    own: a file with foods and dishes of one's own, here and below; BadInput and Refused are raised where it is wrong.
    """
    from mealopt.table.find import find_foods as find

    return find(words, None if own is None else _menu(own).pantry)


def food_names() -> tuple[str, ...]:
    """The names of all foods of the pantry, in order of the alphabet."""
    from mealopt.table.pantry import shipped_pantry

    return tuple(sorted(shipped_pantry().foods))


def dish_names() -> tuple[str, ...]:
    """The ids of all dishes that ship with the program, in order of the alphabet."""
    from mealopt.menu.dishes import shipped_menu

    return tuple(sorted(shipped_menu().dishes))


def show_food(name: str, own: str | Path | None = None) -> Shown:
    """All that is known of a food, by its pantry name or the number of its row. Raises BadInput."""
    from mealopt.table.find import show_food as show

    return show(name, None if own is None else _menu(own).pantry)


def find_dishes(words: str, own: str | Path | None = None) -> list[Dish]:
    """Dishes whose id, name, kind or kitchen hold all the words."""
    from mealopt.menu.find import find_dishes as find

    return find(words, _menu(own))


def show_dish(dish_id: str, own: str | Path | None = None) -> Dish | None:
    """A dish by its id; None where there is none."""
    return _menu(own).dishes.get(dish_id)


def check_foods(own: str | Path | None = None) -> list[Finding]:
    """What the checks of food-composition practice find in table and pantry, and facts of one's own foods."""
    from mealopt.menu.own import menu_findings, read_own
    from mealopt.table.checks import check_foods as check

    return check() if own is None else [*menu_findings(read_own(Path(own))), *check()]


def composition_frame() -> pd.DataFrame:
    """The food-composition table as a pandas frame: a row a food, nutrients per 100 g, NaN where it is blank."""
    from mealopt.table.frame import composition_frame as frame

    return frame()


def import_foods(folder: str | Path, out: str | Path) -> int:
    """Make the table from the two published files in a folder; the number of its rows. Raises BadInput."""
    from mealopt.files import write_bytes
    from mealopt.table.importer import import_release

    content = import_release(Path(folder))
    write_bytes(Path(out), content)
    return content.count(b"\n") - 1
