"""Why the day is as it is: the limits that hold it, and what would follow if something else were in."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import streamlit as st

from mealopt import api
from mealopt.ui import desk, waiting
from mealopt.ui.look import plain
from mealopt.ui.state import State, changed

if TYPE_CHECKING:
    from mealopt.api import PlanDay, WhyNot

#: How many limits are told.
TOLD = 8


def reasons(state: State, entry: PlanDay) -> None:
    """Two questions that may be asked of a day, and their answers while the day stays as it is."""
    day, where = entry.day, f"why {entry.day}"
    asked, plan = desk.kept().work, state.plans.get(day)
    limits, answer = state.limits.get(day), state.why_not.get(day)
    limits = limits if limits is not None and limits[0] is plan else None
    answer = answer if answer is not None and answer[0] is plan else None
    shown = limits is not None or answer is not None or (asked is not None and asked.where == where)
    with st.expander("Why is the day as it is?", expanded=shown):
        st.button("Which limits hold it", key=f"limits {day}", on_click=_limits, args=(day, where))
        if limits is not None:
            lines = limits[1][:TOLD]
            st.markdown("\n".join(f"- {plain(line)}" for line in lines) or "None: the day is as near ideal as can be.")
        names = desk.dish_names()
        key = f"why not {day}"
        with st.container(horizontal=True, vertical_alignment="bottom"):
            st.selectbox("Why not this food or dish?", (*api.food_names(), *names), index=None, key=key,
                         placeholder="choose one", format_func=lambda one: names.get(one, one))  # fmt: skip
            st.button("Ask", key=f"ask {key}", on_click=_why_not, args=(day, where, key))
        waiting.show(where)
        if answer is not None:
            _answer(day, answer[1])


def _limits(day: str, where: str) -> None:
    state = desk.state()
    plan, folder = state.plans.get(day), state.case.folder
    if plan is None:
        return

    def take(now: State, found: Any) -> State:
        return replace(now, limits={**now.limits, day: (plan, tuple(one.words for one in found))})

    desk.begin("Looking at each limit.", f"limits {day} {id(plan)}", where,
               lambda progress, stop: api.why(plan, day, folder), take, can_stop=False)  # fmt: skip


def _why_not(day: str, where: str, key: str) -> None:
    name, state = st.session_state.get(key), desk.state()
    plan, folder = state.plans.get(day), state.case.folder
    if plan is None or not name:
        return

    def take(now: State, found: Any) -> State:
        return replace(now, why_not={**now.why_not, day: (plan, found)})

    desk.begin(f"Trying the day with {desk.dish_names().get(name, name)}.", f"why not {name} {day} {id(plan)}", where,
               lambda progress, stop: api.why_not(plan, name, day, folder), take, can_stop=False)  # fmt: skip


def _answer(day: str, found: WhyNot) -> None:
    with st.container(border=True):
        st.markdown("\n".join(f"- {plain(line)}" for line in found.words))
        if found.plan is not None and found.changes:
            st.button("Take the day with it", key=f"take why {day}", on_click=_taken, args=(found,))


def _taken(found: WhyNot) -> None:
    plan = found.plan
    if plan is not None:
        desk.change(lambda now: changed(now, plan, (f"The day is with {found.name} now.",)))
