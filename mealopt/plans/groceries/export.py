"""A shopping as a table for a spreadsheet, as plain text, and as what the next week has at home."""

from __future__ import annotations

import csv
import io
from itertools import groupby

from mealopt.core.words import IN_SHORT, number
from mealopt.documents.plan import Grocery
from mealopt.plans.groceries.shopping import Left, Shopping
from mealopt.plans.groceries.words import weight

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

#: A cell that begins with one of these is a formula to some spreadsheets.
_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")


def csv_of(shopping: Shopping) -> str:
    """One line a thing of the list, staples last; begins with a byte order mark, by which spreadsheets know UTF-8."""
    page = io.StringIO()
    writer = csv.writer(page, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for line in sorted(shopping.lines, key=lambda line: line.staple):
        price = "" if line.price is None or not line.packs else f"{line.price:.2f}"
        words = "; ".join(line.foods or (line.food,))
        amounts = (line.need_g, line.at_home_g, line.packs, line.pack_g, line.buy_g, line.left_g)
        cells = (line.shop, line.aisle, line.says, words, *(f"{value:g}" for value in amounts), price)
        writer.writerow([_safe(str(cell)) for cell in (*cells, " ".join(line.days))])
    return "\ufeff" + page.getvalue()


def _safe(cell: str) -> str:
    flat = _flat(cell)
    return f"'{flat}" if cell.startswith(_FORMULA) or flat.startswith(_FORMULA) else flat


def _flat(text: str) -> str:
    return " ".join(text.split())


def text_of(shopping: Shopping) -> str:
    """The list in plain text: by shop and aisle, boxes to tick, what it costs, what may be needed, cautions."""
    parts = [f"Groceries for {shopping.title}"]
    if shopping.portion:
        parts.append(f"For {shopping.people}: {shopping.portion}.")
    for shop, lines in groupby(shopping.bought, key=lambda line: line.shop):
        if len(shopping.shops) > 1:
            parts.append(f"\nShop {shop}, {shopping.shops[shop - 1]}")
        for aisle, found in groupby(lines, key=lambda line: line.aisle):
            parts.append(f"\n{aisle.capitalize()}")
            parts += [f"[ ] {line.says}{_priced(line)}" for line in found]
    parts.append(f"\n{total_words(shopping)}")
    if shopping.also:
        parts.append(f"You may need: {', '.join(shopping.also)}.")
    if shopping.left:
        parts.append("\nLeft over after it")
        parts += [f"- {left_words(one)}" for one in shopping.left]
    parts.append("\nCautions")
    parts += [f"- {words}" for words in (*shopping.cautions, IN_SHORT.split(":")[0])]
    return "\n".join(parts) + "\n"


def _priced(line: Grocery) -> str:
    return "" if line.price is None else f"  {line.price:.2f}"


def total_words(shopping: Shopping) -> str:
    """ "Total: 41.20 coin (invented prices)", with what has no price named."""
    invented = " (invented prices)" if shopping.invented else ""
    words = f"Total: {shopping.total_price:.2f}{shopping.currency and f' {shopping.currency}'}{invented}"
    return f"{words}, without a price: {', '.join(shopping.unpriced)}" if shopping.unpriced else words


def left_words(one: Left) -> str:
    """ "rolled oats, 755 g, opened: keeps about 5 months"."""
    opened = ", opened" if one.opened else ""
    return f"{one.says}, {weight(one.grams)}{opened}: {_keeping(one.keeps_days)}"


def _keeping(days: int | None) -> str:
    if days is None:
        return "from what is at home"
    if days == 0:
        return "does not keep until the next day"
    if days < 60:
        return f"keeps {days} {'day' if days == 1 else 'days'} more"
    return f"keeps about {number(days / 30)} months"


def left_text(shopping: Shopping) -> str:
    """What remains and keeps, one food a line, as it is read again; what does not keep stands in notes."""
    lines = [f"# At home after {_flat(shopping.title)}, grams as bought."]
    lines += [f"{_flat(one.food)} = {one.grams:g} g" for one in shopping.left if one.keeps]
    lines += [f"# does not keep: {_flat(one.food)}, {one.grams:g} g" for one in shopping.left if not one.keeps]
    return "\n".join(lines) + "\n"
