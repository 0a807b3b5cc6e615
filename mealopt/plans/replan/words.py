"""What replanning has to say: what was taken as eaten, what changed, how near the day comes, what tomorrow may take."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from mealopt.core.clock import DAYS, minutes_of
from mealopt.core.nutrients import ENERGY
from mealopt.core.words import amount, label
from mealopt.documents.plan import Item, Meal
from mealopt.people.case import Case
from mealopt.people.days import day_after
from mealopt.people.goal import MOVE_MOST
from mealopt.plans.replan.off import Off
from mealopt.targets.safety import REFERRAL

#: A shortfall under this many kcal is not worth a move to the next day.
WORTH_MOVING = 50.0

NOTHING_TO_MAKE_UP = (
    "What was eaten changes nothing else: every meal that was planned still stands. If eating off plan troubles you, "
    f"talk with {REFERRAL}"
)
ONLY_SESSIONS = (
    "What was eaten changes nothing else: only what the sessions ask for does. If eating off plan troubles you, talk "
    f"with {REFERRAL}"
)
NEAREST = "The day's numbers can no longer all be met; it comes as near as it can:"
CUT = "The time ended before the day was as near to its numbers as it can be: more --seconds may bring it nearer:"
NO_PAYING = (
    "A surplus is not carried over, and no meal is left out for it: each meal that remains keeps its protein and at "
    "least 75 % of its planned energy"
)


@dataclass(frozen=True, slots=True)
class MealPair:
    """One meal before and after. before: as the plan had it, None where it is new; after: as it is now, None where it
    is gone."""

    before: Meal | None
    after: Meal | None

    @property
    def changed(self) -> bool:
        """Whether it is eaten at another time, or other foods or amounts stand in it."""
        one, other = self.before, self.after
        if one is None or other is None:
            return True
        return (one.time, one.dish, _weighed(one.items)) != (other.time, other.dish, _weighed(other.items))

    @property
    def time(self) -> str:
        """When it is eaten, or was to be."""
        meal = self.after or self.before
        assert meal is not None
        return meal.time


def _weighed(items: Sequence[Item]) -> list[tuple[str, float]]:
    return sorted((item.food, item.grams) for item in items)


def paired(before: Sequence[Meal], after: Sequence[Meal], moved: Mapping[str, str]) -> tuple[MealPair, ...]:
    """The meals of both days side by side. moved: time of a meal before -> its time after, where that is another."""
    left = {meal.time + meal.slot[:1] * (meal.slot == "during"): meal for meal in after}

    def key(meal: Meal, time: str) -> str:
        return time + meal.slot[:1] * (meal.slot == "during")

    pairs = []
    for meal in before:
        now = left.pop(key(meal, moved.get(meal.time, meal.time)), None)
        pairs.append(MealPair(meal, now))
    pairs += [MealPair(None, meal) for meal in left.values()]
    return tuple(sorted(pairs, key=lambda pair: (minutes_of(pair.time), pair.after is None)))


def said_off(off: Off) -> str:
    """ "energy: 310 kcal short of its least"; "fibre of lunch at 13:00: 2 g short of your own least"."""
    whose = "your own" if off.at else "its"
    side = f"short of {whose} least" if off.short else f"over {whose} most"
    of = f" of {off.at}" if off.at else ""
    return f"{label(off.key)}{of}: {amount(off.by, off.key)} {side}"


@dataclass(frozen=True, slots=True)
class Offer:
    """What the next day may take of a shortfall: a sentence, and lines for the case file; none where none can be
    written."""

    words: str
    lines: str


def offer_for(case: Case, day: str, offs: Sequence[Off]) -> Offer | None:
    """The energy that is short today, offered to the next day; None where there is none to speak of."""
    short = next((one.by for one in offs if one.key == ENERGY and one.short and not one.at), 0.0)
    following = day_after(day)
    flows = [move.kcal for move in case.goal.move if move.from_day == day]
    flows_in = [move.kcal for move in case.goal.move if move.to_day == following]
    room = MOVE_MOST - max(sum(flows), sum(flows_in))
    kcal = min(short, room)
    if kcal < WORTH_MOVING:
        return None
    words = f"{kcal:,.0f} kcal of what is short may be eaten on {following}, if you are hungry: nobody has to"
    if DAYS.index(following) == 0:
        return Offer(f"{words}; that is a day of the next week's case", "")
    lines = f'[[goal.move]]\nfrom = "{day}"\nto = "{following}"\nkcal = {kcal:.0f}'
    return Offer(f"{words}; for the case file:", lines)
