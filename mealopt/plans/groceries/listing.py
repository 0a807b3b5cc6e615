"""The lines of a shopping: things in packs, by shop and in the order in which a shop is walked."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from mealopt.documents.plan import Grocery, Plan
from mealopt.errors import BadInput
from mealopt.plans.groceries.needs import OWN_AISLE, Thing, day_at
from mealopt.plans.groceries.shops import Part, Shops, parts_of, tenth_down, tenth_up
from mealopt.plans.groceries.words import says
from mealopt.table.prices import PackPrice

#: The order in which a shop is walked: fresh food first, frozen last, so that it thaws least [common practice, no
#: source].
WALK = (
    "vegetables",
    "fruit",
    "bread",
    "breakfast",
    "grains",
    "pulses and tins",
    "dried fruit and nuts",
    "oils and vinegars",
    "sauces and seasonings",
    "spreads and sweets",
    "sports",
    "drinks",
    "soya and plant drinks",
    "eggs",
    "dairy",
    "meat",
    "fish",
    "frozen",
    OWN_AISLE,
)


def price_of(thing: Thing, prices: Mapping[str, PackPrice]) -> PackPrice | None:
    """Pack and price of a thing, by those of its foods that have one. Raises BadInput where they differ."""
    named = sorted(name for name in thing.foods if name in prices)
    for name in named[1:]:
        if prices[name] != prices[named[0]]:
            raise BadInput(
                f"prices: {named[0]} and {name} are both sold as {thing.name}; one pack and price is expected"
            )
    return prices[named[0]] if named else None


def lines_of(
    plan: Plan, things: Sequence[Thing], have: Mapping[str, float], prices: Mapping[str, PackPrice], shops: Shops
) -> list[tuple[Grocery, Thing, Part]]:
    """Every line with what it came from.

    have: thing's name -> grams at home. A pack that the price list names is the one that is sold.
    """
    found = []
    for thing in things:
        price, usual = price_of(thing, prices), thing.pack_g
        thing.pack_g = price.pack_g if price else usual
        at_home = have.get(thing.name, 0.0)
        if thing.sold.staple:
            # A kitchen is taken to have enough of it: the next whole gram.
            at_home = max(at_home, math.floor(Part(1, thing.by_day, 0.0, 0, 0.0).need_g) + 1.0)
        found += [(_line(plan, thing, part, price, usual), thing, part) for part in parts_of(thing, at_home, shops)]
    return sorted(found, key=lambda entry: (entry[0].shop, WALK.index(entry[0].aisle), entry[1].name))


def _line(plan: Plan, thing: Thing, part: Part, price: PackPrice | None, usual: float) -> Grocery:
    return Grocery(
        aisle=thing.aisle,
        food=thing.food,
        need_g=part.need_g,
        at_home_g=part.at_home_g,
        packs=part.packs,
        pack_g=thing.pack_g,
        buy_g=part.buy_g,
        price=round(part.packs * price.price, 2) if price else None,
        days=tuple(dict.fromkeys(day_at(plan, place) for place in sorted(part.by_day))),  # type: ignore[misc]
        foods=tuple(sorted(thing.foods)),
        says=says(part.packs, thing.pack_g, part.buy_g, thing.sold, usual),
        shop=part.shop,
        left_g=tenth_down(max(0.0, part.left_g)),
        staple=thing.sold.staple,
    )


def by_food(plan: Plan, line: Grocery, thing: Thing, part: Part) -> list[Grocery]:
    """The line of a thing as lines of its foods: that of which most is needed holds the packs, others share them."""
    takes = {food: _taken(amounts, thing, part) for food, amounts in thing.foods.items()}
    needs = {food: tenth_up(math.fsum(days.values())) for food, days in takes.items() if days}
    if len(needs) < 2:
        return [line.model_copy(update={"food": food}) for food in needs] or [line]
    main = max(needs, key=lambda food: (needs[food], food))

    def of(food: str, **more: object) -> Grocery:
        days = tuple(dict.fromkeys(day_at(plan, place) for place in sorted(takes[food])))
        return line.model_copy(update={"food": food, "need_g": needs[food], "days": days, **more})

    price = None if line.price is None else 0.0
    return [
        of(main),
        *(
            of(food, at_home_g=need_g, packs=0, buy_g=0.0, price=price, says="", left_g=0.0, shares=main)
            for food, need_g in sorted(needs.items())
            if food != main
        ),
    ]


def _taken(amounts: Mapping[int, float], thing: Thing, part: Part) -> dict[int, float]:
    """What one food of a thing takes of a part, by day: of a day that two shops serve, its share of each."""
    whole, served = thing.by_day, part.by_day
    return {place: grams * served[place] / whole[place] for place, grams in amounts.items() if place in served}
