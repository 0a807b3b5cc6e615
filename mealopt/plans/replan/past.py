"""What is past: planned meals as they were eaten, and what was eaten beside them, as meals and as plates."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from mealopt.core.clock import clock, minutes_of
from mealopt.core.nutrients import ENERGY
from mealopt.core.slots import MAIN
from mealopt.documents.plan import Item, Meal
from mealopt.documents.totals import Portion, day_totals
from mealopt.menu.dishes import Dish, Menu
from mealopt.menu.plates import Choice, Part, Plate, per_gram
from mealopt.plans.day.settled import ASSUMED_WORDS, assumed
from mealopt.plans.replan.found import FoundFood
from mealopt.table.pantry import Food, Pantry

#: How long it took to eat what was eaten beside the plan, minutes.
EATING = 10


#: What a meal that was eaten beside the plan says first.
BESIDE = "eaten beside the plan, as you said"


@dataclass(frozen=True, slots=True)
class GivenMeal:
    """A meal in which nothing is left to choose: eaten, or settled by the case by its foods or its energy alone.

    extra: eaten beside the plan, so that it plays no part in what the planned meals are to be. holds: nutrient key ->
    what it stands for, where that is not what its foods hold.
    """

    meal: Meal
    extra: bool = False
    holds: Mapping[str, float] | None = None

    @property
    def begins(self) -> int:
        """Minutes after the plan day's midnight."""
        return minutes_of(self.meal.time)

    @property
    def ends(self) -> int:
        """The same for its end."""
        return minutes_of(self.meal.ends)

    @property
    def kcal(self) -> float:
        """Its energy."""
        return self.holds.get(ENERGY, 0.0) if self.holds is not None else self.meal.totals.get(ENERGY, 0.0)


def is_beside(meal: Meal) -> bool:
    """Whether the meal was eaten beside the plan."""
    return meal.eaten and BESIDE in meal.notes


def portion_of(item: Item, pantry: Pantry) -> Portion:
    """The item with what its row of the table holds; of the pantry where it is a food of it, else of the table."""
    food = _pantry_food(item, pantry)
    if food is not None:
        return Portion(item.grams, pantry.row(food).per_100g, frozenset(food.counts))
    row = pantry.composition.rows[item.source.partition(":")[2]]
    return Portion(item.grams, row.per_100g, frozenset())


def known_totals(meal: Meal) -> dict[str, float] | None:
    """What a meal of which only the energy is known is taken to hold; None for all others."""
    return None if meal.items else assumed(meal.totals.get(ENERGY, 0.0))


def _pantry_food(item: Item, pantry: Pantry) -> Food | None:
    food = pantry.foods.get(item.food)
    return food if food is not None and food.source == item.source else None


def eaten_beside(
    found: Sequence[FoundFood], minute: int, kind: str, before: Sequence[GivenMeal], wake: int, pantry: Pantry
) -> GivenMeal:
    """What was eaten beside the plan by this minute, as one meal. kind: of its slot.

    It stands in the ten minutes before, and before any meal that it would run into.
    """
    end = minute
    for other in sorted(before, key=lambda one: -one.begins):
        if end > other.begins and end - EATING < other.ends:
            end = other.begins
    start = max(wake, end - EATING)
    end = max(end, start + 1)
    items = tuple(one.item for one in found if one.item is not None)
    kcal = sum(one.ate.kcal or 0.0 for one in found)
    names = list(dict.fromkeys(one.name for one in found))
    notes = [BESIDE, *(one.says for one in found if one.says)]
    notes += [ASSUMED_WORDS] if kcal else []
    meal = Meal(
        number=1,
        slot=kind,  # type: ignore[arg-type]
        time=clock(start),
        ends=clock(end),
        dish=", ".join(names),
        dish_id=None,
        minutes=0,
        before_session=None,
        lead_minutes=None,
        limits={},
        items=items,
        totals=day_totals([[portion_of(item, pantry) for item in items]], {0: {ENERGY: kcal}} if kcal else {}).day,
        notes=tuple(notes),
        eaten=True,
    )
    return GivenMeal(meal, extra=True)


def given_plate(given: GivenMeal, menu: Menu, prices: dict[str, float]) -> Plate:
    """The meal as a plate on which nothing is left to choose."""
    meal, pantry = given.meal, menu.pantry
    dish = menu.dishes.get(meal.dish_id or "")
    name = f"given_{meal.number}"
    standing = Dish.model_construct(
        id=meal.dish_id or name,
        name=meal.dish,
        kind=dish.kind if dish is not None else f"given meal {meal.number}",
        kitchen="your own",
        slots=(meal.slot,),
        heat="none",
        served=dish.served if dish is not None else "warm" if meal.slot in MAIN[1:] else "cold",
        minutes=meal.minutes,
        fridge_days=0,
        hours_out=0.0,
        salt_percent=0.0,
        energy=(0.0, max(1.0, 2.0 * given.kcal)),
        method=(),
        component=(),
        ratio=(),
        apart=(),
        also=(),
    )
    if given.holds is not None or not meal.items:
        held = dict(given.holds) if given.holds is not None else assumed(given.kcal)
        choices = [Choice(name, meal.dish, name, held, frozenset(), "well", 1.0, (1, 1), 1e6)]
    else:
        choices = [_choice(item, place, given.extra, pantry, prices) for place, item in enumerate(meal.items)]
    parts = (Part(f"food_{at}", (1, 1), (one.step_g, one.step_g), (one,)) for at, one in enumerate(choices))
    return Plate(standing, tuple(parts))


def _choice(item: Item, place: int, extra: bool, pantry: Pantry, prices: dict[str, float]) -> Choice:
    food = _pantry_food(item, pantry)
    if food is None:
        per_100g = portion_of(item, pantry).per_100g
        amounts = {key: value / 100.0 for key, value in per_100g.items()}
        name = f"{item.food} {place}"
        return Choice(name, item.food, name, amounts, frozenset(), "well", item.grams, (1, 1), 1e6)
    # What was eaten beside the plan counts by what it holds; it takes no other meal's place among foods that repeat.
    name = food.name if not extra or "supplement" in food.counts else f"{food.name}, eaten beside the plan"
    return Choice(
        name=name,
        says=food.says,
        kin=food.kin,
        per_gram=per_gram(food, pantry),
        counts=frozenset(food.counts),
        settles=food.settles,
        step_g=item.grams,
        steps=(1, 1),
        most_day_g=food.most_day_g,
        price_per_gram=None if extra else prices.get(food.name),
    )


def numbered(given: GivenMeal, number: int) -> GivenMeal:
    """The same meal with another number."""
    return replace(given, meal=given.meal.model_copy(update={"number": number}))
