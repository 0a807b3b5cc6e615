"""What the recheck needs to know of the case, read from the plan's own copy and by its own reading.

Only the keys that promises hang on are read; all others are somebody else's matter.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, ValidationError

from mealopt.core.clock import DAY_MINUTES, DAYS, minutes_of

#: Minutes awake before a race that begins in sleeping hours [common practice, no source].
AWAKE_BEFORE_RACE = 60


def _time(text: str) -> str:
    minutes_of(text)
    return text


Time = Annotated[str, AfterValidator(_time)]
Day = Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]


class _Facts(BaseModel):
    model_config = ConfigDict(extra="ignore", frozen=True, allow_inf_nan=False)


class CaseSession(_Facts):
    """A session of the case, in the plan day's minutes."""

    day: Day
    start: Time
    minutes: int = Field(gt=0, le=DAY_MINUTES)
    kind: str
    effort: str
    conditions: str | None = None

    @property
    def begins(self) -> int:
        """Start, in minutes after the plan day's midnight."""
        return minutes_of(self.start)

    @property
    def ends(self) -> int:
        """End, in the same minutes; may pass 1440."""
        return self.begins + self.minutes


class CaseKitchenDay(_Facts):
    """What differs on one day."""

    day: Day
    wake: Time | None = None


class CaseFixed(_Facts):
    """A meal that is settled already: by its energy, a dish, or foods in grams as "oats, rolled=80g"."""

    day: Day
    time: Time
    energy_kcal: float | None = None
    dish: str | None = None
    foods: tuple[str, ...] | None = None

    @property
    def grams(self) -> dict[str, float]:
        """Grams of each of its foods."""
        found: dict[str, float] = {}
        for text in self.foods or ():
            food, _, amount = text.rpartition("=")
            found[food.strip()] = found.get(food.strip(), 0.0) + float(amount.strip().removesuffix("g"))
        return found


class CaseKitchen(_Facts):
    """Diet and waking hours. Where a key is not written, the default of the case file's reference holds."""

    diet: Literal["omnivore", "pescatarian", "vegetarian", "vegan"] = "omnivore"
    gluten_free: bool = False
    avoid_allergens: tuple[str, ...] = ()
    never: tuple[str, ...] = ()
    wake: Time = "06:30"
    people_at_table: int = Field(default=1, ge=1)
    your_share_percent: float | None = Field(default=None, gt=0, lt=100)
    day: tuple[CaseKitchenDay, ...] = ()
    fixed: tuple[CaseFixed, ...] = ()


class CaseBand(_Facts):
    """A band of the athlete's own."""

    nutrient: str
    least: float | None = None
    most: float | None = None
    day: Day | None = None
    slot: str | None = None
    meal: int | None = None


class CaseGoal(_Facts):
    """Own bands."""

    band: tuple[CaseBand, ...] = ()


class CaseSweatTest(_Facts):
    """One sweat test, as measured or by its rate."""

    minutes: int | None = Field(default=None, gt=0)
    mass_before_kg: float | None = None
    mass_after_kg: float | None = None
    drunk_l: float = 0.0
    urine_l: float = 0.0
    litres_per_hour: float | None = None
    sodium_mg_per_l: float | None = None
    sodium_from: str = "whole_body"

    @property
    def rate(self) -> float:
        """L/h: what the scale says with drink and urine, else the figure that is given."""
        if self.mass_before_kg is None or self.mass_after_kg is None or self.minutes is None:
            return self.litres_per_hour or 0.0
        lost = self.mass_before_kg - self.mass_after_kg
        return 60.0 * (lost + self.drunk_l - self.urine_l) / self.minutes


class CaseSweat(_Facts):
    """The athlete's sweat."""

    salty: bool = False
    test: tuple[CaseSweatTest, ...] = ()


class CaseFuel(_Facts):
    """Wishes for sessions."""

    drink_percent_most: float = 8.0


class CaseAthlete(_Facts):
    """Body mass and, where measured, body fat; what the gut is used to, what a doctor should know, sweat."""

    mass_kg: float = Field(gt=0)
    body_fat_percent: float | None = Field(default=None, ge=0, lt=100)
    carbohydrate_used_to_g_per_h: float | None = None
    cautions: tuple[str, ...] | None = None
    sweat: CaseSweat | None = None


class Facts(_Facts):
    """The case as far as promises hang on it."""

    athlete: CaseAthlete
    goal: CaseGoal = CaseGoal()
    kitchen: CaseKitchen = CaseKitchen()
    fuel: CaseFuel = CaseFuel()
    session: tuple[CaseSession, ...] = ()

    def sessions_on(self, day: str) -> list[CaseSession]:
        """The sessions that start on this plan day, in order of time."""
        return sorted((entry for entry in self.session if entry.day == day), key=lambda entry: entry.begins)

    def wake(self, day: str) -> int:
        """Waking: as written for the day, else as on every day, or earlier for a race before it."""
        own = next((entry.wake for entry in self.kitchen.day if entry.day == day and entry.wake), None)
        if own:
            return minutes_of(own)
        usual = minutes_of(self.kitchen.wake)
        races = [entry.begins for entry in self.sessions_on(day) if entry.effort == "race"]
        early = [start - AWAKE_BEFORE_RACE for start in races if start < usual]
        return max(0, min(early)) if early else usual


@dataclass(frozen=True, slots=True)
class Ahead:
    """A session that meals of a day look ahead to. number: in the day, from 1; None for the next day's."""

    number: int | None
    begins: int
    ends: int
    kind: str
    effort: str

    @property
    def words(self) -> str:
        """ "the run at 18:00"."""
        hours, minutes = divmod(self.begins % DAY_MINUTES, 60)
        return f"the {self.kind} at {hours:02d}:{minutes:02d}{'' if self.number else ' of the next day'}"


def sessions_ahead(facts: Facts, day: str) -> list[Ahead]:
    """The day's sessions and the next day's, in minutes of this plan day."""
    following = DAYS[(DAYS.index(day) + 1) % len(DAYS)]
    today = [
        Ahead(number, entry.begins, entry.ends, entry.kind, entry.effort)
        for number, entry in enumerate(facts.sessions_on(day), start=1)
    ]
    later = [
        Ahead(None, entry.begins + DAY_MINUTES, entry.ends + DAY_MINUTES, entry.kind, entry.effort)
        for entry in facts.sessions_on(following)
    ]
    return today + later


def hours(facts: Facts, day: str) -> tuple[int, int]:
    """Waking of this plan day and the waking that ends it, in its minutes."""
    following = DAYS[(DAYS.index(day) + 1) % len(DAYS)]
    return facts.wake(day), facts.wake(following) + DAY_MINUTES


def read_facts(case: dict[str, Any]) -> Facts | str:
    """The facts, or a sentence on why the case cannot be read."""
    try:
        return Facts.model_validate(case)
    except ValidationError as error:
        first = error.errors()[0]
        key = ".".join(str(part) for part in first["loc"])
        return f"the case in the plan cannot be read: {key}: {first['msg'][:1].lower()}{first['msg'][1:]}"
