"""The shopping after a change: what is bought for the plan as it was, what to buy now, and what was bought in vain."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from mealopt.documents.plan import Plan
from mealopt.errors import BadInput
from mealopt.menu.dishes import Menu
from mealopt.plans.groceries.household import household_of
from mealopt.plans.groceries.left import TRIFLE
from mealopt.plans.groceries.needs import Thing, place_of, things_of
from mealopt.plans.groceries.shop import shop_for
from mealopt.plans.groceries.shopping import Left, Shopping
from mealopt.plans.groceries.shops import choose_shops, tenth_down, tenth_up
from mealopt.table.prices import PackPrice


@dataclass(frozen=True, slots=True)
class AfterChange:
    """What follows from a change of plan when the list of the plan as it was has been bought.

    now: what to buy on top. in_vain: what was bought for meals that are no more, as far as no other meal takes it.
    """

    now: Shopping
    in_vain: tuple[Left, ...]


def shop_after(
    before: Plan,
    after: Plan,
    menu: Menu,
    have: Mapping[str, float] | None = None,
    *,
    shops: int = 1,
    prices: Mapping[str, PackPrice] | None = None,
    people: int | None = None,
) -> AfterChange:
    """What to buy for a plan when the list of the plan before it has been bought. Raises BadInput.

    menu: of both. have: what was at home before that; the other arguments as in `shop_for`. What the plan says is past
    is taken as eaten from it. Plans of other days have nothing to do with each other, which is refused.
    """
    if (before.days[0].day, before.days[0].date) != (after.days[0].day, after.days[0].date):
        raise BadInput("the plans begin on different days; a plan and the same plan after a change are expected")
    done = shop_for(before, menu, have, prices=prices, people=people)
    times = household_of(after, people).times
    past = _grams(things_of(after, menu.pantry, times, past=True))
    ahead = _grams(things_of(after, menu.pantry, times))
    asked = things_of(before, menu.pantry, household_of(before, people).times)
    names = {food: thing.name for thing in asked for food in thing.foods}
    there: dict[str, list[float]] = {}
    for line in done.things:
        there.setdefault(line.food, []).append(0.0 if line.staple else line.at_home_g + line.buy_g)
    at_home = {food: _rest(math.fsum(grams), past.get(names[food], 0.0)) for food, grams in there.items()}
    at_home |= {one.food: one.grams for one in done.left if one.food not in names}
    now = shop_for(after, menu, at_home, shops=shops, prices=prices, people=people)
    held = place_of(before, before.days[-1].day) - choose_shops(asked, 0, 1).bought(1)
    return AfterChange(now, tuple(_in_vain(thing, past, ahead, held) for thing in asked if _over(thing, past, ahead)))


def _grams(things: list[Thing]) -> dict[str, float]:
    return {thing.name: math.fsum(thing.by_day.values()) for thing in things}


def _rest(there: float, taken: float) -> float:
    # Rounded as needs are, so that what covered the whole before still covers what is to come.
    return tenth_up(max(0.0, there - taken))


def _over(thing: Thing, past: Mapping[str, float], ahead: Mapping[str, float]) -> float:
    """Grams that were bought to be eaten and now are not, 0 for staples and crumbs."""
    over = math.fsum(thing.by_day.values()) - past.get(thing.name, 0.0) - ahead.get(thing.name, 0.0)
    return 0.0 if thing.sold.staple or over <= max(1.0, TRIFLE * thing.pack_g) else over


def _in_vain(thing: Thing, past: Mapping[str, float], ahead: Mapping[str, float], held: int) -> Left:
    """held: days from the shop to the plan's last day."""
    over = tenth_down(_over(thing, past, ahead))
    return Left(thing.food, thing.name, over, False, max(0, thing.keeps_days - held))
