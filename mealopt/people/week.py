"""What a whole week is held to; each day's own rules hold besides."""

from __future__ import annotations

from pydantic import BaseModel

from mealopt.people.fields import STRICT, number


class WeekRules(BaseModel):
    """The rules of a week of seven days; a part of a week is held to its share of them. 0 turns a least off."""

    model_config = STRICT

    main_dish_most: int = number(1, 7, "times", "How often one dish may be lunch or dinner.", default=2)
    breakfast_most: int = number(1, 7, "times", "How often one dish may be breakfast.", default=4)
    snack_most: int = number(1, 7, "times", "How often one dish may be a snack.", default=3)
    fish_least: int = number(0, 7, "days", "Days with fish, for those who eat it.", default=2)
    oily_fish_least: int = number(0, 7, "days", "Days with oily fish, for those who eat it.", default=1)
    red_meat_most_g: float = number(0, 7000, "g", "Red meat as eaten, cooked.", default=500.0)
    pulses_least: int = number(0, 7, "days", "Days with a portion of pulses.", default=2)
    plants_least: int = number(0, 60, "kinds", "Different plant foods.", default=25)
    eggs_most_g: float = number(0, 7000, "g", "Eggs without their shells.", default=700.0)
    nuts_most_g: float = number(0, 3500, "g", "Nuts.", default=350.0)
    dairy_most_g: float = number(0, 21000, "g", "Milk, yoghurt and cheese together.", default=5600.0)
    micronutrients_percent: float = number(
        0, 200, "%", "Of the reference intakes, what the week's mean should reach at least.", default=100.0
    )
    cook_ahead_days: int = number(
        0, 3, "days", "How long before a meal its dish may be cooked: 1, in the evening for the next midday.", default=1
    )
    cooked_ahead_least: int = number(
        0, 7, "meals", "Meals that come from an earlier day's pot, where dishes that keep allow it.", default=1
    )
    fat_least_percent: float = number(15, 35, "% of energy", "Fat over the week.", default=20.0)
