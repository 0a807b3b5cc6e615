"""For whom is cooked: how many sit at the table, and which part of a dish is the athlete's."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from mealopt.documents.plan import Plan

#: What a table of several cannot be told by the athlete's case.
OTHERS = "The allergies, conditions and needs of the others at the table are not known here: ask them"


@dataclass(frozen=True, slots=True)
class Household:
    """people: at the table. share_percent: the athlete's part of what is shared, where one was stated."""

    people: int = 1
    share_percent: float | None = None

    @property
    def times(self) -> float:
        """Grams on the table for each gram on the athlete's plate."""
        return 100.0 / self.share_percent if self.share_percent else float(self.people)

    @property
    def portion(self) -> str:
        """The athlete's portion in words; "" for one alone."""
        if self.people == 1:
            return ""
        alone = "what is eaten before, in and after sessions, and supplements, are for you alone"
        if self.share_percent:
            return f"your portion is {self.share_percent:g} % of each shared dish; {alone}"
        parts = f"1 of {self.people}: {100 / self.people:.0f} % of each shared dish"
        return f"your portion is {parts}; the others are taken to eat as much as you; {alone}"


def kitchen_of(plan: Plan) -> dict[str, Any]:
    """The kitchen of the plan's own copy of its case; empty where there is none."""
    kitchen = plan.case.get("kitchen")
    return kitchen if isinstance(kitchen, dict) else {}


def household_of(plan: Plan, people: int | None = None) -> Household:
    """The household of a plan's case; people: another number, whose portions are equal."""
    if people is not None:
        return Household(people)
    kitchen = kitchen_of(plan)
    at_table, share = kitchen.get("people_at_table"), kitchen.get("your_share_percent")
    count = at_table if isinstance(at_table, int) and at_table >= 1 else 1
    stated = float(share) if isinstance(share, int | float) and 0 < share < 100 and count > 1 else None
    return Household(count, stated)
