"""The search for a week: each day alone for a bound, then days mended given the others, then a bound by prices.

A week's penalty is its days' and what its rules charge. No charge is below nought, so the days' own bounds added are a
bound of the week. Where rules stay charged, that bound is too low, and a second one is sought: with a price on each
unit that a row lacks (no higher than its charge), the days come apart again; their least costs, and price x least,
added are a bound too.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field

from mealopt.errors import OutOfTime
from mealopt.plans.week.crew import Crew
from mealopt.plans.week.job import Ask, DayAnswer, Stop
from mealopt.plans.week.state import WeekState

#: Times that a day is mended at most; share of the gap that the first look at each day may use up.
MENDED, FIRST_GAP = 3, 0.5

#: Gap to which a day is mended, and seconds for it.
MEND_GAP, MEND_SECONDS = 0.008, 6.0

#: Share of the time for the days alone, and seconds to wait for an answer before stopping is asked for again.
ALONE, WAIT = 0.6, 0.1

#: Seconds for finding out whether a missed rule could be met at all.
REACH_SECONDS = 6.0

#: Charges below this are not worth prices, points.
CHARGE_WORTH = 0.5

Progress = Callable[[str], None]


@dataclass(slots=True)
class Search:
    """One run. mended: day -> times; stale: days not mended since the week last changed."""

    crew: Crew
    week: WeekState
    gap: float
    seconds: float
    solver: str = "highs"
    progress: Progress | None = None
    stop: Stop | None = None
    start: float = field(default_factory=time.perf_counter)
    mended: dict[str, int] = field(default_factory=dict)
    stale: set[str] = field(default_factory=set)
    prices: Mapping[str, float] = field(default_factory=dict)
    priced: dict[str, float] = field(default_factory=dict)
    tightened: dict[str, float] = field(default_factory=dict)

    def left(self) -> float:
        """Seconds that are left."""
        return self.seconds - (time.perf_counter() - self.start)

    def stopped(self) -> bool:
        """Whether somebody asked to stop."""
        return self.stop is not None and self.stop()

    def proven(self) -> bool:
        """Whether the week is within the gap that was asked for."""
        return self.week.whole and self.week.gap <= self.gap + 1e-9

    def tell(self) -> None:
        """Say how far it is."""
        if self.progress is None:
            return
        week = self.week
        if not week.whole:
            self.progress(f"days planned: {len(week.stands)} of {len(week.days)}")
            return
        self.progress(f"penalty {week.value:.1f}, at best {week.bound:.1f}, gap {100 * week.gap:.1f} %")

    def run(self) -> None:
        """Search until the gap is proven and the rules are seen to, or the time is over, or it is stopped.

        Raises what a day raises that cannot be planned; OutOfTime where the time ended before each day had a plan;
        KeyboardInterrupt where it was stopped before.
        """
        for day in self.week.days:
            first = min(0.02, FIRST_GAP * self.gap)
            self.crew.ask(Ask("alone", day, first, max(1.0, ALONE * self.seconds), solver=self.solver))
        self._listen(lambda: self.week.whole)
        self.stale = set(self.week.days)
        asks = self._asks()
        while not self.stopped() and self.left() > 0:
            while self.crew.open < self.crew.size and (ask := next(asks, None)) is not None:
                self.crew.ask(ask)
            if not self.crew.open:
                return
            self._take(self.crew.next(WAIT))

    def reach(self) -> dict[str, float]:
        """Row's name -> the most (for a least) that the days allow at all, of the rows that are missed."""
        rows = tuple(row.name for row in self.week.lacks if row.least is not None and row.charge > 0)
        found: dict[str, float] = {}
        if not rows or self.stopped():
            return found
        self.crew.forget()
        end = time.perf_counter() + REACH_SECONDS
        answers: dict[str, DayAnswer] = {}
        for day in self.week.days:
            self.crew.ask(Ask("reach", day, rows=rows))
        while len(answers) < len(self.week.days) and time.perf_counter() < end and not self.stopped():
            answer = self.crew.next(WAIT)
            if answer is not None and answer.ask.what == "reach":
                answers[answer.ask.day] = answer
        if len(answers) == len(self.week.days):
            found = {name: sum(answer.reach.get(name, 0.0) for answer in answers.values()) for name in rows}
        return found

    def _listen(self, until: Callable[[], bool]) -> None:
        while not until():
            if self.stopped():
                raise KeyboardInterrupt
            if self.left() <= 0:
                missing = [day for day in self.week.days if day not in self.week.stands]
                raise OutOfTime(f"no plan of {', '.join(missing)} was found in {self.seconds:g} s; give it more with "
                                "--seconds")  # fmt: skip
            self._take(self.crew.next(WAIT))

    def _take(self, answer: DayAnswer | None) -> None:
        if answer is None:
            return
        better = self.week.keep(answer)
        day = answer.ask.day
        if better and self.week.whole:
            self.stale = set(self.week.days) - ({day} if answer.ask.what == "within" else set())
        if answer.ask.what == "priced":
            self.priced[day] = answer.bound
            if len(self.priced) == len(self.week.days):
                self.week.bound_by_prices(self.prices, [self.priced[name] for name in self.week.days])
        self.tell()

    def _asks(self) -> Iterator[Ask]:
        """The next question, while there is one that could help."""
        while True:
            busy = {ask.day for ask in self.crew.asked}
            ask = self._mend(busy)
            if ask is None and not self.proven():
                ask = self._tighten(busy) or self._price(busy)
            if ask is None:
                return
            yield ask

    def _mend(self, busy: set[str]) -> Ask | None:
        """A day to be fitted to the others, while rules that can be paid for are missed."""
        if self.week.charge <= WORTHLESS:
            return None
        open_days = [day for day in self.week.days if day in self.stale - busy and self.mended.get(day, 0) < MENDED]
        if not open_days:
            return None
        day = min(open_days, key=lambda name: (self.mended.get(name, 0), self.week.stands[name].value))
        self.mended[day] = self.mended.get(day, 0) + 1
        self.stale.discard(day)
        return Ask("within", day, MEND_GAP, min(MEND_SECONDS, max(1.0, self.left())), self.week.others(day))

    def _tighten(self, busy: set[str]) -> Ask | None:
        """The day whose own bound lies furthest below its own best, to a narrower gap."""
        week = self.week
        apart = {
            day: min(answer.value for answer in week.pool[day]) - week.alone[day]
            for day in week.days
            if day not in busy and day not in self.tightened
        }
        day = max(apart, key=lambda name: apart[name], default=None)
        if day is None or apart[day] < 0.004 * week.floor / len(week.days):
            return None
        self.tightened[day] = apart[day]
        narrow = min(0.003, self.gap / 4)
        return Ask("alone", day, narrow, max(1.0, self.left()), solver=self.solver)

    def _price(self, busy: set[str]) -> Ask | None:
        """A day with prices, once they are set: a row that stays missed is worth its whole charge."""
        if not self.prices and self.week.charge >= CHARGE_WORTH:
            self.prices = {row.name: row.charge for row in self.week.lacks if row.least is not None and row.charge > 0}
        open_days = [day for day in self.week.days if day not in self.priced and day not in busy]
        if not self.prices or not open_days:
            return None
        self.priced[open_days[0]] = float("-inf")
        return Ask("priced", open_days[0], self.gap / 3, max(1.0, self.left()), prices=self.prices)


#: Points that a week may be charged without another look at its days.
WORTHLESS = 0.05
