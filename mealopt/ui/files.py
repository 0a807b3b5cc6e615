"""Opening and saving: the same case and plan files that the commands read and write."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import streamlit as st

from mealopt import api
from mealopt.errors import BadInput
from mealopt.ui import desk
from mealopt.ui.own_foods import ask_for_own_foods, missing
from mealopt.ui.state import State, opened, with_plan

if TYPE_CHECKING:
    from mealopt.api import Plan

_TROUBLE = "trouble with a file"


def from_text(state: State, text: str, name: str) -> State:
    """The state with the case or the plan in this text; name: of its file. Raises BadInput."""
    if name.lower().endswith(".json") or text.lstrip("\ufeff \n\r\t").startswith("{"):
        plan = api.plan_from_text(text, name)
        case = api.case_from_data(plan.case, f"{name}, case")
        found = with_plan(opened(case, state), plan)
        return replace(found, day=plan.days[0].day if found.planned(found.day) is None else found.day)
    return opened(api.case_from_text(text, name), state)


def text_of(content: bytes, name: str) -> str:
    """The text of a file that was opened. Raises BadInput."""
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise BadInput(
            f"{name}: read the byte 0x{content[error.start]:02x}, which is not UTF-8; a case file (TOML) or a plan "
            "document (JSON) is expected"
        ) from None


def _uploaded(key: str) -> None:
    file = st.session_state[key]
    if file is None:
        return
    try:
        text = text_of(file.getvalue(), file.name)
        desk.change(lambda now: from_text(now, text, file.name))
    except BadInput as error:
        st.session_state[_TROUBLE] = str(error)
    else:
        st.session_state[_TROUBLE] = ""


def _example(key: str) -> None:
    name = st.session_state[key]
    if name:
        case = api.read_case(api.example_case_path(name))
        desk.change(lambda now: opened(case, now))


def panel() -> None:
    """Open and save, at the side of every page."""
    state = desk.state()
    with st.expander("Open", expanded=bool(missing(state))):
        key = f"upload#{state.opened}"
        st.file_uploader("A case file (.toml) or a plan (.json)", type=["toml", "json"], key=key, on_change=_uploaded,
                         args=(key,))  # fmt: skip
        if st.session_state.get(_TROUBLE):
            st.error(st.session_state[_TROUBLE])
        ask_for_own_foods()
        key = f"example#{state.opened}"
        st.selectbox("Or an example", api.example_names(), index=None, key=key, on_change=_example, args=(key,),
                     format_func=lambda name: name.replace("_", " "), placeholder="choose one")  # fmt: skip
    with st.expander("Save"):
        st.download_button("Case file", api.case_text(state.case), "case.toml", "application/toml", on_click="ignore",
                           width="stretch")  # fmt: skip
        plan: Plan | None = state.week or state.plans.get(state.day)
        if plan is not None:
            name = "week" if plan.kind == "week" else plan.days[0].day
            st.download_button(f"Plan of {'the week' if name == 'week' else name}", api.plan_text(plan),
                               f"plan-{name}.json", "application/json", on_click="ignore", width="stretch")  # fmt: skip
        st.caption("While the server runs, a reload of this page keeps all of it. A file keeps it longer.")
