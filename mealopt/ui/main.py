"""The page as a whole: its parts in the order of the job, and what stands at the side of each."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import streamlit as st

from mealopt.ui import desk, files, inputs
from mealopt.ui.look import plain, style
from mealopt.ui.pages import athlete, day, fuel, numbers, shopping, training, week
from mealopt.ui.said import onward

#: Title, address, what draws it; in the order of the job.
PAGES: tuple[tuple[str, str, Callable[[], None]], ...] = (
    ("Athlete and goal", "athlete", athlete.draw),
    ("Training week", "training", training.draw),
    ("Numbers", "numbers", numbers.draw),
    ("Day", "day", day.draw),
    ("Week", "week", week.draw),
    ("Shopping", "shopping", shopping.draw),
    ("Session fuel", "fuel", fuel.draw),
)
FIRST = "day"
#: Pixels of what stands at the side.
SIDE = 236


def main() -> None:
    """Draw the part of the page that was asked for."""
    st.set_page_config(page_title="mealopt", layout="wide", initial_sidebar_state=SIDE)
    st.html(style())
    parts = {path: st.Page(draw, title=title, url_path=path, default=path == FIRST) for title, path, draw in PAGES}
    st.session_state["parts"] = parts
    chosen = st.navigation(list(parts.values()), expanded=True)
    # On a phone the side covers the page: there, the parts stand at its head as well.
    with st.container(horizontal=True, gap="xsmall", key="parts"):
        for one in parts.values():
            st.page_link(one)
        _switch("plain on a phone")
    part(chosen.run)
    order = list(parts)
    here = next((path for path, one in parts.items() if one.url_path == chosen.url_path), FIRST)
    onward(next(iter(order[order.index(here) + 1 :]), None))


def alone(path: str) -> None:
    """One part by itself, without the way to the others."""
    part(next(draw for _, one, draw in PAGES if one == path))


def part(draw: Callable[[], None]) -> None:
    """One part, with what stands at its side, and a complaint at its head where no field of it is concerned."""
    desk.collect()
    with st.sidebar:
        st.markdown(f"**{plain(desk.state().case.athlete.name)}**")
        _switch("plain")
        files.panel()
    head = st.empty()
    inputs.fresh()
    draw()
    complaint = desk.state().complaint
    if complaint and not inputs.shown():
        head.error(f"{complaint}\n\nUntil that is mended, all numbers are for the values before it.")


def _switch(name: str) -> None:
    key = f"{name}#{desk.state().opened}"

    def turned() -> None:
        on = bool(st.session_state[key])
        desk.change(lambda now: replace(now, plain=on))

    inputs.follow(key, desk.state().without_numbers)
    st.toggle("Foods and measures only", key=key, on_change=turned, help="No energy and no body mass on any page.")
