"""The case as lines of its file: what has no field of its own on the page, and lines that a refusal offers."""

from __future__ import annotations

import copy
import tomllib
from dataclasses import replace
from typing import Any

import streamlit as st

from mealopt import api
from mealopt.errors import BadInput
from mealopt.ui import desk
from mealopt.ui.state import State, read

_TROUBLE = "trouble with the case's lines"
#: What tells entries of a list apart: with the same of these it is the same entry, and changes.
SAME = ("nutrient", "day", "slot", "meal")
#: Lists of which each entry counts, however often it comes.
EACH = ("move",)
#: What may stand in a case for somebody's health: no button changes it.
HEALTH = ("never", "avoid_allergens", "gluten_free")


def merged(draft: dict[str, Any], lines: dict[str, Any]) -> dict[str, Any]:
    """Plain data of a case with these tables and keys in it; both stay as they are."""
    found = copy.deepcopy(draft)
    for key, value in lines.items():
        if isinstance(value, dict):
            found[key] = merged(found.get(key) or {}, value)
        elif isinstance(value, list) and value and all(isinstance(one, dict) for one in value):
            found[key] = list(found.get(key) or [])
            for entry in value:
                found[key] = _with_entry(found[key], entry, every=key in EACH)
        else:
            found[key] = value
    return found


def _with_entry(entries: list[dict[str, Any]], entry: dict[str, Any], every: bool) -> list[dict[str, Any]]:
    named = [entry.get(key) for key in SAME]
    place = next((at for at, one in enumerate(entries) if [one.get(key) for key in SAME] == named), None)
    if every or place is None:
        return [*entries, entry]
    return [*entries[:place], {**entries[place], **entry}, *entries[place + 1 :]]


def with_lines(state: State, text: str) -> State:
    """With these lines of TOML in the case; inputs begin afresh."""
    return replace(read(state, merged(state.draft, tomllib.loads(text))), opened=state.opened + 1)


def for_health(text: str) -> bool:
    """Whether the lines would change what may be there for somebody's health."""
    kitchen = tomllib.loads(text).get("kitchen", {})
    return any(key in kitchen for key in HEALTH)


def whole_case() -> None:
    """The case as its file, to be read and changed: sweat tests, days that differ, bands, rules of the week."""
    state = desk.state()
    with st.expander("All of the case, as its file", expanded=bool(st.session_state.get(_TROUBLE))):
        st.markdown(
            "Days that differ, settled meals, bands of your own, sweat tests and rules of the week have their place "
            "here. The fields above are part of it."
        )
        key = f"case text#{state.opened} {hash(state.case)}"
        st.text_area("Lines of the case file", value=api.case_text(state.case), key=key, height=320)
        if st.session_state.get(_TROUBLE):
            st.error(st.session_state[_TROUBLE])
        st.button("Take these lines", on_click=_taken, args=(key,))


def _taken(key: str) -> None:
    folder = desk.state().case.folder
    try:
        case = api.case_from_text(st.session_state[key]).beside(folder)
    except BadInput as error:
        st.session_state[_TROUBLE] = str(error)
        return
    st.session_state[_TROUBLE] = ""
    desk.change(lambda now: replace(read(now, api.case_data(case)), opened=now.opened + 1))
