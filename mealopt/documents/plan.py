"""The plan document, `mealopt/plan-1`: what was planned, for whom, from which table, and how good it is.

Relied on from outside, so it changes only by adding: every key that was not there from the first day has a default.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import ConfigDict, Field, model_validator

from mealopt.core.clock import DAYS
from mealopt.documents.fuel import FuelPlan
from mealopt.documents.parts import (
    Amount,
    Amounts,
    Count,
    Date,
    DayName,
    Flag,
    Number,
    Part,
    TargetBand,
    Targets,
    Time,
    Whole,
    Words,
)

SCHEMA = "mealopt/plan-1"

#: "USDA-SR28:" and the number of the table's row, or "own:" with the file and the name of a person's own food.
SOURCE_PATTERN = r"^(USDA-SR28:[0-9]{5}|own:[^#]+#.+)$"

SlotKind = Literal["breakfast", "lunch", "dinner", "snack", "before", "during", "after"]


class Table(Part):
    """The food-composition table that the plan was made with. sha256: of the file, in hexadecimal."""

    name: Words
    sha256: str = Field(pattern=r"^[0-9a-f]{64}$")


class Item(Part):
    """One food of a meal. grams: in `state`, as weighed; as_bought_g: what of the bought food that takes.

    says: how a dish's name and its method speak of it.
    """

    food: Words
    source: str = Field(pattern=SOURCE_PATTERN, max_length=2000)
    grams: Annotated[float, Field(strict=True, allow_inf_nan=False, gt=0)]
    measure: Words
    state: Words
    as_bought_g: Amount
    says: str = ""


class Meal(Part):
    """One eating occasion. number: from 1, in order of time over the day, what is eaten in sessions included.

    before_session: number of the session of the same day in whose window it stands; lead_minutes: from this meal's end
    to that session's start, or to the next day's where before_session is null. limits: nutrient key -> most. totals:
    see `documents.totals`. method: how to make it. also: seasonings that the method names, in amounts that no total
    counts. cooked_on: the earlier day on which it is cooked, else null. eaten: it is past, and stands as it was eaten;
    without items only its energy is known. planned: energy and protein that it was first planned to hold, where the day
    was planned anew since: it keeps three quarters of the one and all of the other. case_number: number by the case.
    """

    number: Count
    slot: SlotKind
    time: Time
    ends: Time
    dish: Words
    dish_id: Words | None
    minutes: Whole
    before_session: Count | None
    lead_minutes: Whole | None
    limits: Amounts
    items: tuple[Item, ...]
    totals: Amounts
    method: tuple[Words, ...] = ()
    also: tuple[Words, ...] = ()
    notes: tuple[Words, ...] = ()
    cooked_on: DayName | None = None
    eaten: Flag = False
    planned: Amounts = Field(default_factory=dict)
    case_number: Count | None = None


class SessionEntry(Part):
    """One session of the day. number: from 1, in order of time. net_kcal: above rest; replaced_kcal: eaten for it.

    carbohydrate_g_per_h: to eat in it, for each hour; during_g: over the whole of it. how, source: where its energy
    comes from. fuel: what is eaten and drunk in it, by the clock; null where it lasts no more than an hour.
    """

    number: Count
    kind: Words
    effort: Words
    start: Time
    ends: Time
    minutes: Count
    net_kcal: Amount | None = None
    replaced_kcal: Amount | None = None
    carbohydrate_g_per_h: TargetBand | None = None
    during_g: TargetBand | None = None
    how: str = ""
    source: str = ""
    notes: tuple[Words, ...] = ()
    fuel: FuelPlan | None = None


class Solve(Part):
    """How the answer was found. gap: (value - bound) / max(value, a stated floor); null where no bound is known.

    status: "optimal" within the gap that was asked for; "gap" where the time ended before it; "limit" where nothing is
    known about the distance from the best; "stopped" by hand. says: what was proven instead, where a plan was changed
    and not sought anew: then objective is its penalty and bound that of any plan of the day, as far as it is known.
    """

    solver: Words
    status: Literal["optimal", "gap", "limit", "stopped"]
    objective: Number | None
    bound: Number | None
    gap: Amount | None
    seconds: Amount
    rows: Whole
    columns: Whole
    says: str = ""


class SkippedMeal(Part):
    """A meal that the day has by its case and that is left out: its number among all of the day's, and its time."""

    number: Count
    slot: SlotKind
    time: Time
    ends: Time


class Struck(Part):
    """What was struck out of a day. meal: its number, null for every meal; what: a food, or the id of a dish."""

    meal: Count | None
    what: Words


class PlanDay(Part):
    """One plan day, from waking to the next waking.

    totals: of all meals. coverage: nutrient key -> share of the day's food, by grams, whose value the table knows, only
    where that is less than 1. missed: names of targets that could not be met. cautions: what touches this day. notes:
    what was assumed, limited or estimated. penalty: term -> points of the objective. now: the minute from which the day
    was planned anew, null where it is as first planned: what begins before it is eaten, all else is still to come.
    skipped: meals that are left out; the others keep their numbers. struck: what was struck out since the day was
    planned.
    """

    day: DayName
    date: Date | None
    sessions: tuple[SessionEntry, ...]
    targets: Targets
    meals: tuple[Meal, ...]
    totals: Amounts
    coverage: Amounts
    missed: tuple[Words, ...]
    cautions: tuple[Words, ...]
    notes: tuple[Words, ...] = ()
    penalty: dict[str, Amount] = Field(default_factory=dict)
    solve: Solve | None = None
    now: Time | None = None
    skipped: tuple[SkippedMeal, ...] = ()
    struck: tuple[Struck, ...] = ()

    @model_validator(mode="after")
    def _date_is_that_day(self) -> PlanDay:
        if self.date is not None and DAYS[self.date.weekday()] != self.day:
            raise ValueError(f"the day of {self.date} is {DAYS[self.date.weekday()]}")
        return self


class Grocery(Part):
    """One line of the shopping. need_g, at_home_g, buy_g: as bought; price: of all packs, null where unknown.

    food: the pantry's name; foods: all of its foods that the line is for (raw and boiled carrots are one thing to buy).
    days: on which it is cooked or eaten. packs and pack_g are 0 where no pack is known. says: the line as a shopper
    reads it. shop: the first or the second one. left_g: what remains of it. staple: a kitchen is taken to have it, so
    that nothing is bought. shares: the food in whose line the packs stand, where several foods are one thing to buy;
    then at_home_g is what this food takes of them.
    """

    aisle: Words
    food: Words
    need_g: Amount
    at_home_g: Amount
    packs: Whole
    pack_g: Amount
    buy_g: Amount
    price: Amount | None
    days: tuple[DayName, ...]
    foods: tuple[Words, ...] = ()
    says: str = ""
    shop: Count = 1
    left_g: Amount = 0.0
    staple: Flag = False
    shares: str = ""


class WeekCheck(Part):
    """One rule of the week and how it came out.

    unit: of the numbers. says: why it is not met, where it is not. known: share of the week's food, by grams, for which
    the table knows the nutrient that the rule is about. source: of the number.
    """

    rule: Words
    least: Number | None
    value: Number
    most: Number | None
    met: Flag
    unit: str = ""
    says: str = ""
    known: Annotated[float, Field(strict=True, ge=0, le=1)] = 1.0
    source: str = ""


class WeekEnergy(Part):
    """The week's energy, kcal. aims: of each day; aims_kcal: their sum; expected_kcal: the same from baseline,
    sessions, goal and moves, added another way; eaten_kcal: of the plan.
    """

    spread: Words
    aims: dict[DayName, Amount]
    aims_kcal: Amount
    expected_kcal: Amount
    eaten_kcal: Amount


class Cooking(Part):
    """A dish that is cooked once for several meals. grams: food -> as eaten, in all. meals: "wed 12:30 lunch"."""

    dish: Words
    minutes: Whole
    grams: dict[Words, Amount]
    meals: tuple[Words, ...]
    keeps_days: Whole


class CookingDay(Part):
    """What is cooked on one day for later days too. day: of the plan; cook: each dish once."""

    day: DayName
    cook: tuple[Cooking, ...]


class Week(Part):
    """What is checked over the whole week.

    cooking: the cooking sheet, days on which something is cooked for a later one. use_up: food -> grams as bought that
    were to be eaten. penalty: term -> points of all days and of the week's own rules.
    """

    checks: tuple[WeekCheck, ...] = ()
    energy: WeekEnergy | None = None
    cooking: tuple[CookingDay, ...] = ()
    use_up: dict[Words, Amount] = Field(default_factory=dict)
    cautions: tuple[Words, ...] = ()
    notes: tuple[Words, ...] = ()
    penalty: dict[str, Amount] = Field(default_factory=dict)


class Plan(Part):
    """The whole document. case: the case file's data as read. program: name and version that wrote it.

    sessions_before: the case's sessions before each replan that changed them; days planned until then follow from them.
    """

    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False, title="mealopt plan document")

    schema_name: Literal["mealopt/plan-1"] = Field(alias="schema")
    kind: Literal["day", "week"]
    case: dict[str, Any]
    table: Table
    days: tuple[PlanDay, ...] = Field(min_length=1, max_length=7)
    groceries: tuple[Grocery, ...] = ()
    week: Week = Week()
    solve: Solve
    program: str = ""
    sessions_before: tuple[tuple[dict[str, Any], ...], ...] = ()

    @model_validator(mode="after")
    def _days_are_days_of_one_week(self) -> Plan:
        names = [day.day for day in self.days]
        if self.kind == "day" and len(names) > 1:
            raise ValueError(f"one day is expected in a plan of the kind day, not {len(names)}")
        if len(set(names)) < len(names):
            raise ValueError(f"each day once is expected, not {', '.join(names)}")
        return self
