"""What is eaten and drunk in one session, by the clock: a part of the plan document, and what `fuel` hands out."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from mealopt.documents.parts import Amount, Amounts, Count, DayName, Flag, Part, TargetBand, Time, Whole, Words

#: A food's grams within a bottle or a thing.
Grams = Annotated[float, Field(strict=True, allow_inf_nan=False, gt=0)]


class FuelFood(Part):
    """One food in a bottle or a thing. measure: as a kitchen measures it."""

    food: Words
    grams: Grams
    measure: Words


class Bottle(Part):
    """Bottles of one kind. count: how many; ml: in each; holds: in each, what is not listed is water.

    percent: grams of carbohydrate in 100 ml; sodium_mg_per_l: of the drink. first: minute of the session at which the
    first of them is begun. dry: they can be mixed at a tap from a bag. says: how it is mixed.
    """

    name: Words
    count: Count
    ml: Count
    holds: tuple[FuelFood, ...]
    percent: Amount
    sodium_mg_per_l: Amount
    first: Whole
    dry: Flag
    says: Words


class Carried(Part):
    """One thing to eat. count: pieces; grams: of one; holds: its foods, in one; says: how it is packed."""

    name: Words
    count: Count
    grams: Grams
    carbohydrate_g: Amount
    holds: tuple[FuelFood, ...]
    says: Words


class FuelStep(Part):
    """What to do when. minute: of the session; km: on the way, where the distance is known; kind: what it is.

    carbohydrate_g: of what is eaten then, or in the bottle that is begun then and lasts until the next; ml: in it.
    """

    time: Time
    minute: Whole
    km: Amount | None
    kind: Literal["eat", "drink", "refill"]
    says: Words
    carbohydrate_g: Amount = 0.0
    ml: Whole = 0


class FuelFluid(Part):
    """Litres an hour: the band, the ceiling that nothing lifts, what the bottles and the food's water hold; in all.

    loss_l_per_h: what a sweat test says; null without one that fits. short_kg, short_percent: body mass lost at the
    end where the bottles are emptied. how: where the ceiling comes from.
    """

    least_l_per_h: Amount
    ceiling_l_per_h: Amount
    planned_l_per_h: Amount
    litres: Amount
    food_water_l: Amount
    tested: Flag
    loss_l_per_h: Amount | None
    short_kg: Amount | None
    short_percent: Amount | None
    how: Words


class FuelSodium(Part):
    """mg of sodium for each litre drunk, food included. asked: whether any is; lost_mg_per_h: with the sweat."""

    asked: Flag
    least_mg_per_l: Amount
    aim_mg_per_l: Amount
    most_mg_per_l: Amount
    ceiling_mg_per_l: Amount
    planned_mg_per_l: Amount
    planned_mg: Amount
    lost_mg_per_h: Amount | None
    how: Words


class FuelPlan(Part):
    """One session's food and drink. session: its number in the day.

    optional: easy work, which can do without. carbohydrate_g_per_h: the band; gives_g_per_h: what the plan holds, with
    the glucose and fructose that it ends as. by_hour_g: carbohydrate in each hour of the clock plan. foods: grams of
    each in all, which are those of the day's meal in the session. start_weight_g: carried at the start, bottles' drink
    included; weight_g: of everything. price: null where one is unknown. refills: minutes at which bottles are empty.
    before, after: what to eat and drink around it.
    """

    day: DayName
    session: Count
    kind: Words
    effort: Words
    start: Time
    ends: Time
    minutes: Count
    optional: Flag
    carbohydrate_g_per_h: TargetBand
    gives_g_per_h: Amount
    glucose_g_per_h: Amount
    fructose_g_per_h: Amount
    by_hour_g: tuple[Amount, ...]
    fluid: FuelFluid | None
    sodium: FuelSodium | None
    bottles: tuple[Bottle, ...]
    carried: tuple[Carried, ...]
    steps: tuple[FuelStep, ...]
    foods: tuple[FuelFood, ...]
    totals: Amounts
    start_weight_g: Amount
    weight_g: Amount
    refills: tuple[Whole, ...]
    price: Amount | None
    before: tuple[Words, ...]
    after: tuple[Words, ...]
    notes: tuple[Words, ...]
    cautions: tuple[Words, ...]
