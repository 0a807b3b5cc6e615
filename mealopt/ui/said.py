"""What every page says in the same way: why there are no numbers, which day, which case."""

from __future__ import annotations

from typing import TYPE_CHECKING

import streamlit as st

from mealopt import api
from mealopt.core.clock import DAYS
from mealopt.core.words import DAY_NAMES, dated
from mealopt.errors import BadInput, Refused
from mealopt.ui import desk
from mealopt.ui.inputs import follow
from mealopt.ui.look import listed
from mealopt.ui.state import State

if TYPE_CHECKING:
    from streamlit.navigation.page import Page as StreamlitPage

    from mealopt.api import WeekTargets


def numbers_or_reason() -> WeekTargets | None:
    """The week's numbers; None where safety or the case forbids them, which is then said."""
    try:
        return desk.week_targets(desk.state().case)
    except (Refused, BadInput) as error:
        st.error(str(error))
        return None


def pick_day(key: str) -> str:
    """The day that is looked at, chosen among seven; the same on all pages."""
    state = desk.state()

    def picked() -> None:
        chosen = st.session_state[key]
        if chosen:
            desk.change(lambda now: _on(now, chosen))

    follow(key, state.day)
    st.segmented_control(
        "Day", DAYS, key=key, on_change=picked, format_func=lambda day: day.capitalize(), required=True
    )
    return state.day


def _on(state: State, day: str) -> State:
    from dataclasses import replace

    return replace(state, day=day)


def day_title(day: str) -> str:
    """The day's name, with its date where the case has one."""
    from datetime import timedelta

    of = desk.state().case.week_of
    return dated(of + timedelta(days=DAYS.index(day)) if of else None, day)


def page_of(path: str) -> StreamlitPage:
    """One of the page's parts, by its address."""
    found: StreamlitPage = st.session_state["parts"][path]
    return found


def onward(following: str | None) -> None:
    """A link to what comes next in the order of the job."""
    if following is not None:
        st.space("small")
        st.page_link(page_of(following), label=f"Next: {page_of(following).title.lower()} →")


def hidden_numbers() -> None:
    """What stands in the place of numbers where foods and measures stand alone."""
    st.info("Numbers are left out here. The switch “Foods and measures only” at the side brings them back.")


def cautions_and_assumptions(cautions: tuple[str, ...], notes: list[str] | tuple[str, ...]) -> None:
    """Cautions open, assumptions folded, right where the numbers are."""
    listed("Cautions", list(dict.fromkeys(cautions)))
    listed("What was assumed", list(dict.fromkeys(notes)), open_at_first=False)


def case_notes() -> list[str]:
    """What was assumed in reading the case."""
    return api.case_notes(desk.state().case)


def name_of(day: str) -> str:
    """ "Saturday"."""
    return DAY_NAMES[day]
