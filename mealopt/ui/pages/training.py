"""The training week: a table that can be edited, and a picture of it."""

from __future__ import annotations

import copy
from dataclasses import replace
from typing import Any

import streamlit as st

from mealopt.core.clock import DAYS
from mealopt.core.words import duration
from mealopt.ui import desk
from mealopt.ui.inputs import choice, complain, number, words
from mealopt.ui.look import picture
from mealopt.ui.pictures.week_lines import training_picture
from mealopt.ui.state import State, read

KINDS = ("run", "ride", "swim", "row", "walk", "ski", "circuit", "lift", "other")
EFFORTS = ("easy", "steady", "hard", "race")
SOURCES = ("wrist", "power", "distance", "estimate")

#: What a session that is added begins with; the first hour of these that is free is taken.
NEW = {"minutes": 60, "kind": "run", "effort": "easy"}
HOURS = ("18:00", "12:00", "08:00", "16:00", "20:00", "10:00", "14:00")


def draw() -> None:
    """The page."""
    state = desk.state()
    st.title("Training week")
    chart, says = training_picture(state.case)
    picture(chart, 7 * 46 + 60, says, "training")
    sessions = state.draft.get("session", [])
    st.header("Sessions")
    if not sessions:
        st.markdown("No session yet: a week of rest. Add one below.")
    for place in range(len(sessions)):
        _row(place)
    complain(("session",))
    _add()
    total = sum(one.minutes for one in state.case.session)
    st.caption(
        f"{len(state.case.session)} sessions, {duration(total)} in the week. A session belongs to the day in which it "
        "starts; after midnight write 25:30. Lift and circuit give timing and no energy of their own: their hours "
        "stand in the day without training. A figure that is left out is estimated."
    )


def _row(place: int) -> None:
    with st.container(border=True), st.container(horizontal=True, vertical_alignment="bottom", gap="xsmall"):
        at = ("session", place)
        choice((*at, "day"), "Day", DAYS, width=94, say=str.capitalize)
        words((*at, "start"), "Start", width=78, most=5)
        number((*at, "minutes"), "Minutes", whole=True, step=5, width=112)
        choice((*at, "kind"), "Kind", KINDS, width=104)
        choice((*at, "effort"), "Effort", EFFORTS, width=100)
        folded = desk.state().without_numbers
        if not folded:
            number((*at, "active_kcal"), "Energy, kcal", step=10, width=108)
        _more(place, folded)
        st.button("Remove", key=f"remove {place}#{desk.state().opened}", on_click=_removed, args=(place,))


def _more(place: int, energy: bool) -> None:
    at = ("session", place)
    with st.popover("More"):
        if energy:
            number((*at, "active_kcal"), "Energy, kcal", step=10)
        choice((*at, "energy_from"), "Where the energy figure comes from", SOURCES, default="wrist")
        choice((*at, "energy_is"), "The figure is", ("active", "total"), default="active",
               say=lambda one: "above rest" if one == "active" else "with rest in it")  # fmt: skip
        number((*at, "distance_km"), "Distance, km", step=0.5)
        number((*at, "climb_m"), "Climb, m", step=10)
        number((*at, "mean_power_w"), "Mean power, W", step=5)


def _add() -> None:
    with st.container(horizontal=True, vertical_alignment="bottom"):
        key = f"new session on#{desk.state().opened}"
        day = st.selectbox("Add a session on", DAYS, index=DAYS.index(desk.state().day), key=key, width=160,
                           format_func=str.capitalize)  # fmt: skip
        st.button("Add session", type="primary", on_click=_added, args=(day,))


def _added(day: str) -> None:
    desk.change(lambda now: added(now, day))


def _removed(place: int) -> None:
    desk.change(lambda now: removed(now, place))


def added(state: State, day: str) -> State:
    """With one more session on this day, at an hour that fits where there is one; inputs begin afresh."""
    draft = copy.deepcopy(state.draft)
    sessions = draft.setdefault("session", [])
    first: State | None = None
    for hour in HOURS:
        one: dict[str, Any] = {"day": day, "start": hour, **NEW}
        listed = sorted([*sessions, one], key=lambda entry: (DAYS.index(entry["day"]), str(entry["start"]).zfill(5)))
        found = read(state, {**draft, "session": listed})
        first = first or found
        if not found.complaint:
            return replace(found, opened=state.opened + 1)
    return replace(first or state, opened=state.opened + 1)


def removed(state: State, place: int) -> State:
    """Without the session at this place; inputs begin afresh."""
    draft = copy.deepcopy(state.draft)
    sessions = draft.get("session", [])
    if place < len(sessions):
        del sessions[place]
    return replace(read(state, draft), opened=state.opened + 1)
