"""What a plan needs: each thing that a shop sells, in grams as bought, by the day on which it is cooked or eaten."""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import dataclass, field

from mealopt.core.clock import DAYS
from mealopt.documents.plan import Item, Meal, Plan, PlanDay
from mealopt.errors import BadInput
from mealopt.table.packs import Sold, own_sold, sold
from mealopt.table.pantry import SUPPLEMENT, Food, Pantry

#: Where foods of a person's own stand whose file is not at hand.
OWN_AISLE = "your own foods"

#: No meal takes more of one food, g.
MOST_G = 1_000_000.0

#: Meals at the table, which others share; what is eaten before, in and after sessions is the athlete's alone.
SHARED = ("breakfast", "lunch", "dinner", "snack")


@dataclass(slots=True)
class Thing:
    """One thing to buy.

    name: as a shop says it. aisle, pack_g, keeps_days: of the pantry; 0 where not known. amounts: day's place -> grams
    as bought of each item. foods: pantry name -> day's place -> grams as bought, of those that stand in the plan.
    """

    name: str
    sold: Sold
    aisle: str
    pack_g: float
    keeps_days: int
    amounts: dict[int, list[float]] = field(default_factory=lambda: defaultdict(list))
    foods: dict[str, dict[int, float]] = field(default_factory=lambda: defaultdict(lambda: defaultdict(float)))

    @property
    def by_day(self) -> dict[int, float]:
        """Day's place -> grams as bought, in order."""
        return {place: math.fsum(self.amounts[place]) for place in sorted(self.amounts)}

    @property
    def food(self) -> str:
        """The pantry food of which most is needed."""
        return max(self.foods, key=lambda name: (sum(self.foods[name].values()), name))


def place_of(plan: Plan, day: str) -> int:
    """A day's place after the plan's first day, which has place 0."""
    return (DAYS.index(day) - DAYS.index(plan.days[0].day)) % len(DAYS)


def cooked_at(plan: Plan, day: PlanDay, meal: Meal) -> int:
    """The place of the day on which a meal is cooked: that on which it is eaten, or an earlier one."""
    eaten = place_of(plan, day.day)
    return eaten if meal.cooked_on is None else eaten - (DAYS.index(day.day) - DAYS.index(meal.cooked_on)) % len(DAYS)


def today_of(plan: Plan) -> int | None:
    """The place of the last day that was planned anew: what was cooked before it is past; None where none was."""
    return max((place_of(plan, entry.day) for entry in plan.days if entry.now is not None), default=None)


def is_past(plan: Plan, day: PlanDay, meal: Meal) -> bool:
    """Whether a meal needs no food any more: eaten, or cooked on a day before the one that was planned anew."""
    today = today_of(plan)
    return meal.eaten or (today is not None and cooked_at(plan, day, meal) < today)


def day_at(plan: Plan, place: int) -> str:
    """The day of a place."""
    return DAYS[(DAYS.index(plan.days[0].day) + place) % len(DAYS)]


def things_of(plan: Plan, pantry: Pantry, times: float, *, past: bool = False) -> list[Thing]:
    """All that the meals to come need, or that the past ones took.

    times: grams on the table for each gram of the athlete's.
    """
    found: dict[str, Thing] = {}
    for day in plan.days:
        for meal in day.meals:
            if is_past(plan, day, meal) != past:
                continue
            place = cooked_at(plan, day, meal)
            for item in meal.items:
                food = pantry.foods.get(item.food)
                thing = _thing(food, item)
                thing = found.setdefault(thing.name, thing)
                shared = meal.slot in SHARED and not (food and SUPPLEMENT in food.counts)
                grams = as_bought(item, food) * (times if shared else 1.0)
                thing.amounts[place].append(grams)
                thing.foods[item.food][place] += grams
    return list(found.values())


def _thing(food: Food | None, item: Item) -> Thing:
    if food is None:
        how = own_sold(item.food)
        return Thing(how.name, how, OWN_AISLE, 0.0, 0)
    how = sold(food)
    return Thing(how.name, how, food.aisle, food.pack_g, food.keeps_days)


def as_bought(item: Item, food: Food | None) -> float:
    """Grams of the bought food that an item takes, peel and stones with them; never less than the plan itself says.

    Raises BadInput where that is more than anybody buys.
    """
    grams = item.as_bought_g
    if food is not None:
        grams = max(grams, item.grams * food.bought_per_gram)
    if grams > MOST_G:
        raise BadInput(f"the plan: {item.food}: read {grams:g} g as bought; at most {MOST_G:g} g in a meal is allowed")
    return grams
