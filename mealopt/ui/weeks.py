"""Planning days together: the whole week, or some days of it, with food that should be eaten up."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import streamlit as st

from mealopt import api
from mealopt.core.clock import DAYS
from mealopt.core.words import DAY_NAMES, number
from mealopt.errors import BadInput
from mealopt.ui import desk
from mealopt.ui.state import State, with_plan

WHERE = "week"
#: Seconds that a week may be sought for.
SECONDS = 40.0

_TROUBLE = "trouble with what to use up"


def plan_days(days: Sequence[str], use_up: Mapping[str, float]) -> None:
    """Begin to plan these days together for the case as it is now."""
    case = desk.state().case
    several = "seven days" if len(days) == len(DAYS) else "one day" if len(days) == 1 else f"{len(days)} days"
    desk.begin(
        f"Planning {several} together; at most about {number(SECONDS)} seconds.",
        f"week {days} {use_up} {api.case_text(case)}", WHERE,
        lambda progress, stop: api.plan_week(case, days=days, seconds=SECONDS, progress=progress, use_up=use_up,
                                             stop=stop),
        lambda now, plan: replace(with_plan(now, plan), ticked=frozenset()),
    )  # fmt: skip


def some_days(state: State) -> None:
    """Other days than all seven, and food to be eaten up."""
    with st.expander("Some days only, or food to use up", expanded=bool(st.session_state.get(_TROUBLE))):
        with st.container(horizontal=True):
            keys = [f"{name}#{state.opened}" for name in ("first day", "last day", "use up")]
            st.selectbox("First day", DAYS, key=keys[0], format_func=DAY_NAMES.__getitem__, width=170)
            st.selectbox("Last day", DAYS, index=len(DAYS) - 1, key=keys[1], format_func=DAY_NAMES.__getitem__,
                         width=170)  # fmt: skip
        st.text_area("To be eaten up, a food a line", key=keys[2], placeholder="spinach=300g", height=90)
        if st.session_state.get(_TROUBLE):
            st.error(st.session_state[_TROUBLE])
        st.button("Plan these days", on_click=_asked, args=(keys,))


def _asked(keys: list[str]) -> None:
    first, last, text = (st.session_state[key] for key in keys)
    try:
        use_up = api.read_have(text) if text.strip() else {}
    except BadInput as error:
        st.session_state[_TROUBLE] = str(error)
        return
    st.session_state[_TROUBLE] = ""
    start = DAYS.index(first)
    count = (DAYS.index(last) - start) % len(DAYS) + 1
    plan_days([DAYS[(start + place) % len(DAYS)] for place in range(count)], use_up)
