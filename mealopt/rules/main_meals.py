"""Main meals that differ: not bread after bread, rice after rice or fish after fish."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from mealopt.menu.plates import Choice
from mealopt.milp.model import Row
from mealopt.rules import weights
from mealopt.rules.problem import Problem, Serving
from mealopt.rules.registry import term

ALIKE = "main meals alike"

#: Kins that a main meal stands on, and what somebody would call the same meal again.
STAPLES = {kin: kin for kin in ("bread", "rice", "couscous", "bulgur", "quinoa", "potato", "polenta", "oats")} | {
    "pasta": "pasta or noodles",
    "noodles": "pasta or noodles",
    "sweet potato": "potato",
}

#: What a main meal is named after, by what its foods count as.
NAMED_AFTER = ("fish", "soy", "pulse", "egg", "red_meat")

#: Kins that count as soy or egg and are no more than a drink or a seasoning of the meal.
_BESIDE = frozenset({"milk", "miso", "soy sauce", "protein powder", "yoghurt"})


def groups_of(choice: Choice) -> frozenset[str]:
    """The groups that a food belongs to, as a reader of the day would say: rice, fish, soy."""
    staple = {STAPLES[choice.kin]} if choice.kin in STAPLES else set()
    named = set() if choice.kin in _BESIDE else choice.counts & set(NAMED_AFTER)
    return frozenset(staple | named)


@term(ALIKE, unit="meals")
def main_meals_alike(problem: Problem) -> Iterator[Row]:
    """Charge each main meal beyond the first on one staple or one kind of protein (shape: one row a group)."""
    columns: dict[str, list[int]] = defaultdict(list)
    for slot in problem.main_slots:
        for serving in problem.servings[slot.index]:
            for group, used in _there(serving).items():
                columns[group] += used
    for group, used in sorted(columns.items()):
        terms = ((column, 1.0) for column in used)
        yield problem.charged_beyond(ALIKE, weights.ALIKE, f"alike_{group}", terms, 1.0)


def _there(serving: Serving) -> dict[str, list[int]]:
    """Group -> columns that say whether the plate holds it: its own where it always does, else its foods'."""
    always: set[str] = set()
    foods: dict[str, list[int]] = defaultdict(list)
    for part in serving.parts:
        groups = [groups_of(food.choice) for food in part.foods]
        if part.part.pick[0] > 0:
            always |= frozenset.intersection(*groups)
        for food, mine in zip(part.foods, groups, strict=True):
            for group in mine:
                foods[group].append(food.used)
    return {group: [serving.served] if group in always else used for group, used in foods.items()}
