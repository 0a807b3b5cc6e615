"""Days that are better with a pot of the day before: that day is asked to cook it, and the two are fitted together.

A day's proof may meet an answer that takes more minutes than the day has, unless its midday meal comes from a pot. It
is worth nothing until the day before serves that very dish of an evening.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from mealopt.plans.week.job import DayAnswer
from mealopt.plans.week.state import WeekState
from mealopt.rules.weekly.ahead import Pot
from mealopt.rules.weekly.shares import Shares

#: Points by which a day that wants a pot must be better than the one that stands, for the pot to be asked for.
WORTH = 0.3


@dataclass(frozen=True, slots=True)
class Fit:
    """A day to be fitted: what the others count, the pots that it may or must share, the meals from pots that lack."""

    day: str
    others: tuple[Shares, ...]
    pots: tuple[Pot, ...]
    need: float


@dataclass(slots=True)
class Potting:
    """wanting: answers over their minutes; cooking: answers with a pot that was asked for; asked: day and its pot."""

    week: WeekState
    wanting: list[DayAnswer] = field(default_factory=list)
    cooking: list[DayAnswer] = field(default_factory=list)
    asked: set[tuple[str, Pot]] = field(default_factory=set)

    def hear(self, answer: DayAnswer) -> None:
        """Note an answer that wants a pot or cooks one."""
        if answer.entry is not None and self.week.over(answer):
            self.wanting.append(answer)
        if answer.entry is not None and any(pot.must for pot in answer.ask.pots):
            self.cooking.append(answer)

    def next(self) -> Fit | None:
        """The next day to be fitted for a pot's sake."""
        while self.wanting or self.cooking:
            fit = self._cook(self.wanting.pop(0)) if self.wanting else self._eat(self.cooking.pop(0))
            if fit is not None:
                return fit
        return None

    def _cook(self, answer: DayAnswer) -> Fit | None:
        """The day before, given an answer that is in time only where that day cooks a pot for it."""
        week, day = self.week, answer.ask.day
        pot = week.pot_for(answer)
        if pot is None or (day, pot) in self.asked or answer.value > week.stands[day].value - WORTH:
            return None
        self.asked.add((day, pot))
        before = week.days[week.days.index(day) - 1]
        stands = {**week.stands, day: answer}
        return Fit(before, tuple(one.shares for name, one in stands.items() if name != before), (pot,), 0.0)

    def _eat(self, answer: DayAnswer) -> Fit | None:
        """The day after one that cooks a pot for it, fitted to that and the others, where it is not so already."""
        week = self.week
        if week.stands[answer.ask.day] is answer:
            return None
        day = week.days[week.days.index(answer.ask.day) + 1]
        stands = {**week.stands, answer.ask.day: answer}
        return Fit(day, tuple(one.shares for name, one in stands.items() if name != day), *week.pots(day, stands))
