"""The shopping: what to buy by aisle, to be ticked off, less what is at home; to copy and to take along."""

from __future__ import annotations

from dataclasses import replace
from itertools import groupby
from typing import TYPE_CHECKING, Any

import streamlit as st

from mealopt import api
from mealopt.core.words import DAY_NAMES
from mealopt.errors import BadInput, Refused
from mealopt.ui import desk
from mealopt.ui.look import listed, plain
from mealopt.ui.said import name_of
from mealopt.ui.state import State

if TYPE_CHECKING:
    from mealopt.api import Grocery, Plan, Shopping

_DONE = "shopping done"


def draw() -> None:
    """The page."""
    state = desk.state()
    st.title("Shopping")
    plan = state.week or state.plans.get(state.day)
    if plan is None:
        st.info(f"There is nothing to buy yet: neither the week nor {name_of(state.day)} is planned.")
        return
    if plan.kind == "day":
        st.info(f"For {DAY_NAMES[plan.days[0].day]} alone. Plan the week for one list for all of it.")
    if not state.current(plan.days[0].day):
        st.warning("The case has changed since this was planned: the list is for the plan as it was.")
    with st.expander("Before you go: what is at home, and in how many shops", expanded=bool(state.at_home.strip())):
        have = _asked(state)
    try:
        shopping = worked_out(plan, have, state)
    except (BadInput, Refused) as error:
        st.error(str(error))
        return
    left, right = st.columns([3, 2], gap="large")
    with left:
        _lines(state, shopping)
    with right:
        _taken_along(shopping)
    listed("Cautions", shopping.cautions)
    listed("What was assumed", shopping.notes, open_at_first=False)


def worked_out(plan: Plan, have: dict[str, float], state: State) -> Shopping:
    """The shopping for this plan; worked out again only where something of it changed. Raises BadInput, Refused."""
    asked = (have, state.shops)
    done: tuple[Any, Any, Shopping] | None = st.session_state.get(_DONE)
    if done is not None and done[0] is plan and done[1] == asked:
        return done[2]
    shopping = api.groceries(plan, have, shops=state.shops, folder=state.case.folder)
    st.session_state[_DONE] = (plan, asked, shopping)
    return shopping


def _asked(state: State) -> dict[str, float]:
    """What is at home, and in how many shops; what cannot be read is answered beside it, and counts as nothing."""
    key, shops = f"at home#{state.opened}", f"shops#{state.opened}"

    def written() -> None:
        text = st.session_state[key]
        desk.change(lambda now: replace(now, at_home=text))

    def chosen() -> None:
        number = st.session_state[shops]
        desk.change(lambda now: replace(now, shops=number))

    st.text_area("At home, a food a line", value=state.at_home, key=key, on_change=written,
                 placeholder="oats=400g", height=110)  # fmt: skip
    have: dict[str, float] = {}
    if state.at_home.strip():
        try:
            have = api.read_have(state.at_home)
        except BadInput as error:
            st.error(str(error))
    st.radio("Shops", (1, 2), index=state.shops - 1, key=shops, on_change=chosen, horizontal=True,
             format_func=lambda number: "one" if number == 1 else "two, one in the middle of the week")  # fmt: skip
    return have


def _lines(state: State, shopping: Shopping) -> None:
    st.header("What to buy")
    bought = list(shopping.bought)
    if not bought:
        st.markdown("Nothing has to be bought.")
    basket = sum(1 for line in bought if name_in_basket(line) in state.ticked)
    st.markdown(f"{basket} of {len(bought)} in the basket")
    st.progress(basket / max(1, len(bought)))
    if shopping.portion:
        st.caption(f"For {shopping.people}: {plain(shopping.portion)}.")
    for shop, lines in groupby(bought, key=lambda line: line.shop):
        if len(shopping.shops) > 1:
            st.subheader(f"Shop {shop}, {plain(shopping.shops[shop - 1])}")
        for aisle, found in groupby(lines, key=lambda line: line.aisle):
            st.markdown(f"**{plain(api.aisle_sign(aisle))}**")
            for line in found:
                _line(state, line)


def name_in_basket(line: Grocery) -> str:
    """What a ticked line is remembered by."""
    return f"{line.shop} {line.food}"


def _line(state: State, line: Grocery) -> None:
    name = name_in_basket(line)
    key = f"tick {name}#{state.opened}"

    def ticked() -> None:
        on = bool(st.session_state[key])
        desk.change(lambda now: replace(now, ticked=now.ticked | {name} if on else now.ticked - {name}))

    price = "" if line.price is None else f" · {line.price:.2f}"
    st.checkbox(f"{plain(line.says)}{price}", value=name in state.ticked, key=key, on_change=ticked)


def _taken_along(shopping: Shopping) -> None:
    words = api.shopping_words(shopping)
    st.markdown(f"**{plain(words.total)}.**")
    if words.at_home:
        st.markdown(f"From what is at home: {plain(words.at_home)}.")
    if words.also:
        st.markdown(f"You may need: {plain(words.also)}.")
    if words.little:
        st.markdown(f"Only a little is needed of: {plain(words.little)}.")
    if words.kept or words.gone or words.at_home_left:
        st.header("Left over after the last day")
        if words.gone:
            st.markdown(f"Does not keep, use it up: {plain(words.gone)}.")
        if words.kept:
            st.markdown(f"Keeps: {plain(words.kept)}.")
        if words.at_home_left:
            st.markdown(f"Still at home of what was there: {plain(words.at_home_left)}.")
    st.header("To take along")
    text = api.groceries_text(shopping)
    with st.container(horizontal=True):
        st.download_button("List as CSV", api.groceries_csv(shopping), "shopping.csv", "text/csv", on_click="ignore")
        st.download_button("List as plain text", text, "shopping.txt", "text/plain", on_click="ignore")
    with st.expander("Copy the list"):
        st.code(text, language=None, wrap_lines=True, height=280)
