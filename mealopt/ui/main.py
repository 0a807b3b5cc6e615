"""The page as a whole: its parts in the order of the job, and what stands at the side of each."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import streamlit as st

from mealopt.ui import desk, files, inputs
from mealopt.ui.look import style
from mealopt.ui.pages import athlete, day, numbers, shopping, training, week
from mealopt.ui.said import onward

#: Title, address, what draws it; in the order of the job.
PAGES: tuple[tuple[str, str, Callable[[], None]], ...] = (
    ("Athlete and goal", "athlete", athlete.draw),
    ("Training week", "training", training.draw),
    ("Numbers", "numbers", numbers.draw),
    ("Day", "day", day.draw),
    ("Week", "week", week.draw),
    ("Shopping", "shopping", shopping.draw),
)
FIRST = "day"
#: Pixels of what stands at the side.
SIDE = 236


def main() -> None:
    """Draw the page that was asked for."""
    st.set_page_config(page_title="mealopt", layout="wide", initial_sidebar_state=SIDE)
    st.html(style())
    desk.collect()
    parts = {path: st.Page(draw, title=title, url_path=path, default=path == FIRST) for title, path, draw in PAGES}
    st.session_state["parts"] = parts
    chosen = st.navigation(list(parts.values()), expanded=True)
    with st.sidebar:
        st.markdown(f"**{desk.state().case.athlete.name}**")
        _switch()
        files.panel()
    head = st.empty()
    inputs.fresh()
    chosen.run()
    order = list(parts)
    here = next((path for path, part in parts.items() if part.url_path == chosen.url_path), FIRST)
    onward(here, next(iter(order[order.index(here) + 1 :]), None))
    complaint = desk.state().complaint
    if complaint and not inputs.shown():
        head.error(f"{complaint}. Until that is mended, all numbers are for the values before it.")


def _switch() -> None:
    key = f"plain#{desk.state().opened}"

    def turned() -> None:
        on = bool(st.session_state[key])
        desk.change(lambda now: replace(now, plain=on))

    st.session_state[key] = desk.state().without_numbers
    st.toggle("Foods and measures only", key=key, on_change=turned, help="No energy and no body mass on any page.")
