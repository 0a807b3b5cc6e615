"""What a person should hear of their own foods though nothing is refused."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from mealopt.core.nutrients import FIBRE
from mealopt.table.finding import Finding
from mealopt.table.own import OwnPantry, Shelf
from mealopt.table.own_entry import OwnFood
from mealopt.table.pantry_checks import allergens_fit
from mealopt.table.upper_limits import Dosed, over_in_europe

#: Stands with every list of food that holds a supplement.
SUPPLEMENT_CAUTION = (
    "a supplement is held against upper limits for healthy adults, and against no medicine and no illness: ask a "
    "doctor or registered dietitian before you take one, and never take more than its label says"
)


def own_notes(shelf: Shelf) -> tuple[str, ...]:
    """What a plan says of the foods of an own file; nothing where there are none."""
    if not shelf.foods:
        return ()
    return (
        f"foods of your own ({shelf.file}): their numbers are those of your file; what a label leaves out is unknown, "
        "an allergen that the file does not rule out counts as present, and carbohydrate is counted as in the food "
        "table, with the fibre that a label of the European Union leaves out of it",
    )


def own_cautions(shelf: Shelf) -> tuple[str, ...]:
    """What stands with every plan whose file of own foods holds a supplement."""
    names = ", ".join(food.name for food in shelf.supplements)
    return (f"supplements of your own ({names}): {SUPPLEMENT_CAUTION}",) if names else ()


def own_findings(pantry: OwnPantry) -> Iterator[Finding]:
    """Notes on each own food: what is unknown or taken to be there, and where a name says more than its lists."""
    for food in pantry.shelf.foods.values():
        yield from (
            Finding(pantry.shelf.file, food.name, what, value, allowed, "note", why)
            for what, value, allowed, why in _facts(food, pantry)
        )
        for found in allergens_fit(food, pantry):
            reason = "its name or its kind speaks of it: read the label"
            yield replace(found, where=pantry.shelf.file, severity="note", reason=reason)


def _facts(food: OwnFood, pantry: OwnPantry) -> Iterator[tuple[str, str, str, str]]:
    held = pantry.row(food).per_100g
    if food.unsaid:
        yield "allergens in neither list", ", ".join(food.unsaid), "named in one", "they count as present"
    if FIBRE not in held:
        reason = "the food stays out of meals that limit fibre, and its carbohydrate may lack it"
        yield "fibre, g per 100 g", "unknown", "known", reason
    a_day = {key: value * food.most_day_g / 100.0 for key, value in held.items()}
    for key, value, most in over_in_europe(Dosed(food.name, a_day)) if food.supplement else ():
        reason = "European Food Safety Authority; the American limit that is held is higher"
        yield f"a day's most of {key}", f"{value:g}", f"at most {most:g}", reason
