"""A week as its rows: what the case asks of its days together."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import lru_cache

from mealopt.documents.plan import PlanDay
from mealopt.menu.dishes import Menu
from mealopt.menu.plates import per_gram
from mealopt.people.case import Case
from mealopt.plans.day.pose import food_filter
from mealopt.rules.weekly.registry import WeekRow, WeekWishes, week_rows
from mealopt.rules.weekly.shares import EatenMeal, day_shares
from mealopt.table.pantry import Pantry
from mealopt.targets.micronutrients import RETINOL_MOST_UG, references


@dataclass(frozen=True, slots=True)
class Eaten:
    """A food of a planned meal as the week's rows count it."""

    name: str
    kin: str
    counts: frozenset[str]
    per_gram: Mapping[str, float] = field(default_factory=dict)


def week_wishes(case: Case, days: int, menu: Menu, use_up: Mapping[str, float] | None = None) -> WeekWishes:
    """What the case asks of a week of so many days."""
    rules = case.week
    return WeekWishes(
        days=days,
        main_dish_most=rules.main_dish_most,
        breakfast_most=rules.breakfast_most,
        snack_most=rules.snack_most,
        same_breakfast=case.kitchen.same_breakfast,
        fish=_eats_fish(case, menu.pantry),
        fish_least=rules.fish_least,
        oily_fish_least=rules.oily_fish_least,
        red_meat_most_g=rules.red_meat_most_g,
        pulses_least=rules.pulses_least,
        plants_least=rules.plants_least,
        eggs_most_g=rules.eggs_most_g,
        nuts_most_g=rules.nuts_most_g,
        dairy_most_g=rules.dairy_most_g,
        references=references(case.athlete.sex, case.athlete.age),
        reach=rules.micronutrients_percent / 100.0,
        retinol_most_ug=RETINOL_MOST_UG,
        fat_least_percent=rules.fat_least_percent,
        use_up=dict(use_up or {}),
        bought={name: food.bought_per_gram for name, food in menu.pantry.foods.items()},
    )


def case_rows(case: Case, days: int, menu: Menu, use_up: Mapping[str, float] | None = None) -> tuple[WeekRow, ...]:
    """The rows of a week of this case."""
    return week_rows(week_wishes(case, days, menu, use_up))


def _eats_fish(case: Case, pantry: Pantry) -> bool:
    eater = food_filter(case)
    return any(
        "fish" in food.counts
        and food.name not in eater.never
        and not eater.refuses(food.diet, frozenset(food.allergens))
        for food in pantry.foods.values()
    )


def eaten_meals(day: PlanDay, pantry: Pantry) -> list[EatenMeal]:
    """A planned day's meals as the week's rows count them."""
    return [
        EatenMeal(
            meal.slot,
            meal.dish_id or "",
            tuple((_eaten(item.food, item.source, pantry), item.grams) for item in meal.items),
        )
        for meal in day.meals
    ]


@lru_cache(maxsize=2048)
def _eaten(name: str, source: str, pantry: Pantry) -> Eaten:
    food = pantry.foods.get(name)
    if food is None:
        # Eaten beside the plan: only its row of the table is known.
        row = pantry.composition.rows.get(source.partition(":")[2])
        amounts = {} if row is None else {key: value / 100.0 for key, value in row.per_100g.items()}
        return Eaten(name, name, frozenset(), amounts)
    return Eaten(food.name, food.kin, frozenset(food.counts), per_gram(food, pantry))


def shares_of(day: PlanDay, rows: Iterable[WeekRow], pantry: Pantry) -> dict[str, dict[str, float]]:
    """What a planned day counts toward the week's rows."""
    return day_shares(rows, eaten_meals(day, pantry))
