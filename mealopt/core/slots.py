"""A slot: one eating occasion of a plan day, with its time and its limits."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

#: What a slot may be; a dish names the kinds that it suits.
KINDS: tuple[str, ...] = ("breakfast", "lunch", "dinner", "snack", "before", "during", "after")
MAIN: tuple[str, ...] = ("breakfast", "lunch", "dinner")

#: With fewer kitchen minutes than this at hand a dinner may be what else is a lunch: bread, salads, cold plates [common
#: practice, no source]. No warm meal is asked of a day of so few.
HURRIED = 30


@dataclass(frozen=True, slots=True)
class Slot:
    """One eating occasion.

    index: position in the day, from 0, in order of time (the document counts meals from 1).
    kind: one of KINDS. main: a main meal (a breakfast, lunch, dinner, or an odd-hours meal that stands for one).
    start, end: minutes after midnight. limits: nutrient key -> most, from the sessions ahead; empty where none.
    energy_least, energy_most: kcal that the meal may hold. before_session: number of the session (from 1) whose window
    it stands in; lead_minutes: from this meal's end to that session's start. during_session, after_session: the session
    that it is eaten in or follows. stove: whether something can be cooked at this time; heat: whether it can be
    heated. minutes_most: kitchen minutes at hand. settles: foods that settle badly stay out. label: words for it.
    energy_aim: kcal that suits it. carbohydrate_least, carbohydrate_most: grams (in a session, before one), None where
    free; protein_least: grams. work_minutes: from this meal's end to the next long or hard endurance session; None
    where none is ahead. settled: place, from 0, among the day's meals that the case settles; None where it is
    not. given: what the case says of a settled meal: "foods" with their grams, or its "energy" alone; "" where
    something is chosen here.
    """

    index: int
    kind: str
    start: int
    end: int
    label: str
    main: bool = False
    limits: dict[str, float] = field(default_factory=dict)
    energy_least: float = 0.0
    energy_aim: float = 0.0
    energy_most: float = 1200.0
    before_session: int | None = None
    lead_minutes: int | None = None
    during_session: int | None = None
    after_session: int | None = None
    stove: bool = True
    heat: bool = True
    minutes_most: int = 240
    settles: bool = False
    carbohydrate_least: float = 0.0
    carbohydrate_most: float | None = None
    protein_least: float = 0.0
    work_minutes: int | None = None
    settled: int | None = None
    given: str = ""

    @property
    def dish_kinds(self) -> tuple[str, ...]:
        """The kinds of slot whose dishes may be served here."""
        return ("dinner", "lunch") if self.kind == "dinner" and self.minutes_most < HURRIED else (self.kind,)

    def suits(self, kinds: Iterable[str]) -> bool:
        """Whether a dish for these kinds of slot may be served here."""
        return not set(self.dish_kinds).isdisjoint(kinds)


@dataclass(frozen=True, slots=True)
class RefuelWindow:
    """Carbohydrate wanted over several meals, such as between two sessions that are less than 8 h apart.

    slots: indices of the meals that stand in it. least, aim: grams in all. says: words for it. before: number of the
    day's session that it leads up to; None where it follows one, or leads up to the next day's.
    """

    slots: tuple[int, ...]
    least: float
    aim: float
    says: str
    before: int | None = None
