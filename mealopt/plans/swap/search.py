"""The search for the swap that changes least: by number of changed foods, each level solved or refuted.

Seconds are of work (`milp.effort`), so that a busy machine finds what an idle one does.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from mealopt.menu.plates import Plate
from mealopt.milp.answer import Answer, Status
from mealopt.milp.effort import SLOWEST, after, spent
from mealopt.milp.highs import Highs
from mealopt.milp.stages import solve_in_stages
from mealopt.plans.held.standing import ALL, StandingDay
from mealopt.plans.swap.aims import Aim
from mealopt.plans.swap.level import Level, level
from mealopt.plans.swap.near import Nearby, nearest

#: Levels looked at: a day in which more foods change is as good as a new one.
LEVELS = 24

#: Where all other meals keep their foods: grams that one changed food of the asked meal costs, and the distance to the
#: bound that the answer may keep.
A_CHANGE, NEAR_G = 3000.0, 5.0

#: Dishes that are looked at where a whole dish is swapped and time is short, by their place on the card; grams that are
#: none.
SHORT, NOUGHT_G = 16, 0.05

#: Up to so many columns a level is branched on at once: where it holds nothing, that is seen five times as soon.
SMALL = 500

#: No answer is worth more than this, in grams: what the distance to the bound is a share of.
FLOOR_G = 100_000.0

#: Distance to the bound that a level's answer may keep, in grams: less than the least step, half a point of penalty.
CLOSE_G = 0.0025


@dataclass(frozen=True, slots=True)
class Least:
    """The answer that changes least. proven: that no other has fewer foods changed, nor as many and fewer grams."""

    level: Level
    answer: Answer
    changes: int
    grams: float
    fewest_proven: bool
    grams_proven: bool

    @property
    def proven(self) -> bool:
        """Whether both are proven."""
        return self.fewest_proven and self.grams_proven


@dataclass(slots=True)
class Levels:
    """The levels of one wish. end: of the work that is spent on them. sure: no level was cut short."""

    day: StandingDay
    aims: tuple[Aim, ...]
    end: float
    nearby: list[Nearby] = field(default_factory=list)
    fewest: list[int] = field(default_factory=list)
    sure: bool = True

    @property
    def left(self) -> float:
        """Seconds of work that are left."""
        return self.end - spent()

    def ready(self) -> bool:
        """Look up how near each meal can stay; False where one of them can be nothing at all."""
        self.nearby = [Nearby.of(self.day, aim) for aim in self.aims]
        fewest = [meal.fewest() for meal in self.nearby]
        self.fewest = [least for least in fewest if least is not None]
        return len(self.fewest) == len(fewest)

    def impossible(self) -> list[int]:
        """Indices of meals that can be nothing at all."""
        return [meal.aim.standing.index for meal in self.nearby if meal.fewest() is None]

    def least(self) -> Least | None:
        """The answer of the lowest level that has one; None where time ended first, or nothing was found."""
        start = sum(self.fewest)
        for changes in range(start, start + LEVELS):
            if self.left <= 0.02:
                return None
            found = self.at(changes, self.left)
            if found is not None or not self.sure:
                return found
        return None

    def at(self, changes: int, seconds: float) -> Least | None:
        """The answer of one level; None where it has none, or where time ended first (sure is then False)."""
        built = level(self.day, self.aims, nearest(self.nearby, changes, self.fewest), changes)
        answer = solved(built, CLOSE_G, seconds)
        if not answer.values:
            self.sure = self.sure and answer.status is Status.INFEASIBLE
            return None
        return found_at(built, answer, self.sure)

    def staying(self, more: int, seconds: float) -> Least | None:
        """An answer in which every meal that was not asked about keeps its foods.

        more: foods of the asked meals that may change beyond their fewest. Proven to be the least only where nothing
        else changes or moves at all.
        """
        start = sum(self.fewest)
        built = level(self.day, self.aims, near_options(self, more), start + more, each=A_CHANGE)
        answer = solved(built, NEAR_G, max(seconds, 0.05))
        if not answer.values:
            return None
        fewest = built.changes(answer.values) == start
        found = found_at(built, answer, fewest)
        return replace(found, grams_proven=fewest and found.grams < NOUGHT_G)


def near_options(levels: Levels, more: int) -> tuple[tuple[Plate, ...], ...]:
    """The plates that an asked meal can become with its fewest changes and so many more; other meals' own foods."""
    return tuple(
        tuple(meal.first(own + more, SHORT if meal.aim.whole else ALL))
        if meal.aim.asked
        else (meal.aim.standing.held(to_the_gram=meal.aim.held),)
        for meal, own in zip(levels.nearby, levels.fewest, strict=True)
    )


def solved(built: Level, close: float, seconds: float) -> Answer:
    """A level solved to within so many grams. Where plates are to be chosen, that is done before their amounts.

    seconds: of work.
    """
    model, groups = built.problem.model, [[one.served for one in options] for options in built.problem.servings]
    clock, ended = SLOWEST * seconds, after(seconds)
    if all(len(group) == 1 for group in groups):
        return Highs(model).solve(1e-9, clock, gap_absolute=close, effort=seconds)
    if model.columns <= SMALL:
        engine = Highs(model)
        engine.lean(True)
        return engine.solve(close / FLOOR_G, clock, gap_absolute=close, effort=seconds)
    return solve_in_stages(model, groups, close / FLOOR_G, FLOOR_G, clock, stop=ended)


def found_at(built: Level, answer: Answer, sure: bool) -> Least:
    """An answer with what it changes. sure: that no level below has one."""
    values = answer.values
    grams = built.grams_moved(values)
    close = answer.status in (Status.OPTIMAL, Status.GAP) or grams < NOUGHT_G
    return Least(built, answer, built.changes(values), grams, sure, close)
