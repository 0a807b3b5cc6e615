"""The shopping: what to buy by aisle, to be ticked off, less what is at home; to copy and to take along."""

from __future__ import annotations

from dataclasses import replace
from itertools import groupby
from typing import TYPE_CHECKING

import streamlit as st

from mealopt import api
from mealopt.core.words import DAY_NAMES
from mealopt.errors import BadInput, Refused
from mealopt.ui import desk
from mealopt.ui.files import text_of
from mealopt.ui.list_of import Listed, listed_for
from mealopt.ui.look import listed, plain
from mealopt.ui.said import name_of
from mealopt.ui.state import State

if TYPE_CHECKING:
    from mealopt.api import Grocery, Plan, Shopping

_TROUBLE = "trouble with prices"


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
    asked = bool(state.at_home.strip()) or state.prices is not None
    with st.expander("Before you go: what is at home, how many shops, your prices", expanded=asked):
        have = _asked(state)
    try:
        found = listed_for(plan, have, state)
    except (BadInput, Refused) as error:
        st.error(str(error))
        return
    shopping = found.shopping
    left, right = st.columns([3, 2], gap="large")
    with left:
        _head(state, plan, found)
    with right:
        _taken_along(shopping)
    _aisles(state, shopping)
    _left_over(shopping)
    listed("Cautions", shopping.cautions)
    listed("What was assumed", shopping.notes, open_at_first=False)


def _asked(state: State) -> dict[str, float]:
    """What is at home, in how many shops, at what prices; what cannot be read is answered beside it."""
    key, shops, prices = (f"{name}#{state.opened}" for name in ("at home", "shops", "prices"))

    def written() -> None:
        text = st.session_state[key]
        desk.change(lambda now: replace(now, at_home=text))

    def chosen() -> None:
        number = st.session_state[shops]
        desk.change(lambda now: replace(now, shops=number))

    def priced() -> None:
        file = st.session_state[prices]
        if file is None:
            st.session_state[_TROUBLE] = ""
            desk.change(lambda now: replace(now, prices=None))
            return
        try:
            read = (file.name, text_of(file.getvalue(), file.name))
        except BadInput as error:
            st.session_state[_TROUBLE] = str(error)
            return
        st.session_state[_TROUBLE] = ""
        desk.change(lambda now: replace(now, prices=read))

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
    st.file_uploader("Your own packs and prices: a CSV file with the columns food, pack_g, price", type=["csv"],
                     key=prices, on_change=priced)  # fmt: skip
    if st.session_state.get(_TROUBLE):
        st.error(st.session_state[_TROUBLE])
    return have


def _head(state: State, plan: Plan, found: Listed) -> None:
    """How far the shopping is, and whether it is done."""
    shopping, number = found.shopping, len(found.shopping.bought)
    st.header("What to buy on top" if found.after_change else "What to buy")
    if found.after_change:
        st.markdown("The plan has changed since its list was bought: here stands what is missing.")
        if found.in_vain:
            st.markdown(f"{plain(api.in_vain_words(found.in_vain))}")
    if not number:
        st.markdown("Nothing has to be bought.")
    basket = sum(1 for line in shopping.bought if name_in_basket(line) in state.ticked)
    st.markdown(f"{basket} of {number} in the basket")
    st.progress(basket / max(1, number))
    if shopping.portion:
        st.caption(f"For {shopping.people}: {plain(shopping.portion)}.")
    if state.bought is None:
        st.button("All of it is bought", on_click=_bought, args=(plan,),
                  help="When the plan changes after that, only what is missing stands here.")  # fmt: skip
    else:
        if state.bought is plan:
            st.markdown("Bought. When the plan changes, only what is missing will stand here.")
        st.button("It is not bought yet", on_click=_bought, args=(None,))


def _bought(plan: Plan | None) -> None:
    desk.change(lambda now: replace(now, bought=plan, ticked=frozenset()))


def _aisles(state: State, shopping: Shopping) -> None:
    for shop, lines in groupby(shopping.bought, key=lambda line: line.shop):
        if len(shopping.shops) > 1:
            st.subheader(f"Shop {shop}, {plain(shopping.shops[shop - 1])}")
        with st.container(key=f"aisles {shop}"):
            for aisle, found in groupby(lines, key=lambda line: line.aisle):
                with st.container(key=f"aisle {shop} {aisle}", gap="xsmall"):
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
    """What it costs, and the list to copy or take along."""
    st.header("To take along")
    words = api.shopping_words(shopping)
    st.markdown(f"**{plain(words.total)}.**")
    text = api.groceries_text(shopping)
    with st.container(horizontal=True):
        st.download_button("List as CSV", api.groceries_csv(shopping), "shopping.csv", "text/csv", on_click="ignore")
        st.download_button("List as plain text", text, "shopping.txt", "text/plain", on_click="ignore")
    with st.expander("Copy the list"):
        st.code(text, language=None, wrap_lines=True)


def _left_over(shopping: Shopping) -> None:
    """What the kitchen is taken to have, and what remains after the last day."""
    words = api.shopping_words(shopping)
    st.header("In the cupboard, and left over")
    for title, said, opened in (
        ("You may need", words.also, True),
        ("Only a little is needed: look at home first", words.little, True),
        ("Taken from what is at home", words.at_home, True),
        ("Left after the last day and does not keep: use it up", words.gone, False),
        ("Left after the last day and keeps", words.kept, False),
        ("Still at home of what was there", words.at_home_left, False),
    ):
        if said and opened:
            st.markdown(f"**{title}:** {plain(said)}.")
        elif said:
            with st.expander(title):
                st.markdown(plain(said) + ".")
    if any(one.keeps for one in shopping.left):
        st.download_button("What remains, for next week's list", api.left_over(shopping), "at-home.txt", "text/plain",
                           on_click="ignore",
                           help="Its lines go into “At home” when the next week is shopped for.")  # fmt: skip
