"""Foods and dishes as a person reads them: what was found, all that is known of one, what the checks found."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sized
from itertools import groupby
from typing import TYPE_CHECKING

from rich.console import RenderableType
from rich.text import Text

from mealopt.cli.portions import measured
from mealopt.cli.wording import (
    BAD,
    CAUTION,
    GOOD,
    HEADING,
    QUIET,
    duration,
    facts,
    heading,
    label,
    listed,
    number,
    numbered,
    paragraph,
)
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FAT, FIBRE, KEYS, PROTEIN, UNITS

if TYPE_CHECKING:
    from mealopt.api import Component, CompositionRow, Dish, Finding, Food, Found, Shown

#: Dishes, and rows of the table, that a search shows; foods of the pantry are all shown.
SHOWN = 20

_GIVEN = (ENERGY, PROTEIN, CARBOHYDRATE, FAT, FIBRE)

READ_LABELS = (
    "A food table knows no recipe and no trace: read each label for allergens; oats need certification for coeliac "
    "disease."
)

_HEAT = {"none": "no heat", "microwave": "a microwave is enough", "stove": "a stove"}


def found_page(words: str, foods: list[Found], dishes: list[Dish]) -> Iterator[RenderableType]:
    """What holds the words: foods of the pantry, then dishes, then rows of the table that no pantry food stands on."""
    pantry = [(found.name, found.row) for found in foods if found.food is not None]
    rows = [(f"{found.name} {found.row.name}", found.row) for found in foods if found.food is None]
    if not (pantry or rows or dishes):
        yield paragraph(f"No food and no dish holds all of these words: {words}")
        return
    yield Text(f"What holds: {words}", style=HEADING, overflow="fold")
    if pantry:
        yield heading("Foods of the pantry, 100 g as eaten or weighed")
        yield from _foods(pantry)
    if dishes:
        yield heading("Dishes")
        for dish in dishes[:SHOWN]:
            yield paragraph(f"{dish.id}: {spoken(dish.name)}")
        yield from _more(dishes, "dishes")
    if rows:
        yield heading("Rows of the food table (USDA SR28), 100 g")
        yield from _foods(rows[:SHOWN])
        yield from _more(rows, "rows")
    yield paragraph("\n?: the table does not say. All about one: mealopt foods show NAME", QUIET)


def _more(found: Sized, what: str) -> Iterator[RenderableType]:
    if len(found) > SHOWN:
        yield paragraph(f"... and {len(found) - SHOWN} more {what}: add a word, or use --json for all.", QUIET)


def _foods(foods: Iterable[tuple[str, CompositionRow]]) -> Iterator[RenderableType]:
    headers = ["kcal" if key == ENERGY else f"{label(key)} {UNITS[key]}" for key in _GIVEN]
    yield from numbered(headers, [(name, [_held(row, key) for key in _GIVEN]) for name, row in foods])


def _held(row: CompositionRow, key: str, grams: float = 100.0) -> str:
    value = row.per_100g.get(key)
    return "?" if value is None else number(value * grams / 100.0)


def spoken(text: str) -> str:
    """A dish's name or method with its roles as words: "{cereal}[ and {fruit}]" is "CEREAL (and FRUIT)"."""
    words = []
    for place, part in enumerate(text.split("{")):
        role, closed, rest = part.partition("}")
        words.append(f"{role.upper().replace('_', ' ')}{rest}" if place and closed else part)
    plain = "".join(words)
    for before, after in (("[ ", " ["), (" ]", "] ")):
        plain = plain.replace(before, after)
    return plain.replace("[", "(").replace("]", ")")


def food_page(shown: Shown) -> Iterator[RenderableType]:
    """All that is known of a food: its pantry row, then what 100 g and one kitchen measure hold."""
    food, row = shown.food, shown.row
    yield Text(food.name if food else row.name, style=HEADING, overflow="fold")
    if row.source.startswith("own:"):
        yield paragraph(f"Your own food, by its label: {row.source}")
    else:
        yield paragraph(f"Food table: USDA SR28, row {row.ndb}: {row.name}")
    if food is not None:
        yield from _pantry(food, shown)
        yield paragraph(READ_LABELS, CAUTION)
    else:
        users = ", ".join(shown.used_by)
        yield paragraph(
            f"Foods of the pantry on this row: {users}" if users else "No food of the pantry is on this row."
        )
        weights = "; ".join(f"{words}: {number(grams)} g" for grams, words in row.weights)
        yield paragraph(f"Household weights of the table: {weights or 'none'}")
    yield heading("What it holds")
    yield from _nutrients(row, food.measure_g if food else None)
    blank = [label(key) for key in KEYS if key not in row.per_100g]
    if blank:
        yield paragraph(f"Not known, which is not zero: {', '.join(dict.fromkeys(blank))}.")


def _one(food: Food) -> str:
    return food.measure if food.measure[0].isdigit() else f"1 {food.measure}"


def _pantry(food: Food, shown: Shown) -> Iterator[RenderableType]:
    bought = shown.bought
    yields = "" if food.yield_factor == 1 else f"; 1 g of it gives {food.yield_factor:g} g {food.state}"
    keeps = "day" if food.keeps_days == 1 else "days"
    one, step = measured(_one(food), food.name), number(food.step_g)
    known = {
        "state": food.state,
        "measure": f"{one}, {number(food.measure_g)} g; in steps of {step} g",
        "amounts": f"{number(food.least_g)}-{number(food.most_meal_g)} g a meal, {number(food.most_day_g)} g a day",
        "bought": f"{bought.name if bought else '?'}, {food.edible_percent:g} % of it eaten{yields}",
        "shop": f"{food.aisle}, a pack of {number(food.pack_g)} g, keeps {food.keeps_days} {keeps}",
        "diet": food.diet,
        "allergens": ", ".join(food.allergens) or "none of the 14",
        "counts as": ", ".join(word.replace("_", " ") for word in food.counts) or "nothing",
        "before work": f"settles {food.settles}",
    }
    return facts([(f"{name}:", words) for name, words in known.items()], 12)


def _nutrients(row: CompositionRow, measure_g: float | None) -> Iterator[RenderableType]:
    known = [key for key in KEYS if key in row.per_100g]
    first = [key for key in _GIVEN if key in known]
    weights = [100.0] if measure_g is None else [100.0, measure_g]
    rows = [
        (f"{label(key)}, {UNITS[key]}", [_held(row, key, grams) for grams in weights])
        for key in [*first, *(key for key in known if key not in first)]
    ]
    yield from numbered([f"{number(grams)} g" for grams in weights], rows)


def dish_page(dish: Dish) -> Iterator[RenderableType]:
    """All that is known of a dish: when and how it is eaten, its parts, how it is made."""
    keeps = f"{dish.fridge_days} days" if dish.fridge_days > 1 else "1 day" if dish.fridge_days else "no"
    known = {
        "dish": f"{dish.id}, a {dish.kind}",
        "kitchen": dish.kitchen,
        "for": ", ".join(dish.slots),
        "takes": f"{duration(dish.minutes)}, {_HEAT[dish.heat]}",
        "eaten": dish.served + (", or reheated" if dish.reheats else "") + (", or carried" if dish.carry else ""),
        "keeps": f"in the fridge: {keeps}; out of it: {number(dish.hours_out)} h",
        "holds": f"{number(dish.energy[0])}-{number(dish.energy[1])} kcal",
        "salt": f"{dish.salt_percent:g} % of its weight" if dish.salt_percent else "none added in cooking",
    }
    yield Text(spoken(dish.name), style=HEADING, overflow="fold")
    yield from facts([(f"{name}:", words) for name, words in known.items()], 8)
    yield heading("Parts")
    for part in dish.component:
        yield paragraph(f"{part.role.upper().replace('_', ' ')}: {_range(part)}")
        yield paragraph("; ".join(part.foods), indent=2)
    for ratio in dish.ratio:
        least = f"{ratio.least:g} to " if ratio.least else "at most "
        yield paragraph(f"{ratio.of} weighs {least}{ratio.most:g} times the {ratio.to}")
    for group in dish.apart:
        yield paragraph(f"never together: {'; '.join(group)}")
    yield heading("How it is made")
    yield listed(spoken(sentence) for sentence in dish.method)
    yield paragraph(READ_LABELS, CAUTION)


def _range(part: Component) -> str:
    low, high = part.pick
    count = f"{low} to {high} of these" if low != high else f"{low} of these"
    count = f"up to {high} of these, or left out" if low == 0 else count
    return f"{count}, {number(part.grams[0])}-{number(part.grams[1])} g in all"


def checks_page(findings: list[Finding]) -> Iterator[RenderableType]:
    """Each row that fails a check, by check; our own faults first."""
    faults = sum(finding.severity == "fault" for finding in findings)
    notes = sum(finding.severity == "note" for finding in findings)
    facts = len(findings) - faults - notes
    yield paragraph(f"{faults} faults of the food files.", BAD if faults else GOOD)
    if notes:
        yield paragraph(f"{notes} notes on your own foods, which can be planned as they are.")
    yield paragraph(f"{facts} rows of the published table that fail a check; they stay as published.")
    by_check = sorted(findings, key=_check)
    for (_, where, what), group in groupby(by_check, key=_check):
        yield heading(f"{where}: {what}")
        for one in group:
            reason = f" ({one.reason})" if one.reason else ""
            words = f"{one.food}: {one.value}, expected {one.allowed}{reason}"
            yield paragraph(words, BAD if one.severity == "fault" else "")


def _check(finding: Finding) -> tuple[int, str, str]:
    return ("fault", "note", "fact").index(finding.severity), finding.where, finding.what
