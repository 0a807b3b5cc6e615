"""Which dishes and foods many random days never choose, and why: `python -m bench.chosen 300`.

Days as `tests/plans/random_cases.py` draws them, every kind of eater in turn, planned with a wide gap. For each dish:
how many meals it fitted, how far up the day's order it came, how often it was chosen.
"""

from __future__ import annotations

import contextlib
import signal
import sys
from collections import Counter
from dataclasses import dataclass, field

from mealopt.errors import MealoptError
from mealopt.menu.dishes import Menu, shipped_menu
from mealopt.people.reading import case_from_dict
from mealopt.plans.day.found import SolvedDay
from mealopt.plans.day.pose import PosedDay, pose_day
from mealopt.plans.day.solve import FIRST_CARD, solve_posed
from tests.plans.random_cases import KINDS, make

#: Wide: a dish is found or not, the last points do not matter. SECONDS by the clock for one day.
GAP, SECONDS = 0.2, 5.0


@dataclass
class Seen:
    """What the days showed. fits: dish -> meals that it fitted; dealt: of those on a first card; offered: food ->
    plates that could hold it; dishes, foods: how often each was chosen."""

    days: int = 0
    failed: int = 0
    fits: Counter[str] = field(default_factory=Counter)
    dealt: Counter[str] = field(default_factory=Counter)
    offered: Counter[str] = field(default_factory=Counter)
    dishes: Counter[str] = field(default_factory=Counter)
    foods: Counter[str] = field(default_factory=Counter)

    def look(self, posed: PosedDay) -> None:
        """Count what the day's card holds."""
        card = posed.card()
        card.deal(10_000)
        for plates in card.plates:
            for place, plate in enumerate(plates):
                self.fits[plate.dish.id] += 1
                self.dealt[plate.dish.id] += place < FIRST_CARD
                self.offered.update({choice.name for part in plate.parts for choice in part.choices})

    def eaten(self, solved: SolvedDay) -> None:
        """Count what the day chose."""
        values = solved.answer.values
        for serving in solved.problem.all_servings:
            if round(values[serving.served]) == 1:
                self.dishes[serving.plate.dish.id] += 1
                self.foods.update(food.choice.name for food in serving.foods if food.grams(values) > 0)


def watch(days: int) -> Seen:
    """Plan so many random days and count; Ctrl-C ends it with what was seen so far."""
    seen = Seen()
    with contextlib.suppress(KeyboardInterrupt):
        _watch(days, seen)
    return seen


def _watch(days: int, seen: Seen) -> None:
    for number in range(days):
        case = case_from_dict(make(number, KINDS[number % len(KINDS)]), "random")
        try:
            posed = pose_day(case, "tue")
            seen.look(posed)
            solved = solve_posed(posed, GAP, SECONDS)
        except MealoptError:
            seen.failed += 1
            continue
        if isinstance(solved, SolvedDay):
            seen.eaten(solved)
            seen.days += 1
        else:
            seen.failed += 1
        if number % 25 == 24:
            print(f"{number + 1} days", file=sys.stderr, flush=True)


def why_no_dish(dish: str, menu: Menu, seen: Seen) -> str:
    """Why the days never chose this dish."""
    if not seen.fits[dish]:
        return "never fits a meal: its slots, energy, kitchen or foods rule it out"
    if not seen.dealt[dish]:
        return f"fits {seen.fits[dish]} meals, always beyond the first {FIRST_CARD} places of the day's order"
    return f"fits {seen.fits[dish]} meals, {seen.dealt[dish]} times among the first; others cost less each time"


def why_no_food(food: str, menu: Menu, seen: Seen) -> str:
    """Why the days never chose this food."""
    holding = [dish.id for dish in menu.dishes.values() if any(food in part.foods for part in dish.component)]
    if not holding:
        return "in no dish"
    if not seen.offered[food]:
        return f"never on a plate: kept for other eaters or hours ({', '.join(holding[:3])})"
    served = sum(seen.dishes[dish] for dish in holding)
    return f"on {seen.offered[food]} plates; its {len(holding)} dishes were chosen {served} times with other foods"


def report(seen: Seen, menu: Menu) -> list[str]:
    """The report as lines of text."""
    dishes = [dish for dish in menu.dishes if not seen.dishes[dish]]
    eatable = [name for name, food in menu.pantry.foods.items() if "seasoning" not in food.counts]
    foods = [name for name in eatable if not seen.foods[name]]
    return [
        f"{seen.days} days planned, {seen.failed} without a plan at this gap and time",
        f"{len(menu.dishes) - len(dishes)} of {len(menu.dishes)} dishes chosen; never:",
        *(f"  {dish}: {why_no_dish(dish, menu, seen)}" for dish in dishes),
        f"{len(eatable) - len(foods)} of {len(eatable)} foods chosen (seasonings left out); never:",
        *(f"  {food}: {why_no_food(food, menu, seen)}" for food in foods),
    ]


if __name__ == "__main__":
    signal.signal(signal.SIGINT, signal.default_int_handler)
    asked = int(sys.argv[1]) if len(sys.argv) > 1 else 300
    print("\n".join(report(watch(asked), shipped_menu())))
