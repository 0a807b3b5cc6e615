"""Checks of how our own pantry is sold: each food has its packs and its price, and they agree."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from mealopt.table.finding import Finding
from mealopt.table.packs import Sold
from mealopt.table.pantry import Pantry
from mealopt.table.prices import PackPrice

PACKS, PRICES = "foods/packs.csv", "foods/prices.csv"


def check_shop(pantry: Pantry, packs: Mapping[str, Sold], prices: Mapping[str, PackPrice]) -> Iterator[Finding]:
    """What of a pantry's foods a shop could not sell as the two files say."""
    for name, food in pantry.foods.items():
        how, price = packs.get(name), prices.get(name)
        if how is None:
            yield Finding(PACKS, name, "how it is sold", "no line", "one line", "fault")
        elif how.opened_days is not None and how.opened_days > food.keeps_days:
            allowed = f"at most {food.keeps_days}, as long as it keeps unopened"
            yield Finding(PACKS, name, "days that an opened pack keeps", str(how.opened_days), allowed, "fault")
        if price is None:
            yield Finding(PRICES, name, "price", "no line", "one line", "fault")
        elif price.pack_g != food.pack_g:
            yield Finding(PRICES, name, "pack, g", f"{price.pack_g:g}", f"{food.pack_g:g}, as in the pantry", "fault")
