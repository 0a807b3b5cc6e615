"""Meals that nothing can be served in: which, and what kept the dishes out."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace

from mealopt.core.filters import FoodFilter
from mealopt.core.slots import Slot
from mealopt.menu.dishes import Dish
from mealopt.menu.plates import Larder, kitchen_allows, plate
from mealopt.milp.answer import Status
from mealopt.milp.highs import Highs
from mealopt.plans.day.least import all_plates, posed_problem
from mealopt.plans.day.pose import PosedDay

#: Seconds of work for one meal by itself: it is small.
ONE_MEAL = 2.0


@dataclass(frozen=True, slots=True)
class KeptOut:
    """A meal without a dish. by: words for a reason -> how many dishes it keeps out; plates: dishes that no wish and no
    kitchen keeps out, but that no amounts of their foods bring within what the meal must hold."""

    slot: Slot
    by: dict[str, int]
    plates: int

    @property
    def words(self) -> str:
        """ "no dish fits the snack at 16:50: of 60, 40 are not vegan, 20 take longer than 5 min"."""
        parts = [f"{count} {reason}" for reason, count in self.by.items() if count]
        if self.plates:
            parts.append(f"{self.plates} hold too much or too little in any amounts")
        total = sum(self.by.values()) + self.plates
        reasons = f"of {total} dishes, {', '.join(parts)}" if parts else "no dish suits such a meal"
        return f"no dish fits the {self.slot.label}: {reasons}"


def unserved(posed: PosedDay) -> tuple[KeptOut, ...]:
    """The meals in which, each taken by itself, nothing can be served, with what kept the dishes out."""
    plates = all_plates(posed)
    found = []
    for slot, fitting in zip(posed.slots, plates, strict=True):
        if not fitting or not _servable(posed, slot):
            found.append(KeptOut(slot, _reasons(posed, slot), len(fitting)))
    return tuple(found)


def _servable(posed: PosedDay, slot: Slot) -> bool:
    """Whether the meal by itself can be served, whatever it then does to the day."""
    alone = replace(
        posed,
        slots=(replace(slot, index=0, protein_least=0.0),),
        bands={},
        refuel=(),
        own=(),
        wishes=replace(posed.wishes, minutes_most=1e6, budget=None, whole_food_share=0.0, added_sugar_share=1.0,
                       produce_kinds=0, warm_main=False),
    )  # fmt: skip
    problem = posed_problem(alone, (all_plates(posed)[slot.index],))
    return Highs(problem.model).solve(1e-3, effort=ONE_MEAL).status is not Status.INFEASIBLE


def _reasons(posed: PosedDay, slot: Slot) -> dict[str, int]:
    larder = posed.larder
    counts: Counter[str] = Counter()
    wishes = wishes_apart(larder.filter)
    apart = {words: Larder(larder.menu, one) for words, one in wishes.items()}
    free = Larder(larder.menu, FoodFilter())
    for dish in larder.menu.for_slot(slot):
        if plate(dish, slot, larder) is None:
            counts[reason_of(dish, slot, larder, free, apart)] += 1
    return dict(counts.most_common())


def wishes_apart(wishes: FoodFilter) -> dict[str, FoodFilter]:
    """Words for what a dish is that this wish alone keeps out -> the wish alone."""
    apart = {}
    if wishes.diet != "omnivore":
        apart[f"cannot be made {wishes.diet}"] = FoodFilter(diet=wishes.diet)
    if wishes.gluten_free:
        apart["cannot be made without gluten"] = FoodFilter(gluten_free=True)
    for allergen in sorted(wishes.avoid_allergens):
        apart[f"cannot be made without {allergen}"] = FoodFilter(avoid_allergens=frozenset({allergen}))
    if wishes.never:
        apart["are never to be planned, or their foods"] = FoodFilter(never=wishes.never)
    return apart


def reason_of(dish: Dish, slot: Slot, larder: Larder, free: Larder, apart: dict[str, Larder]) -> str:
    """What keeps this dish out of this slot. free: a larder without wishes; apart: one for each wish by itself."""
    if not kitchen_allows(dish, slot):
        if kitchen_allows(dish, replace(slot, minutes_most=10_000)):
            return f"take longer than the {slot.minutes_most} min at hand"
        return "need a stove or heat that is not at hand"
    if plate(dish, slot, free) is None:
        return "pass what the meal may hold" + (" before a session" if slot.limits else "")
    for words, one in apart.items():
        if plate(dish, slot, one) is None:
            return words
    return "cannot be made with all these wishes together"
