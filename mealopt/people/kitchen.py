"""The kitchen: what is eaten, when the day begins and ends, and when there is a stove."""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel, model_validator

from mealopt.core.clock import DAY_MINUTES, DAYS, clock, minutes_of, span
from mealopt.people.fields import (
    STRICT,
    Clock,
    ClockSpan,
    DayName,
    FoodName,
    Portion,
    choice,
    complaint,
    flag,
    many,
    number,
    portion,
    words,
)

Diet = Literal["omnivore", "pescatarian", "vegetarian", "vegan"]
Allergen = Literal[
    "gluten",
    "crustaceans",
    "eggs",
    "fish",
    "peanuts",
    "soybeans",
    "milk",
    "nuts",
    "celery",
    "mustard",
    "sesame",
    "sulphites",
    "lupin",
    "molluscs",
]
Away = Literal["", "no_kitchen", "microwave", "can_buy"]

_BUDGET = "Money for a day's food, in the price list's currency."
_COOK = "Kitchen time a day."
_MEALS = "Eating occasions before sessions add theirs; a wish."
_WAKE = 'Waking, "HH:MM"; the plan day begins here.'
_SLEEP = 'Going to sleep, "HH:MM"; a time before waking is after midnight.'
_STOVE = 'When a stove is at hand, "HH:MM-HH:MM"; left out: all day, with a note.'


class KitchenDayEntry(BaseModel):
    """What differs on one day; what it leaves out is as on every day."""

    model_config = STRICT

    day: DayName = choice("The day that differs; one entry a day.")
    wake: Clock | None = choice(_WAKE, None)
    sleep: Clock | None = choice(_SLEEP, None)
    cook_minutes: int | None = number(0, 300, "minutes", _COOK, default=None, high="was it seconds?")
    meals_per_day: int | None = number(2, 8, "", _MEALS, default=None)
    budget_per_day: float | None = number(0.1, 100000, "", _BUDGET, default=None)
    can_cook: tuple[ClockSpan, ...] | None = many(_STOVE, 12, None)
    away: Away = choice("What the place has where meals are eaten between away_from and away_to.", "")
    away_from: Clock | None = choice("Leaving home.", None)
    away_to: Clock | None = choice("Home again.", None)

    @model_validator(mode="after")
    def _away_has_hours(self) -> KitchenDayEntry:
        for key in ("away_from", "away_to"):
            value = getattr(self, key)
            if self.away and value is None:
                raise complaint(
                    f'read "{self.away}" without {key}; both away_from and away_to are expected with it', "away"
                )
            if not self.away and value is not None:
                raise complaint(f'read "{value}" without away; no_kitchen, microwave or can_buy is expected', key)
        if self.away_from and self.away_to and minutes_of(self.away_to) <= minutes_of(self.away_from):
            raise complaint(
                f'read "{self.away_to}" with away_from = "{self.away_from}"; a later time is expected '
                "(after midnight: 25:30)",
                "away_to",
            )
        return self


class Fixed(BaseModel):
    """A meal that is settled already: by its energy, a dish of the program, or foods in grams; exactly one of them."""

    model_config = STRICT

    day: DayName = choice("The plan day of the meal.")
    time: Clock = choice("When it is eaten.")
    what: str = words("Words for it.", most=100)
    energy_kcal: float | None = number(10, 3000, "kcal", "Its energy, where nothing else is known.", default=None)
    dish: str | None = words("The id of a dish.", None)
    foods: tuple[Portion, ...] | None = many('Foods with grams, like "oats, rolled=80g".', 30, None)

    @property
    def minute(self) -> int:
        """When it is eaten, in minutes after the plan day's midnight."""
        return minutes_of(self.time)

    @property
    def portions(self) -> tuple[tuple[str, float], ...]:
        """Foods and grams; empty where the meal is given another way."""
        return tuple(portion(text) for text in self.foods or ())

    @model_validator(mode="after")
    def _is_given_one_way(self) -> Fixed:
        given = [key for key in ("energy_kcal", "dish", "foods") if getattr(self, key) not in (None, ())]
        if len(given) != 1:
            found = " and ".join(given) or "no energy_kcal, dish or foods"
            raise complaint(
                f'read {found} for "{self.what}"; exactly one of energy_kcal, dish and foods is expected',
                given[-1] if given else "what",
            )
        return self


class Kitchen(BaseModel):
    """What is eaten and what there is to cook with, on every day and on days that differ."""

    model_config = STRICT

    diet: Diet = choice("The widest diet that is eaten.", "omnivore")
    gluten_free: bool = flag("No cereal with gluten; oats only with certification.", False)
    avoid_allergens: tuple[Allergen, ...] = many("Allergens of the EU list that are left out.", 14)
    never: tuple[FoodName, ...] = many("Foods or dishes that are never planned.", 500)
    prefer: tuple[FoodName, ...] = many("Foods or dishes to plan rather.", 500)
    less: tuple[FoodName, ...] = many("Foods or dishes to plan rather not.", 500)
    wake: Clock = choice(_WAKE, "06:30")
    sleep: Clock = choice(_SLEEP, "22:30")
    meals_per_day: int = number(2, 8, "", _MEALS, default=4)
    cook_minutes: int = number(0, 300, "minutes", _COOK, default=60, high="was it seconds?")
    budget_per_day: float | None = number(0.1, 100000, "", _BUDGET, default=None)
    can_cook: tuple[ClockSpan, ...] | None = many(_STOVE, 12, None)
    same_breakfast: bool = flag("The same breakfast every day.", False)
    people_at_table: int = number(1, 12, "people", "For how many is cooked and bought, you among them.", default=1)
    your_share_percent: float | None = number(
        5, 95, "%", "Your part of each shared dish, where the others do not eat as much as you.", default=None
    )
    own_foods: str | None = words("A file with foods of one's own.", None, most=1000)
    day: tuple[KitchenDayEntry, ...] = many("Days that differ.", 7)
    fixed: tuple[Fixed, ...] = many("Meals that are settled already.", 70)

    def entry(self, day: str) -> KitchenDayEntry | None:
        """What differs on this day, if anything does."""
        return next((entry for entry in self.day if entry.day == day), None)

    def hours(self, day: str) -> tuple[int, int]:
        """Waking and sleeping of this day as written, in minutes; a sleep before the wake is after midnight."""
        entry = self.entry(day)
        wake = minutes_of(entry.wake if entry and entry.wake else self.wake)
        sleep = minutes_of(entry.sleep if entry and entry.sleep else self.sleep)
        return wake, sleep if sleep > wake else sleep + DAY_MINUTES

    def stove(self, day: str) -> tuple[tuple[int, int], ...] | None:
        """When a stove is at hand on this day, in minutes and in order; None: all day."""
        entry = self.entry(day)
        spans = entry.can_cook if entry and entry.can_cook is not None else self.can_cook
        return None if spans is None else tuple(sorted(span(text) for text in spans))

    def where(self, day: str, key: str) -> tuple[str | int, ...]:
        """The path, from [kitchen], of the key that decides on this day."""
        for index, entry in enumerate(self.day):
            if entry.day == day and getattr(entry, key) is not None:
                return ("day", index, key)
        return (key,)

    @model_validator(mode="after")
    def _share_is_of_several(self) -> Kitchen:
        if self.your_share_percent is not None and self.people_at_table == 1:
            raise complaint(
                f"read {self.your_share_percent:g} with people_at_table = 1; two or more people are expected with it",
                "your_share_percent",
            )
        return self

    @model_validator(mode="after")
    def _days_are_given_once(self) -> Kitchen:
        for index, entry in enumerate(self.day):
            if any(earlier.day == entry.day for earlier in self.day[:index]):
                raise complaint(
                    f'read "{entry.day}" a second time; one entry for each day is allowed', "day", index, "day"
                )
        return self

    @model_validator(mode="after")
    def _days_begin_and_end(self) -> Kitchen:
        for day, following in zip(DAYS, (*DAYS[1:], DAYS[0]), strict=True):
            wake, sleep = self.hours(day)
            next_wake = self.hours(following)[0] + DAY_MINUTES
            if wake >= DAY_MINUTES:
                raise complaint(f'read "{clock(wake)}" for {day}; 00:00 to 23:59 is allowed', *self.where(day, "wake"))
            if sleep == wake + DAY_MINUTES:
                raise complaint(f'read "{clock(wake)}", the time of waking on {day}; another time is expected',
                                *self.where(day, "sleep"))  # fmt: skip
            if sleep >= next_wake:
                raise complaint(
                    f"read a sleep at {clock(sleep)} for {day}, but {following} begins at {clock(next_wake)} of that "
                    "plan day; a sleep before the next waking is expected",
                    *self.where(day, "sleep"),
                )
        return self
