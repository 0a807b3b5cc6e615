"""The whole shopping of a plan: lines, what remains, what it costs, and what a shopper should hear."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from datetime import timedelta

from mealopt.core.words import DAY_NAMES, dated
from mealopt.documents.plan import Grocery, Plan
from mealopt.errors import BadInput
from mealopt.menu.dishes import Menu
from mealopt.plans.day.document import OATS, READ_LABELS
from mealopt.plans.groceries.dates import days_more, in_time, last_place, with_dates
from mealopt.plans.groceries.have import AtHome, known_have
from mealopt.plans.groceries.household import OTHERS, Household, household_of
from mealopt.plans.groceries.left import left_of, spoilt
from mealopt.plans.groceries.listing import by_food, lines_of
from mealopt.plans.groceries.needs import OWN_AISLE, Thing, day_at, is_past, place_of, things_of, today_of
from mealopt.plans.groceries.shopping import Left, Shopping
from mealopt.plans.groceries.shops import Part, Shops, choose_shops
from mealopt.plans.own import menu_cautions
from mealopt.table.packs import sold
from mealopt.table.prices import CURRENCY, PackPrice, shipped_price_list

#: Most who are cooked for, as in the case file.
MOST_PEOPLE = 12


def with_groceries(plan: Plan, menu: Menu) -> Plan:
    """The plan with its groceries: one shop, nothing at home, the prices that ship. menu: the plan's own."""
    return plan.model_copy(update={"groceries": shop_for(plan, menu).lines})


def shop_for(
    plan: Plan,
    menu: Menu,
    have: Mapping[str, float] | None = None,
    *,
    shops: int = 1,
    prices: Mapping[str, PackPrice] | None = None,
    people: int | None = None,
) -> Shopping:
    """What to buy for a plan.

    menu: the plan's own. have: food -> grams as bought that are at home. shops: 1 or 2. prices: packs and prices by
    pantry food; None: the invented ones. people: another number than the case's. Raises BadInput.
    """
    if shops not in (1, 2):
        raise BadInput(f"shops: read {shops}; 1 or 2 is allowed")
    if people is not None and not 1 <= people <= MOST_PEOPLE:
        raise BadInput(f"people: read {people}; 1 to {MOST_PEOPLE} is allowed")
    household = household_of(plan, people)
    things = things_of(plan, menu.pantry, household.times)
    there = known_have(have or {}, menu.pantry, {name: thing.name for thing in things for name in thing.foods})
    at_home, gone = in_time(plan, things, there)
    last = place_of(plan, plan.days[-1].day)
    when = choose_shops(things, last, shops, today_of(plan))
    found = lines_of(plan, things, at_home, shipped_price_list() if prices is None else prices, when)
    parts: dict[str, list[Part]] = {}
    for _, thing, part in found:
        parts.setdefault(thing.name, []).append(part)
    bought = tuple(line for line, _, _ in found)
    left = _all_left(plan, menu, things, parts, when, there, at_home)
    late = list(spoilt(plan, [(thing, part) for _, thing, part in found], when))
    return Shopping(
        lines=tuple(line for entry in found for line in by_food(plan, *entry)),
        things=bought,
        left=left,
        total_price=round(math.fsum(line.price or 0.0 for line in bought), 2),
        unpriced=tuple(dict.fromkeys(thing.name for line, thing, _ in found if line.buy_g > 0 and line.price is None)),
        people=household.people,
        portion=household.portion,
        also=_also(plan, things, bought),
        cautions=(*late, *gone, *_cautions(plan, menu, household)),
        notes=(*_notes(plan, when, shops), *_unknown(things), *_disagreeing(plan, menu)),
        shops=_shop_days(plan, when),
        currency=CURRENCY if prices is None else "",
        invented=prices is None,
        title=_title(plan),
    )


def _all_left(
    plan: Plan,
    menu: Menu,
    things: Sequence[Thing],
    parts: Mapping[str, Sequence[Part]],
    when: Shops,
    there: Mapping[str, AtHome],
    at_home: Mapping[str, float],
) -> tuple[Left, ...]:
    """What remains of what is needed and of what was at home (there: all of it; at_home: what is eaten in time)."""
    last = place_of(plan, plan.days[-1].day)
    until = {name: last_place(plan, grams.by) for name, grams in there.items()}
    more = {thing.name: days_more(until.get(thing.name), thing.keeps_days, when, last) for thing in things}
    found = [one for thing in things if (one := _left(thing, parts[thing.name], when, last, at_home, more[thing.name]))]
    keeps = {sold(food).name: food.keeps_days for food in menu.pantry.foods.values()}
    found += [
        Left(name, name, grams, False, days_more(until[name], keeps.get(name, 0), when, last))
        for name, grams in at_home.items()
        if name not in more and grams
    ]
    return with_dates(plan, sorted(found, key=lambda one: (not one.keeps, one.says)))


def _left(
    thing: Thing, parts: Sequence[Part], shops: Shops, last: int, at_home: Mapping[str, float], more: int | None
) -> Left | None:
    # What a kitchen is only taken to have is not counted as left.
    return None if thing.sold.staple and thing.name not in at_home else left_of(thing, parts, shops, last, more)


def _title(plan: Plan) -> str:
    first, last = plan.days[0], plan.days[-1]
    name = str((plan.case.get("athlete") or {}).get("name") or "the athlete")
    if len(plan.days) == 1:
        return f"{name}: {dated(first.date, first.day)}"
    begins, ends = dated(first.date, first.day), dated(last.date, last.day)
    year = ends.rsplit(" ", 1)[-1]
    return f"{name}: {begins.removesuffix(f' {year}')} to {ends}"


def _also(plan: Plan, things: Sequence[Thing], lines: Sequence[Grocery]) -> tuple[str, ...]:
    """Staples and the seasonings of the methods, without those that are bought."""
    bought = {name for line in lines if not line.staple for name in (*line.foods, line.food)}
    bought |= {thing.name for thing in things if not thing.sold.staple}
    words = [thing.name for thing in things if thing.sold.staple]
    words += [word for day in plan.days for meal in day.meals if not meal.eaten for word in meal.also]
    return tuple(sorted({word for word in words if word not in bought}))


def _cautions(plan: Plan, menu: Menu, household: Household) -> list[str]:
    """What every list carries; what a plan says of supplements stands here too where their file is not at hand."""
    said = dict.fromkeys(words for day in plan.days for words in day.cautions)
    supplements = menu_cautions(menu) or tuple(words for words in said if "supplement" in words)
    others = (OTHERS,) if household.people > 1 else ()
    return [*dict.fromkeys((*supplements, *others, READ_LABELS, *((OATS,) if OATS in said else ())))]


def _notes(plan: Plan, shops: Shops, asked: int) -> list[str]:
    notes = [
        f"{DAY_NAMES[day.day]} {meal.time}, {meal.dish}: only its energy is known, so nothing is bought for it"
        for day in plan.days
        for meal in day.meals
        if not meal.items and not meal.eaten
    ]
    past = sum(is_past(plan, day, meal) for day in plan.days for meal in day.meals)
    if past:
        notes.append(f"what is eaten or cooked already is left out: {_meals(past)}")
    days = [f"on {name}" for name in (DAY_NAMES[day_at(plan, shops.bought(number))] for number in _numbers(shops))]
    notes.append(f"food is taken to be bought {' and '.join(days)}")
    if asked > len(days):
        notes.append("the food of one day is bought in one shop")
    return notes


def _unknown(things: Sequence[Thing]) -> list[str]:
    names = ", ".join(thing.name for thing in things if thing.aisle == OWN_AISLE)
    return [f"the file of your own foods is not at hand, so that no pack is known of: {names}"] if names else []


def _disagreeing(plan: Plan, menu: Menu) -> list[str]:
    """Items whose grams as bought the plan and the pantry say differently by more than rounding."""
    found = []
    for day in plan.days:
        for meal in day.meals:
            for item in meal.items:
                food = menu.pantry.foods.get(item.food)
                worked_out = 0.0 if food is None else item.grams * food.bought_per_gram
                if food is not None and abs(worked_out - item.as_bought_g) > 0.06 + 1e-3 * worked_out:
                    place = f"{DAY_NAMES[day.day]} {meal.time}, {item.food}"
                    says = f"the plan says {item.as_bought_g:g} g as bought, the pantry {worked_out:.1f} g"
                    found.append(f"{place}: {says}; the larger is counted")
    return found


def _meals(count: int) -> str:
    return "1 meal" if count == 1 else f"{count} meals"


def _numbers(shops: Shops) -> tuple[int, ...]:
    return (1,) if shops.second is None else (1, 2)


def _shop_days(plan: Plan, shops: Shops) -> tuple[str, ...]:
    """The days of the shops, with their dates where the plan has dates."""
    first = plan.days[0].date
    places = [shops.bought(number) for number in _numbers(shops)]
    dates = [None if first is None else first + timedelta(days=place) for place in places]
    return tuple(dated(on, day_at(plan, place)) for on, place in zip(dates, places, strict=True))
