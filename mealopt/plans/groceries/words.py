"""Amounts as a shopper says them: "12 eggs (2 boxes of 6)", "3 onions (345 g)", "white rice, 2 packs of 1 kg"."""

from __future__ import annotations

from mealopt.table.packs import PACKS, Sold


def weight(grams: float) -> str:
    """ "450 g", "1 kg", "1.25 kg", "2.5 g"."""
    if grams >= 1000:
        return f"{grams / 1000:.2f}".rstrip("0").rstrip(".") + " kg"
    return f"{grams:.0f} g" if grams >= 10 else f"{grams:.1f}".removesuffix(".0") + " g"


def counted(number: int, one: str, many: str) -> str:
    """ "1 onion", "3 onions", "2 heads of broccoli"."""
    if number == 1:
        return f"1 {one}"
    head, of, rest = one.partition(" of ")
    return f"{number} {head}s{of}{rest}" if of else f"{number} {many}"


def says(packs: int, pack_g: float, buy_g: float, sold: Sold, usual_g: float) -> str:
    """The line of a list. usual_g: the pantry's pack, to which the words and pieces of `sold` belong."""
    if not packs:
        return f"{sold.name}, {weight(buy_g)}" if buy_g > 0 else sold.name
    if pack_g != usual_g:
        word = sold.pack or "pack"
        return f"{sold.name}, {packs} {word if packs == 1 else PACKS[word]} of {weight(pack_g)}"
    if not sold.pack:
        return f"{counted(packs * sold.pieces, sold.one, sold.name)} ({sold.size or weight(buy_g)})"
    word = sold.pack if packs == 1 else PACKS[sold.pack]
    if sold.pieces:
        return f"{counted(packs * sold.pieces, sold.one, sold.name)} ({packs} {word} of {sold.pieces})"
    return f"{sold.name}, {packs} {word} of {sold.size or weight(pack_g)}"
