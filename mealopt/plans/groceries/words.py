"""Amounts as a shopper says them: "12 eggs (2 boxes of 6)", "3 onions (345 g)", "white rice, 2 packs of 1 kg"."""

from __future__ import annotations

from dataclasses import dataclass

from mealopt.plans.groceries.shopping import Left, Shopping
from mealopt.table.packs import PACKS, Sold

#: What keeps for longer than so many days needs no date.
FEW_DAYS = 14

#: More loose pieces than this are weighed, not counted.
COUNTED = 12

#: Less than this share of what is bought is worth a look into the cupboard first [common practice, no source].
LITTLE = 0.1

#: How an aisle is signed, where the pantry's word says too little.
SIGNS = {"dairy": "dairy and chilled", "pulses and tins": "pulses, tins and jars"}


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
    if not sold.pack and packs * sold.pieces > COUNTED:
        return f"{sold.name}, {sold.size or weight(buy_g)} (about {packs * sold.pieces})"
    if not sold.pack:
        return f"{counted(packs * sold.pieces, sold.one, sold.name)} ({sold.size or weight(buy_g)})"
    word = sold.pack if packs == 1 else PACKS[sold.pack]
    if sold.pieces:
        return f"{counted(packs * sold.pieces, sold.one, sold.name)} ({packs} {word} of {sold.pieces})"
    return f"{sold.name}, {packs} {word} of {sold.size or weight(pack_g)}"


@dataclass(frozen=True, slots=True)
class Words:
    """What is said under the list; "" where there is nothing to say."""

    total: str
    also: str
    at_home: str
    kept: str
    at_home_left: str
    gone: str
    little: str


def words_of(shopping: Shopping) -> Words:
    """What is said under the list, for a page in any form."""
    return Words(
        total=total_words(shopping),
        also=", ".join(shopping.also),
        at_home=home_words(shopping),
        kept=kept_words(shopping),
        at_home_left=", ".join(left_words(one) for one in shopping.left if one.keeps_days is None),
        gone=gone_words(shopping),
        little=little_words(shopping),
    )


def sign(aisle: str) -> str:
    """How an aisle is signed."""
    words = SIGNS.get(aisle, aisle)
    return words[:1].upper() + words[1:]


def total_words(shopping: Shopping) -> str:
    """ "Total: 41.20 coin (invented prices)", with what has no price named."""
    invented = " (invented prices)" if shopping.invented else ""
    words = f"Total: {shopping.total_price:.2f}{shopping.currency and f' {shopping.currency}'}{invented}"
    return f"{words}; without a price: {', '.join(shopping.unpriced)}" if shopping.unpriced else words


def home_words(shopping: Shopping) -> str:
    """What is taken from the cupboard: "oats, rolled 320 g; egg 57 g"."""
    return "; ".join(
        f"{line.food} {weight(min(line.at_home_g, line.need_g))}"
        for line in shopping.things
        if line.at_home_g > 0 and line.need_g > 0 and not line.staple
    )


def little_words(shopping: Shopping) -> str:
    """What a pack is bought of for a spoon or two: "tahini 20 g; sugar, brown 14 g"."""
    return "; ".join(
        f"{line.food} {weight(line.need_g - line.at_home_g)}"
        for line in shopping.bought
        if line.need_g - line.at_home_g < LITTLE * line.buy_g
    )


def gone_words(shopping: Shopping) -> str:
    """What remains and does not keep, with its sum: "milk 400 g, spinach 60 g; 460 g in all, 1.90 of the total"."""
    gone = [one for one in shopping.left if not one.keeps]
    words = ", ".join(left_words(one) for one in gone)
    if len(gone) < 2:
        return words
    paid = {line.food: line.price / line.buy_g for line in shopping.lines if line.price is not None and line.buy_g > 0}
    money = sum(paid.get(one.food, 0.0) * one.grams for one in gone)
    coin = f" {shopping.currency}" if shopping.currency else ""
    worth = f", {money:.2f}{coin} of the total" if money >= 0.005 else ""
    return f"{words}; {weight(sum(one.grams for one in gone))} in all{worth}"


def left_words(one: Left) -> str:
    """ "rolled oats 755 g"."""
    return f"{one.says} {weight(one.grams)}"


def kept_words(shopping: Shopping) -> str:
    """What remains and keeps, with the days where they are few: "milk 400 g (2 days more), rolled oats 755 g"."""
    kept = sorted((one.keeps_days or 0, one.says, one) for one in shopping.left if one.keeps_days)
    return ", ".join(left_words(one) + _few_days(days) for days, _, one in kept)


def in_vain_words(in_vain: tuple[Left, ...]) -> str:
    """ "salmon fillets 200 g (does not keep), rolled oats 40 g"."""
    return ", ".join(left_words(one) + ("" if one.keeps else " (does not keep)") for one in in_vain)


def _few_days(days: int) -> str:
    if days > FEW_DAYS:
        return ""
    return f" ({days} {'day' if days == 1 else 'days'} more)"
