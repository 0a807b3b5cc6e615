"""The desk of one person: the state that pages read, the one way to change it, and the numbers that follow from it."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from mealopt import api
from mealopt.errors import BadInput
from mealopt.ui import keeping
from mealopt.ui.state import State, opened, with_plan
from mealopt.ui.work import Task, Work, begun

if TYPE_CHECKING:
    from mealopt.api import Case, EnergyStep, LightSpan, WeekTargets

#: A planned example, so that the first opening shows a finished day: `python -m mealopt.ui.example` writes it anew.
EXAMPLE = Path(__file__).with_name("example_plan.json")


@cache
def first_state() -> State:
    """What a newcomer sees: the example that ships with the program, planned."""
    state = opened(api.read_case())
    try:
        plan = api.plan_from_text(EXAMPLE.read_text(encoding="utf-8"), EXAMPLE.name)
    except (OSError, BadInput):
        # Without it, or with one of another version, the page asks for the day to be planned.
        return state
    return with_plan(state, plan)


def kept() -> keeping.Kept:
    """What is kept for whoever looks at this page."""
    return keeping.kept(first_state())


def state() -> State:
    """The state as it is now."""
    return kept().state


def change(how: Callable[[State], State]) -> None:
    """Put another state in the place of this one."""
    one = kept()
    one.state = how(one.state)


def begin(what: str, key: str, where: str, task: Task, apply: Callable[[State, Any], State], *,
          can_stop: bool = True) -> None:  # fmt: skip
    """Begin long work, unless the same is going on already; what else is going on is stopped."""
    one = kept()
    one.work = begun(one.work, Work(what, key, where, task, can_stop))
    one.apply = apply


def collect() -> None:
    """Take in the answer of work that has ended."""
    one = kept()
    if one.work is not None and one.work.ended and one.work.error is None:
        one.state = one.apply(one.state, one.work.answer)
        one.work = None


@lru_cache(maxsize=256)
def week_targets(case: Case) -> WeekTargets:
    """The week's numbers; worked out once for a case. Raises Refused, BadInput."""
    return api.week_targets(case)


@lru_cache(maxsize=512)
def light_spans(case: Case, day: str) -> tuple[LightSpan, ...]:
    """When the day's meals must be light; worked out once for a case. Raises Refused, BadInput."""
    return api.light_spans(case, day)


@cache
def dish_names() -> dict[str, str]:
    """Every dish that ships with the program: its id and its name."""
    return {dish: dish.replace("_", " ").replace("-", " ") for dish in api.dish_names()}


def energy_steps(case: Case, day: str) -> tuple[EnergyStep, ...]:
    """From resting energy to the day's aim. Raises Refused, BadInput."""
    return api.energy_steps(week_targets(case), day)
