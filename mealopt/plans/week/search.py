"""The search for a week: each day alone for a bound, then days mended given the others, then a bound by prices.

A week's penalty is its days' and what its rules charge. No charge is below nought, so the days' own bounds added are a
bound of the week. Where rules stay charged, that bound is too low, and a second one is sought: with a price on each
unit that a row lacks (no higher than its charge), the days come apart again; their least costs, and price x least,
added are a bound too.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from mealopt.errors import OutOfTime
from mealopt.plans.week.crew import Crew
from mealopt.plans.week.job import Ask, DayAnswer, Stop
from mealopt.plans.week.potting import Potting
from mealopt.plans.week.slack import CLOSEST, as_gap, best, cost_of_rules, missing, narrower, slack, to_win
from mealopt.plans.week.state import WeekState
from mealopt.rules.weekly.ahead import Pot
from mealopt.rules.weekly.shares import Shares

INF = float("inf")

#: Times that a day is mended at most.
MENDED = 3

#: Gap to which a day is mended, and seconds for it.
MEND_GAP, MEND_SECONDS = 0.02, 4.0

#: Times that a day's bound is looked at again, each for twice as long.
TIGHTENED = 3

#: Points above its bound from which on a day is looked at more closely, and the gap then.
WORTH_POLISH, POLISH_GAP = 0.3, 0.003

#: Seconds for the proof of one day, share of the time for first answers, and seconds to wait for an answer before
#: stopping is asked for again.
PROOF_SECONDS, FIRST, WAIT = 12.0, 0.6, 0.1

#: Seconds beyond the time in which the reason may come why a day has no plan.
EXPLAINING = 60.0

#: Seconds for finding out whether a missed rule could be met at all.
REACH_SECONDS = 6.0

#: Charges below this are not worth prices, points.
CHARGE_WORTH = 0.5

Progress = Callable[[str], None]


@dataclass(slots=True)
class Search:
    """One run. clock: what the seconds are counted by; start: on it, where the run began before.

    mended: day -> times; stale: days not mended since the week last changed.
    """

    crew: Crew
    week: WeekState
    gap: float
    seconds: float
    solver: str = "highs"
    progress: Progress | None = None
    stop: Stop | None = None
    clock: Callable[[], float] = time.perf_counter
    start: float = -1.0
    mended: dict[str, int] = field(default_factory=dict)
    stale: set[str] = field(default_factory=set)
    prices: Mapping[str, float] | None = None
    asked_prices: bool = False
    priced: dict[str, float] = field(default_factory=dict)
    tightened: dict[str, int] = field(default_factory=dict)
    polished: dict[str, DayAnswer] = field(default_factory=dict)
    asked_alone: set[str] = field(default_factory=set)
    potting: Potting = field(init=False)

    def __post_init__(self) -> None:
        """Pots are asked for within this week."""
        self.potting = Potting(self.week)

    def left(self) -> float:
        """Seconds that are left."""
        return self.seconds - (self.clock() - self.start)

    def stopped(self) -> bool:
        """Whether somebody asked to stop."""
        return self.stop is not None and self.stop()

    def proven(self) -> bool:
        """Whether the week is within the gap that was asked for."""
        return self.week.whole and self.week.gap <= self.gap + 1e-9

    @property
    def settled(self) -> bool:
        """Whether each day was fitted to the others."""
        return all(day in self.mended for day in self.week.days)

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
        self.start = self.clock() if self.start < 0 else self.start
        for day in self.week.days:
            self.crew.ask(Ask("first", day, seconds=max(1.0, FIRST * self.seconds), solver=self.solver))
        self._listen(lambda: self.week.whole)
        self.stale = set(self.week.days)
        while not self.stopped() and self.left() > 0:
            while self.crew.open < self.crew.size and (ask := self._next()) is not None:
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
            # Days that have no plan by then may have none at all: the reason why is worth the wait.
            if self.left() <= -EXPLAINING:
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
        self.potting.hear(answer)
        if answer.ask.what == "prices":
            # A row that stays missed is worth its whole charge.
            lacking = {row.name: row.charge for row in self.week.lacks if row.least is not None and row.charge > 0}
            self.prices = {**answer.reach, **lacking}
        if answer.ask.what == "priced" and self.prices:
            self.priced[day] = answer.bound
            if len(self.priced) == len(self.week.days):
                self.week.bound_by_prices(self.prices, [self.priced[name] for name in self.week.days])
        self.tell()

    def _next(self) -> Ask | None:
        """The next question, where there is one that could help: days are proven and mended side by side."""
        busy = {ask.day for ask in self.crew.asked}
        fit = self.potting.next()
        if fit is not None:
            return self._fitted(fit.day, MEND_GAP, fit.others, fit.pots, fit.need)
        mending = any(ask.what == "within" for ask in self.crew.asked)
        mended_once = self.settled
        prove_first = mending or (mended_once and len(self.asked_alone) < len(self.week.days))
        ask = self._prove(busy) or self._mend(busy) if prove_first else self._mend(busy) or self._prove(busy)
        if ask is not None:
            return ask
        if self.proven():
            return None
        proofs = sum(to_win(self.week, day) for day in self.week.days)
        if proofs > cost_of_rules(self.week):
            return self._tighten(busy) or self._polish(busy) or self._price(busy)
        return self._polish(busy) or self._tighten(busy) or self._price(busy)

    def _mend(self, busy: set[str]) -> Ask | None:
        """A day to be fitted to the others, while rules that can be paid for are missed."""
        if self.week.charge <= WORTHLESS or (self.proven() and not self.stale):
            return None
        open_days = [day for day in self.week.days if day in self.stale - busy and self.mended.get(day, 0) < MENDED]
        if not open_days:
            return None
        day = min(open_days, key=lambda name: (self.mended.get(name, 0), -self.week.stands[name].value))
        self.mended[day] = self.mended.get(day, 0) + 1
        self.stale.discard(day)
        return self._fitted(day, MEND_GAP, self.week.others(day), *self.week.pots(day))

    def _fitted(
        self, day: str, gap: float, others: tuple[Shares, ...], pots: tuple[Pot, ...], need: float, beat: float = INF
    ) -> Ask:
        most = MEND_SECONDS if beat == INF else PROOF_SECONDS
        seconds = min(most, max(1.0, self.left()))
        places = self.week.places.get(day, 0)
        return Ask("within", day, gap, seconds, others, beat=beat, pots=pots, need=need, places=places)

    def _prove(self, busy: set[str]) -> Ask | None:
        """A day whose own bound is not known yet."""
        open_days = [day for day in self.week.days if day not in self.asked_alone and day not in busy]
        if not open_days:
            return None
        # A day's pots are priced by the bound of the day before: one for which that is known goes first.
        day = max(open_days, key=lambda name: (self._after_known(name), best(self.week, name)))
        self.asked_alone.add(day)
        most = max(PROOF_SECONDS, self.left() * self.crew.size / (2 * len(open_days)))
        return self._alone(day, slack(self.week, day, self.gap), most)

    def _after_known(self, day: str) -> bool:
        place = self.week.days.index(day)
        return not place or self.week.days[place - 1] in self.week.alone

    def _alone(self, day: str, points: float, most: float) -> Ask:
        """The proof of a day by itself that may leave so many points open."""
        week, seconds = self.week, max(1.0, min(most, self.left()))
        before = week.days[max(0, week.days.index(day) - 1)]
        likely = best(week, before) - slack(week, before, self.gap)
        gap, base = as_gap(points, best(week, day)), week.base_for(day, max(0.0, likely))
        return Ask("alone", day, gap, seconds, beat=best(week, day), base=base, solver=self.solver)

    def _polish(self, busy: set[str]) -> Ask | None:
        """The day that stands furthest above its own bound, looked at more closely, once for each week that stands."""
        week = self.week
        apart = {
            day: week.stands[day].value - week.alone.get(day, 0.0)
            for day in week.days
            if day not in busy and self.polished.get(day) is not week.stands[day]
        }
        day = max(apart, key=lambda name: apart[name], default=None)
        if day is None or apart[day] < WORTH_POLISH:
            return None
        self.polished[day] = week.stands[day]
        here = week.stands[day].value + week.charge
        gap = max(POLISH_GAP, as_gap(missing(week, self.gap) / 2, here))
        return self._fitted(day, gap, week.others(day), *week.pots(day), here)

    def _tighten(self, busy: set[str]) -> Ask | None:
        """The day whose own bound lies furthest below its own best, to a narrower gap."""
        week = self.week
        apart = {
            day: to_win(week, day) for day in week.days if day not in busy and self.tightened.get(day, 0) < TIGHTENED
        }
        day = max(apart, key=lambda name: apart[name], default=None)
        if day is None or apart[day] <= CLOSEST:
            return None
        times = self.tightened[day] = self.tightened.get(day, 0) + 1
        return self._alone(day, narrower(week, day, self.gap), PROOF_SECONDS * 2**times)

    def _price(self, busy: set[str]) -> Ask | None:
        """A day with prices, once they are known; each day once."""
        if cost_of_rules(self.week) < CHARGE_WORTH or len(self.asked_alone) < len(self.week.days):
            return None
        if self.prices is None:
            if self.asked_prices:
                return None
            self.asked_prices = True
            return Ask("prices", self.week.days[0])
        open_days = [day for day in self.week.days if day not in self.priced and day not in busy]
        if not self.prices or not open_days:
            return None
        day = open_days[0]
        self.priced[day] = float("-inf")
        share = self.left() * self.crew.size / (2 * len(open_days))
        seconds = max(1.0, min(self.left(), max(PROOF_SECONDS, share)))
        return Ask("priced", day, self.gap / 3, seconds, prices=self.prices)


#: Points that a week may be charged without another look at its days.
WORTHLESS = 0.05
