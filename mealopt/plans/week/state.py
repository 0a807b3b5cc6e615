"""A week while it is sought: for each day the answers that were found, the one that stands, and its bound."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from mealopt.plans.week.ahead import Ahead, pairs, pot_wanted, pots_for
from mealopt.plans.week.job import DayAnswer
from mealopt.rules import weights
from mealopt.rules.weekly.ahead import WARMING, Pot
from mealopt.rules.weekly.registry import WeekRow
from mealopt.rules.weekly.shares import Shares, charged, lacking

#: What a value must fall by to be another answer, points.
WORTH = 1e-6


@dataclass(slots=True)
class WeekState:
    """rows: of the week. ahead: what may be cooked ahead; minutes: day -> the most in the kitchen.

    pool: day -> answers found for it. stands: day -> the one that stands. alone: day -> bound of the day by itself.
    bases: day -> what of its bound may count, where the next day's bound counts on its pots (`potted.py`).
    ceiling: day -> what its bound cannot pass. places: day -> plates a slot among which its first answer was found.
    priced: bound of the whole week by prices, minus infinity where there is none.
    """

    days: tuple[str, ...]
    rows: tuple[WeekRow, ...]
    ahead: Ahead = field(default_factory=Ahead)
    minutes: Mapping[str, float] = field(default_factory=dict)
    pool: dict[str, list[DayAnswer]] = field(default_factory=dict)
    stands: dict[str, DayAnswer] = field(default_factory=dict)
    alone: dict[str, float] = field(default_factory=dict)
    priced: float = float("-inf")
    places: dict[str, int] = field(default_factory=dict)
    bases: dict[str, float] = field(default_factory=dict)
    ceiling: dict[str, float] = field(default_factory=dict)

    @property
    def whole(self) -> bool:
        """Whether every day has an answer."""
        return len(self.stands) == len(self.days)

    @property
    def shares(self) -> list[Shares]:
        """What the standing days count toward the rows."""
        return [answer.shares for answer in self.stands.values()]

    @property
    def charge(self) -> float:
        """Points for what the week's rules lack."""
        return self._charge(self.stands)

    def _charge(self, answers: Mapping[str, DayAnswer]) -> float:
        pots = max(0.0, self.ahead.least - self._from_pots(answers)) if self.ahead.least else 0.0
        return charged(self.rows, [answer.shares for answer in answers.values()]) + weights.WEEK_AHEAD * pots

    def _from_pots(self, answers: Mapping[str, DayAnswer]) -> int:
        return len(pairs([answers[day].entry if day in answers else None for day in self.days], self.ahead))

    def _in_time(self, answers: Mapping[str, DayAnswer]) -> bool:
        """Whether each day keeps its kitchen minutes, a dish from an earlier day's pot counted there."""
        entries = [answers[day].entry if day in answers else None for day in self.days]
        warmed = {pair.eaten for pair in pairs(entries, self.ahead)} if self.ahead.span else set()
        for place, entry in enumerate(entries):
            if entry is not None:
                spent = sum(
                    min(meal.minutes, WARMING) if (place, meal.number) in warmed else meal.minutes
                    for meal in entry.meals
                )
                if spent > self.minutes.get(entry.day, float("inf")) + 1e-6:
                    return False
        return True

    def over(self, answer: DayAnswer) -> bool:
        """Whether a day takes more minutes than it has, each of its dishes cooked on the day."""
        return not self._in_time({answer.ask.day: answer})

    def pot_for(self, answer: DayAnswer) -> Pot | None:
        """The one pot that the day before would have to cook for a day that is over its minutes."""
        place = self.days.index(answer.ask.day)
        if not place or answer.entry is None:
            return None
        return pot_wanted(answer.entry, self.minutes.get(answer.ask.day, float("inf")), self.ahead)

    @property
    def from_pots(self) -> int:
        """Meals that come from an earlier day's pot."""
        return self._from_pots(self.stands)

    def pots(self, day: str, week: Mapping[str, DayAnswer] | None = None) -> tuple[tuple[Pot, ...], float]:
        """The pots of other days that this one could share, and the meals from a pot that the others lack.

        week: the answers of all days, where not those that stand.
        """
        others = {name: answer for name, answer in (week or self.stands).items() if name != day}
        entries = [others[name].entry if name in others else None for name in self.days]
        return pots_for(self.days.index(day), entries, self.ahead), float(self.ahead.least - self._from_pots(others))

    @property
    def value(self) -> float:
        """The week's penalty: its days' and what its rules charge."""
        return sum(answer.value for answer in self.stands.values()) + self.charge

    @property
    def bound(self) -> float:
        """No week costs less: its days by themselves, as charges are never below nought, or the bound by prices."""
        return max(sum(self.bound_of(day) for day in self.days), self.priced)

    def bound_of(self, day: str) -> float:
        """What a day brings to the week's bound."""
        return min(self.alone.get(day, 0.0), self.bases.get(day, float("inf")))

    def base_for(self, day: str, likely: float) -> float:
        """The base of the day before, settled now where it was not: its bound, or what that is likely to be."""
        place = self.days.index(day)
        if not place or not self.ahead.span:
            return 0.0
        before = self.days[place - 1]
        return self.bases.setdefault(before, self.alone.get(before, likely))

    @property
    def floor(self) -> float:
        """The floor of the gap: the days' floors added."""
        return weights.FLOOR * len(self.days)

    @property
    def gap(self) -> float:
        """(value - bound) / max(value, floor)."""
        return max(0.0, self.value - self.bound) / max(self.value, self.floor)

    @property
    def lacks(self) -> list[WeekRow]:
        """The rows that are missed."""
        return [row for row in self.rows if lacking(row, self.shares) > 0]

    def others(self, day: str) -> tuple[Shares, ...]:
        """What the other days count."""
        return tuple(answer.shares for name, answer in self.stands.items() if name != day)

    def keep(self, answer: DayAnswer) -> bool:
        """Keep an answer, and let the best mix of all that are kept stand; whether the week got better."""
        day = answer.ask.day
        if answer.ask.what == "alone":
            self.alone[day] = max(self.alone.get(day, 0.0), answer.bound)
            self.ceiling[day] = min(self.ceiling.get(day, float("inf")), answer.ceiling)
        if answer.ask.what == "first":
            self.places[day] = answer.places
        if answer.entry is None:
            return False
        self.pool.setdefault(day, []).append(answer)
        if day not in self.stands:
            self.stands[day] = answer
            return True
        before = self.value
        for start, fixed in ((self.stands, ""), ({**self.stands, day: answer}, day)):
            mix = self._exchanged(start, fixed)
            if self._in_time(mix) and self._worth(mix) < self.value - WORTH:
                self.stands = mix
        return self.value < before - WORTH

    def _worth(self, answers: Mapping[str, DayAnswer]) -> float:
        return sum(answer.value for answer in answers.values()) + self._charge(answers)

    def _exchanged(self, start: Mapping[str, DayAnswer], fixed: str) -> dict[str, DayAnswer]:
        """The mix that is reached from this one by exchanging one day's answer after the other, but the fixed day's."""
        mix = dict(start)
        better = True
        while better:
            better = False
            for day in mix:
                if day != fixed and len(self.pool[day]) > 1:
                    here = self._worth(mix)
                    found = min(self.pool[day], key=lambda one, day=day: self._tried(mix, day, one))  # type: ignore[misc]
                    if found is not mix[day] and self._tried(mix, day, found) < here - WORTH:
                        mix[day] = found
                        better = True
        return mix

    def _tried(self, mix: Mapping[str, DayAnswer], day: str, answer: DayAnswer) -> float:
        """The worth of a mix with another answer for a day; infinite where a day then has too little time to cook."""
        other = {**mix, day: answer}
        return self._worth(other) if self._in_time(other) else float("inf")

    def bound_by_prices(self, prices: Mapping[str, float], bounds: Sequence[float]) -> None:
        """Take the bound that days with these prices give, one for each day."""
        offset = sum(
            price * ((row.least if price > 0 else row.most) or 0.0)
            for row in self.rows
            if (price := prices.get(row.name, 0.0))
        )
        self.priced = max(self.priced, sum(bounds) + offset)
