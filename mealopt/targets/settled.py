"""Meals that the case settles already: what they leave for the others, and their slots."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from mealopt.core.clock import clock
from mealopt.core.slots import Slot
from mealopt.targets.mealtimes import Occasion
from mealopt.targets.windows import Window


@dataclass(frozen=True, slots=True)
class SettledMeal:
    """A meal of the day that is settled. minute, minutes: when it begins and how long it takes, nothing else then.

    index: its place, from 0, among the day's settled meals. given: "foods" or "energy" where there is nothing to
    choose, "" where it is a dish whose amounts are chosen. kcal: the least and the most that it may hold; one number
    twice where it is given.
    """

    minute: int
    minutes: int
    index: int
    given: str
    kcal: tuple[float, float]

    @property
    def occasion(self) -> Occasion:
        """The meal as an occasion; a snack until it takes the place of a main meal."""
        return Occasion("snack", self.minute, self.minute + self.minutes, settled=self.index)


def spans(settled: Sequence[SettledMeal]) -> tuple[tuple[int, int], ...]:
    """Starts and ends of settled meals."""
    return tuple((meal.minute, meal.minute + meal.minutes) for meal in settled)


def given_kcal(settled: Sequence[SettledMeal]) -> dict[int, float]:
    """Index of a settled meal -> its energy, for those whose energy is given."""
    return {meal.index: meal.kcal[1] for meal in settled if meal.given}


def settled_slot(settled: SettledMeal, meal: Occasion, index: int, aim: float, window: Window) -> Slot:
    """The slot of a settled meal: no limit of a window, a meal or a kitchen holds for it."""
    session = window.session
    return Slot(
        index=index,
        kind=meal.kind,
        start=meal.start,
        end=meal.end,
        label=f"{meal.kind} at {clock(meal.start)}",
        main=meal.main,
        energy_aim=min(aim, settled.kcal[1]),
        energy_most=1.01 * settled.kcal[1] + 1.0,
        before_session=session.number if session is not None and not session.next_day else None,
        lead_minutes=window.lead_minutes,
        settled=settled.index,
        given=settled.given,
    )
