"""Another day altogether: unlike the one that stands, or several to choose from."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import streamlit as st

from mealopt import api
from mealopt.core.words import SLOTS
from mealopt.ui import desk, waiting
from mealopt.ui.look import plain
from mealopt.ui.said import name_of
from mealopt.ui.state import State, changed

if TYPE_CHECKING:
    from mealopt.api import Plan, PlanDay

#: Seconds that each day may be sought for, and how many there are to choose from.
SECONDS, CHOICES = 15.0, 3


def another(state: State, entry: PlanDay) -> None:
    """The two ways to another day, and the days that were found."""
    day, where = entry.day, f"another {entry.day}"
    asked, found = desk.kept().work, state.choices.get(day, ())
    with st.expander("Another day altogether", expanded=bool(found) or (asked is not None and asked.where == where)):
        if not found:
            st.markdown("As good a day with other dishes. Nothing changes until you take it.")
        with st.container(horizontal=True):
            st.button("One with other dishes", key=f"unlike {day}", on_click=look_for, args=(day, where, 1))
            st.button("Three to choose from", key=f"choices {day}", on_click=look_for, args=(day, where, CHOICES))
        waiting.show(where)
        for place, plan in enumerate(found):
            with st.container(border=True, key=f"choice {day} {place}"):
                meals = plan.days[0].meals
                st.markdown("\n".join(f"- {one.time} {SLOTS.get(one.slot, one.slot)}: {plain(one.dish)}"
                                      for one in meals))  # fmt: skip
                st.button("Take this day", key=f"take day {day} {place}", on_click=_taken, args=(day, plan))


def look_for(day: str, where: str, count: int) -> None:
    """Begin to look for so many other days; one: unlike what stands."""
    state = desk.state()
    case, stands = state.case, state.plans.get(day)
    if stands is None:
        return
    only = stands.model_copy(update={"days": tuple(one for one in stands.days if one.day == day)})

    def task(progress: Any, stop: Any) -> tuple[Plan, ...]:
        if count == 1:
            return (api.unlike(case, [only], day, seconds=SECONDS, progress=progress),)
        return api.choices(case, day, count, seconds=SECONDS, progress=progress)

    desk.begin(f"Looking for {name_of(day)} with other dishes.", f"another {day} {count} {id(stands)}", where, task,
               lambda now, found: replace(now, choices={**now.choices, day: found}), can_stop=False)  # fmt: skip


def _taken(day: str, plan: Plan) -> None:
    said = (f"{name_of(day)} is another day now.",)
    desk.change(lambda now: replace(changed(now, plan, said), choices={**now.choices, day: ()}))
