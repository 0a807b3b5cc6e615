"""What a pot costs the day that cooks it: a day's bound may then count on a pot at that price only, not for nothing.

A day whose midday meal comes from the evening before saves minutes. Were they free, its bound would lie far below what
any week can have, for the evening has to be that very dish. Let `base` be a number for the day before. A pot of a dish
is charged max(0, least cost of the day before with that dish - base), and that day's own bound counts up to `base`
only. The days' bounds added then still bound the week: who cooks the pot costs base and the charge at least.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from mealopt.milp.answer import Status
from mealopt.milp.highs import Highs
from mealopt.plans.day.pose import PosedDay
from mealopt.plans.day.solve import beyond, first_places
from mealopt.plans.week.ahead import Ahead
from mealopt.plans.week.alone import dealt
from mealopt.rules.problem import Problem
from mealopt.rules.weekly.ahead import pose_priced_pots, potable

#: Seconds for one dish, and points to which its cost is found.
SECONDS, CLOSE = 1.0, 0.3

#: The card of the day before is so many times a first one: what is beyond it must cost more than most pots.
LONGER = 2


def one_pot(ahead: Ahead, day: PosedDay, before: PosedDay) -> bool:
    """Whether a pot can only be the one of the evening before for the one midday meal, so that it has one price."""
    eaten = [slot for slot in day.slots if slot.kind in ahead.eaten]
    cooked = [slot for slot in before.slots if slot.kind in ahead.cooked]
    return ahead.span == 1 and len(eaten) <= 1 and len(cooked) <= 1


def cookable(before: PosedDay, kinds: frozenset[str]) -> frozenset[str]:
    """The dishes that the day before could serve at all in slots of these kinds."""
    return frozenset(
        plate.dish.id
        for slot, plates in zip(before.slots, before.card().all, strict=True)
        if slot.kind in kinds
        for plate in plates
    )


class Freed:
    """A day whose pots cost nothing that is known. eased: frees their minutes."""

    def __init__(self, eased: Callable[[Problem], None]) -> None:
        self.pose = eased

    def closer(self, values: Sequence[float]) -> bool:
        """There is nothing to look at more closely."""
        return False


class Pots:
    """What the pots of the day before may save a day, and at what charge: by linear programs, more closely on demand.

    before: the day before. ahead: what may be cooked ahead. eased: what the day before may hope for itself.
    """

    def __init__(self, before: PosedDay, ahead: Ahead, eased: Callable[[Problem], None], base: float) -> None:
        places = LONGER * first_places(len(before.slots))
        card, self._before = dealt(before, places)
        eased(self._before)
        self._rest = float("inf") if card.ended else beyond(self._before, places)
        self._ahead, self._base = ahead, base
        self._dishes = cookable(before, ahead.cooked) & set(ahead.keeps)
        self._engine = Highs(self._before.model)
        self._costs: dict[str, float] = {}
        self._close: set[str] = set()
        self._columns: dict[int, str] = {}

    def pose(self, problem: Problem) -> None:
        """Let the day's plates come from a pot, each at its charge."""
        servings = list(potable(problem, self._dishes, self._ahead.eaten))
        for dish in sorted({serving.plate.dish.id for serving in servings} - set(self._costs)):
            self._costs[dish] = self._least(dish, self._relaxed)
        charges = {dish: max(0.0, cost - self._base) for dish, cost in self._costs.items()}
        self._columns = pose_priced_pots(problem, servings, charges)

    def closer(self, values: Sequence[float]) -> bool:
        """Look closer at the pot that an answer to the posed day takes; whether it costs more than was counted."""
        for column, dish in self._columns.items():
            if values[column] > 0.5 and dish not in self._close:
                self._close.add(dish)
                before = self._costs[dish]
                self._costs[dish] = max(before, self._least(dish, self._named))
                return self._costs[dish] - max(before, self._base) > CLOSE
        return False

    def _least(self, dish: str, bound: Callable[[], float]) -> float:
        """No day before that cooks this dish costs less; infinity where it cannot."""
        least = self._rest
        for options in self._before.servings:
            here = [one.served for one in options if one.plate.dish.id == dish and one.slot.kind in self._ahead.cooked]
            if here:
                others = [one.served for one in options if one.served not in here]
                self._engine.set_most(others, 0.0)
                least = min(least, bound())
                self._engine.set_most(others)
        return max(0.0, least)

    def _relaxed(self) -> float:
        relaxed = self._engine.relax()
        return relaxed.objective if relaxed.status.solved else float("inf")

    def _named(self) -> float:
        """With whole plates, all else continuous."""
        problem = self._before
        first = {*(serving.served for serving in problem.all_servings), *problem.decisive()}
        split = [column for column, whole in enumerate(problem.model.whole) if whole and column not in first]
        self._engine.set_whole(split, False)
        self._engine.lean(True)
        named = self._engine.solve(1e-9, SECONDS, gap_absolute=CLOSE)
        if named.status is Status.INFEASIBLE:
            return float("inf")
        return named.bound if named.status.solved else 0.0
