"""The groceries of a plan: what is eaten is added up again as it is bought, and held against each line."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field

from mealopt.core.clock import DAYS
from mealopt.documents.plan import Grocery, Meal, Plan, PlanDay
from mealopt.recheck.sums import Books
from mealopt.table.pantry import Pantry

#: Meals that a household shares; those around sessions are the athlete's alone.
_AT_TABLE = frozenset({"breakfast", "lunch", "dinner", "snack"})

#: What writing to a tenth of a gram may change, for each item, line and amount.
_TENTH = 0.1

#: What nobody can see on a scale, g.
_NOTHING = 1e-6


@dataclass(slots=True)
class _Asked:
    """What the plan asks of one food: grams as bought, how many items, on which days."""

    grams: list[float] = field(default_factory=list)
    days: set[str] = field(default_factory=set)


def broken_groceries(plan: Plan, books: Books) -> Iterator[str]:
    """Every line of a plan's groceries against the food that the plan needs; nothing where it has no groceries."""
    if not plan.groceries or books.pantry is None:
        return
    asked = _asked(plan, books, books.pantry)
    groups: dict[frozenset[str], list[Grocery]] = defaultdict(list)
    for line in plan.groceries:
        groups[frozenset(line.foods or (line.food,))].append(line)
    named = Counter(food for foods in groups for food in foods)
    for food in asked:
        if food not in named:
            yield f"the groceries: {food} is eaten, and nothing is bought of it"
    for food, count in named.items():
        if food not in asked:
            yield f"the groceries: {food} is listed, and nobody eats it"
        elif count > 1:
            yield f"the groceries: {food} stands in {count} lists of foods that are one thing to buy"
    for foods, lines in groups.items():
        for food in sorted(foods & asked.keys()):
            of_food = [line for line in lines if line.food == food]
            yield from (f"the groceries: {food}: {says}" for says in _food(asked[food], of_food))
        yield from (f"the groceries: {min(foods)}: {says}" for says in _thing(foods, lines, asked, books.pantry))


def _asked(plan: Plan, books: Books, pantry: Pantry) -> dict[str, _Asked]:
    """Food -> what the whole plan needs of it, for all at the table."""
    kitchen = books.facts.kitchen if books.facts else None
    times = 1.0
    if kitchen is not None and kitchen.people_at_table > 1:
        share = kitchen.your_share_percent
        times = kitchen.people_at_table if share is None else 100.0 / share
    found: dict[str, _Asked] = {}
    for day in plan.days:
        for meal in day.meals:
            if _over(plan, day, meal):
                continue
            for item in meal.items:
                food = pantry.foods.get(item.food)
                if food is None:
                    continue
                shared = meal.slot in _AT_TABLE and "supplement" not in food.counts
                grams = item.grams * 100.0 / (food.yield_factor * food.edible_percent)
                entry = found.setdefault(item.food, _Asked())
                entry.grams.append(grams * times if shared else grams)
                entry.days.add(meal.cooked_on or day.day)
    return found


def _over(plan: Plan, day: PlanDay, meal: Meal) -> bool:
    """Whether the meal is eaten, or its day of cooking came before the one that was planned anew."""
    anew = [number for number, entry in enumerate(plan.days) if entry.now is not None]
    if meal.eaten or not anew:
        return meal.eaten
    first = DAYS.index(plan.days[0].day)
    gap, kitchen = ((DAYS.index(name) - first) % len(DAYS) for name in (plan.days[anew[-1]].day, day.day))
    if meal.cooked_on is not None:
        kitchen -= (DAYS.index(day.day) - DAYS.index(meal.cooked_on)) % len(DAYS)
    return kitchen < gap


def _food(asked: _Asked, lines: list[Grocery]) -> Iterator[str]:
    """What is said to be needed of one food, and when."""
    need, written = math.fsum(asked.grams), math.fsum(line.need_g for line in lines)
    if not need - _NOTHING <= written + _NOTHING <= need + _TENTH * (len(asked.grams) + len(lines)) + 1e-3 * need:
        yield f"{written:g} g are said to be needed, {need:.1f} g are"
    if asked.days != {day for line in lines for day in line.days}:
        yield f"it is needed on {', '.join(sorted(asked.days, key=DAYS.index))}, the list says otherwise"


def _thing(foods: frozenset[str], lines: list[Grocery], asked: dict[str, _Asked], pantry: Pantry) -> Iterator[str]:
    """All lines of one thing to buy: one in a shop holds the packs, and the others take of them."""
    need = math.fsum(grams for food in foods if food in asked for grams in asked[food].grams)
    holding = [line for line in lines if not line.shares]
    there = math.fsum(line.at_home_g + line.buy_g for line in holding)
    if there < need - _NOTHING:
        yield f"{there:g} g are bought or at home, {need:.1f} g are needed"
    known = [pantry.foods[food] for food in foods if food in pantry.foods]
    if len({food.bought_ndb for food in known}) > 1:
        yield f"{', '.join(sorted(foods))} are not one thing to buy"
    if any(food.aisle != line.aisle for food in known for line in lines):
        yield f"it does not stand in the aisle {', '.join(sorted({line.aisle for line in lines}))}"
    for line in holding:
        others = [one for one in lines if one.shop == line.shop and one.shares == line.food]
        yield from _line(line, math.fsum(one.need_g for one in (line, *others)), _TENTH * (0.5 + len(others)))
    for line in lines:
        if line.shares and not any(one.shop == line.shop and one.food == line.shares for one in holding):
            yield f"{line.food} shares the packs of {line.shares}, which hold none"
        if line.shares and (line.packs or line.buy_g or abs(line.at_home_g - line.need_g) > _TENTH):
            yield f"{line.food} shares the packs of {line.shares}, and is bought beside them"


def _line(line: Grocery, need: float, rounding: float) -> Iterator[str]:
    """A line that holds packs, by its own numbers. need: of all foods that take of it; rounding: of that sum, g."""
    if line.pack_g > 0 and abs(line.buy_g - line.packs * line.pack_g) > _TENTH / 2:
        yield f"{line.packs} packs of {line.pack_g:g} g are not {line.buy_g:g} g"
    there = line.at_home_g + line.buy_g
    if there < need - rounding:
        yield f"{there:g} g are bought or at home, {need:g} g are said to be needed"
    if line.packs and there - line.pack_g >= need + _NOTHING:
        yield f"{line.packs} packs are more than the {need:g} g ask for"
    if abs(max(0.0, there - need) - line.left_g) > _TENTH + rounding:
        yield f"{line.left_g:g} g are said to be left, {there - need:.1f} g are"
    if line.staple and line.packs:
        yield "it is said to be in every kitchen, and bought"
