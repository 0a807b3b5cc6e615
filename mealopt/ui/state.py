"""What one person's page knows: one frozen object, changed by making a new one, kept under a name in its address."""

from __future__ import annotations

import copy
from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from mealopt import api
from mealopt.core.clock import DAYS
from mealopt.errors import BadInput

if TYPE_CHECKING:
    from tempfile import TemporaryDirectory

    from mealopt.api import Case, FuelPlan, Offer, Plan, PlanDay, WhyNot

#: Where a value stands in a case: ("athlete", "mass_kg"), ("session", 2, "start").
Path = tuple[str | int, ...]

#: Cautions with which foods and measures stand alone unless somebody asks for numbers.
WITHOUT_NUMBERS = ("past_eating_disorder", "eating_disorder_now")


@dataclass(frozen=True, slots=True)
class Look:
    """What something else is looked for: a food of a meal, or its whole dish where food is ""."""

    day: str
    meal: int
    food: str = ""


@dataclass(frozen=True, slots=True)
class State:
    """draft: the case as typed, in plain data; case: the last draft that could be read, which all numbers rest on.

    complaint: why the draft cannot be read, "" where it can. day: the day that is looked at. plans: day -> the newest
    plan document that holds it, the same for all days of a planned week. plain: foods and measures only; None: as the
    cautions say. opened: counts files opened, so that inputs begin afresh. at_home: what is at home, as written.
    ticked: what of the shopping is in the basket. held: days and numbers of meals that stay as they
    are. looking, offers: what something else is looked for, and what was found. said: of the last change; before: the
    plans before it. fuel: day -> the case and what to carry, where that was worked out apart from a plan. sheet: the
    case and the page for its race. choices: day -> other days that were found. limits, why_not: day -> the plan that
    was asked about and the answer. bought: the plan whose list is bought. prices: name and text of a file of one's own.
    own_foods: the folder that holds such a file of foods, for as long as the state is kept.
    """

    draft: dict[str, Any]
    case: Case
    day: str
    complaint: str = ""
    plans: dict[str, Plan] = field(default_factory=dict)
    plain: bool | None = None
    opened: int = 0
    at_home: str = ""
    ticked: frozenset[str] = frozenset()
    shops: int = 1
    held: frozenset[tuple[str, int]] = frozenset()
    looking: Look | None = None
    offers: tuple[Offer, ...] | None = None
    said: tuple[str, ...] = ()
    before: dict[str, Plan] | None = None
    fuel: dict[str, tuple[Case, tuple[FuelPlan, ...]]] = field(default_factory=dict)
    sheet: tuple[Case, str] | None = None
    choices: dict[str, tuple[Plan, ...]] = field(default_factory=dict)
    limits: dict[str, tuple[Plan, tuple[str, ...]]] = field(default_factory=dict)
    why_not: dict[str, tuple[Plan, WhyNot]] = field(default_factory=dict)
    bought: Plan | None = None
    prices: tuple[str, str] | None = None
    own_foods: TemporaryDirectory[str] | None = None

    @property
    def without_numbers(self) -> bool:
        """Whether foods and measures stand alone, with no energy and no body mass."""
        if self.plain is not None:
            return self.plain
        return any(caution in WITHOUT_NUMBERS for caution in self.case.athlete.cautions or ())

    def planned(self, day: str) -> PlanDay | None:
        """This day of the newest plan that holds it."""
        plan = self.plans.get(day)
        return None if plan is None else next((entry for entry in plan.days if entry.day == day), None)

    @property
    def week(self) -> Plan | None:
        """The plan of the week, or of some days of it, where all of its days are still as it has them."""
        for plan in self.plans.values():
            if plan.kind == "week" and all(self.plans.get(one.day) is plan for one in plan.days):
                return plan
        return None

    def current(self, day: str) -> bool:
        """Whether the day's plan was made for the case as it is now."""
        plan = self.plans.get(day)
        return plan is not None and same_case(plan.case, self.case)


def same_case(data: dict[str, Any], case: Case) -> bool:
    """Whether a plan's case says the same as this one, but for the label of the athlete."""
    one, other = copy.deepcopy(data), api.case_data(case)
    for each in (one, other):
        each.get("athlete", {}).pop("name", None)
    return one == other


def opened(case: Case, before: State | None = None) -> State:
    """A fresh state for a case that was opened; the day is the one with the most endurance work."""
    try:
        day = api.heaviest_day(case)
    except Exception:
        # A goal that safety forbids has no numbers; the pages say so where the numbers would stand.
        day = DAYS[0]
    return State(api.case_data(case), case, day, opened=before.opened + 1 if before else 0)


def typed(state: State, path: Path, value: Any) -> State:
    """With this value typed at this place; None takes the key out. What cannot be read becomes the complaint."""
    draft = copy.deepcopy(state.draft)
    place: Any = draft
    for part, following in pairwise(path):
        if isinstance(part, str) and part not in place:
            place[part] = [] if isinstance(following, int) else {}
        place = place[part]
    last: Any = path[-1]
    if value is None and isinstance(place, dict):
        place.pop(last, None)
    else:
        place[last] = value
    return read(state, draft)


def read(state: State, draft: dict[str, Any]) -> State:
    """With this draft; the case is read from it where that is possible, and stays as it was where it is not."""
    try:
        case = api.case_from_data(draft).beside(state.case.folder)
    except BadInput as error:
        return replace(state, draft=draft, complaint=str(error))
    return replace(state, draft=draft, case=case, complaint="")


def with_plan(state: State, plan: Plan) -> State:
    """With the days of this plan in place of what was planned for them before."""
    plans: dict[str, Plan] = {**state.plans, **{entry.day: plan for entry in plan.days}}
    return replace(state, plans=plans, looking=None, offers=None, said=(), before=None)


def changed(state: State, plan: Plan, said: tuple[str, ...]) -> State:
    """With a plan that was changed, what is to be said of it, and the way back."""
    return replace(with_plan(state, plan), said=said, before=state.plans)


def value_at(data: Any, path: Path) -> Any:
    """What stands at this place; None where nothing does."""
    for part in path:
        try:
            data = data[part]
        except (KeyError, IndexError, TypeError):
            return None
    return data
