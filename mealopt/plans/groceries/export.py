"""A shopping as a table for a spreadsheet, as plain text, as data, and as what the next week has at home."""

from __future__ import annotations

import csv
import io
from dataclasses import asdict
from itertools import groupby
from typing import Any

from mealopt.plans.groceries.shopping import Left, Shopping
from mealopt.plans.groceries.words import sign, words_of

COLUMNS = (
    "shop",
    "aisle",
    "buy",
    "food",
    "need_g",
    "at_home_g",
    "packs",
    "pack_g",
    "buy_g",
    "left_g",
    "price",
    "days",
)

ADVICE = (
    "Planning help for healthy adults, not medical advice: with a condition, a doctor or registered dietitian decides"
)

#: Where a caution stands in the column of aisles.
NOTE = "note"

#: A cell that begins with one of these is a formula to some spreadsheets.
_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")


def csv_of(shopping: Shopping) -> str:
    """One line a thing of the list, staples and then cautions last; begins with the mark by which UTF-8 is known.

    The price column's header says where the prices are invented; a caution stands in the aisle "note".
    """
    page = io.StringIO()
    writer = csv.writer(page, lineterminator="\r\n")
    price_words = "price_invented" if shopping.invented else "price"
    writer.writerow([price_words if column == "price" else column for column in COLUMNS])
    for line in sorted(shopping.things, key=lambda line: line.staple):
        price = "" if line.price is None or not line.packs else f"{line.price:.2f}"
        words = "; ".join(line.foods or (line.food,))
        amounts = (line.need_g, line.at_home_g, line.packs, line.pack_g, line.buy_g, line.left_g)
        cells = (line.shop, line.aisle, line.says, words, *(f"{value:.10g}" for value in amounts), price)
        writer.writerow([_safe(str(cell)) for cell in (*cells, " ".join(line.days))])
    for words in (*shopping.cautions, ADVICE):
        writer.writerow(["", NOTE, _safe(words), *[""] * (len(COLUMNS) - 3)])
    return "\ufeff" + page.getvalue()


def _safe(cell: str) -> str:
    flat = _flat(cell)
    return f"'{flat}" if cell.startswith(_FORMULA) or flat.startswith(_FORMULA) else flat


def _flat(text: str) -> str:
    return " ".join(text.split())


def text_of(shopping: Shopping) -> str:
    """The list in plain text: by shop and aisle, boxes to tick, what it costs, what may be needed, cautions."""
    parts = [f"Groceries for {_flat(shopping.title)}"]
    if shopping.portion:
        parts.append(f"For {shopping.people}: {shopping.portion}.")
    for shop, lines in groupby(shopping.bought, key=lambda line: line.shop):
        if len(shopping.shops) > 1:
            parts.append(f"\nShop {shop}, {shopping.shops[shop - 1]}")
        for aisle, found in groupby(lines, key=lambda line: line.aisle):
            parts.append(f"\n{sign(aisle)}")
            parts += [f"[ ] {_flat(line.says)}" for line in found]
    words = words_of(shopping)
    parts.append(f"\n{words.total}.")
    said = (
        ("You may need", words.also),
        ("From what is at home", words.at_home),
        ("Only a little is needed of", words.little),
        ("Left over, and keeps", words.kept),
        ("Still at home of what was there", words.at_home_left),
        ("Left over, and does not keep", words.gone),
    )
    parts += [f"{name}: {_flat(text)}." for name, text in said if text]
    parts.append("\nCautions")
    parts += [f"- {words}" for words in (*shopping.cautions, ADVICE)]
    parts += [f"- {words}" for words in shopping.notes]
    return "\n".join(parts) + "\n"


def left_text(shopping: Shopping) -> str:
    """What remains and keeps, one food a line, as it is read again; what does not keep stands in notes."""
    lines = [
        f"# At home after {_flat(shopping.title)}, grams as bought. by: the last day on which it can be eaten.",
        "# Look at each before you count on it: smell, mould and the date on the pack decide.",
    ]
    lines += [
        f"{_flat(one.food)} = {one.grams:.10g} g{one.by and f' by {one.by}'}" for one in shopping.left if one.keeps
    ]
    lines += [f"# does not keep: {_flat(one.food)}, {one.grams:.10g} g" for one in shopping.left if not one.keeps]
    return "\n".join(lines) + "\n"


def data_of(shopping: Shopping, in_vain: tuple[Left, ...] | None = None) -> dict[str, Any]:
    """All of a shopping as plain data, its lines as the plan document has them; in_vain after a change of plan."""
    data = {
        **asdict(shopping),
        "lines": [line.model_dump(mode="json") for line in shopping.lines],
        "things": [thing.model_dump(mode="json") for thing in shopping.things],
        "left": [_left_data(one) for one in shopping.left],
    }
    return data if in_vain is None else data | {"in_vain": [_left_data(one) for one in in_vain]}


def _left_data(one: Left) -> dict[str, Any]:
    return {**asdict(one), "keeps": one.keeps}
