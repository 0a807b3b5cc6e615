"""The menu of a case: the shipped one, with the foods and dishes of the person's own where the case names a file."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping
from pathlib import Path

from mealopt.documents.plan import Plan
from mealopt.errors import BadInput
from mealopt.menu.dishes import Menu, shipped_menu
from mealopt.menu.own import OwnMenu, own_foods_of, read_own
from mealopt.people.case import Case
from mealopt.table.own_checks import own_cautions, own_notes
from mealopt.table.upper_limits import REFERRAL

ASK = "ask a doctor or registered dietitian which you may take"


def own_path(named: str, folder: Path | None) -> Path:
    """Where a case's own_foods lies: a relative name is looked for beside the case file. Raises BadInput."""
    path = Path(named)
    if path.is_absolute():
        return path
    if folder is None:
        raise BadInput(
            f"[kitchen] own_foods: read {named!r}, and the folder of the case file is not known here; a full path is "
            "expected, or a case that is read from its file"
        )
    return folder / path


def case_menu(case: Case, maintenance_only: bool = False) -> Menu:
    """The menu that a case is planned from. Raises BadInput, Refused.

    maintenance_only: an illness or a medicine keeps supplements out of every dish, but for what the case settles.
    """
    named = case.kitchen.own_foods
    if named is None:
        return shipped_menu()
    menu = read_own(own_path(named, case.folder), plain=maintenance_only)
    _check_doses(case, menu)
    return menu


def plan_menu(plan: Plan, folder: Path | None) -> Menu:
    """The menu that a plan is held against: its own copy of the case names the file. folder: that of the case file.

    Without the folder the shipped menu, unless the file is named by its full path. Raises BadInput, Refused.
    """
    kitchen = plan.case.get("kitchen")
    named = kitchen.get("own_foods") if isinstance(kitchen, dict) else None
    if not isinstance(named, str) or (folder is None and not Path(named).is_absolute()):
        return shipped_menu()
    return read_own(own_path(named, folder))


def menu_notes(menu: Menu) -> tuple[str, ...]:
    """What a plan says of the person's own foods."""
    if not isinstance(menu, OwnMenu):
        return ()
    kept_out = (f"supplements of your own are planned in no dish, because of your cautions: {ASK}",)
    return (*own_notes(menu.shelf), *(kept_out if menu.plain and menu.shelf.supplements else ()))


def menu_cautions(menu: Menu) -> tuple[str, ...]:
    """What every list with the person's own supplements carries."""
    return own_cautions(menu.shelf) if isinstance(menu, OwnMenu) else ()


def own_table(menu: Menu) -> Mapping[str, Mapping[str, float]]:
    """Source -> what 100 g hold, of the own foods of a menu: what a recheck adds up with."""
    return menu.shelf.table if isinstance(menu, OwnMenu) else {}


def _check_doses(case: Case, menu: OwnMenu) -> None:
    """Raise BadInput where the settled meals of a day hold more of a supplement than its file allows in a day."""
    dosed = {food.name: food for food in own_foods_of(menu).values() if food.supplement}
    taken: dict[tuple[str, str], list[float]] = defaultdict(list)
    for fixed in case.kitchen.fixed:
        for name, grams in fixed.portions:
            if name in dosed:
                taken[fixed.day, name].append(grams)
    for (day, name), doses in taken.items():
        food = dosed[name]
        if math.fsum(doses) > food.most_day_g * (1 + 1e-6):
            raise BadInput(
                f"[[kitchen.fixed]] foods: read {math.fsum(doses):g} g of {name} on {day}; at most {food.most_day_g:g} "
                f"g a day, as {menu.shelf.file} says: {REFERRAL}"
            )
