"""The list for a plan as the page asks for it: what is at home, what is bought already, prices of one's own."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Any

import streamlit as st

from mealopt import api
from mealopt.errors import BadInput

if TYPE_CHECKING:
    from mealopt.api import Left, Plan, Shopping
    from mealopt.ui.state import State

_DONE = "shopping done"


@dataclass(frozen=True, slots=True)
class Listed:
    """What to buy now, and what was bought in vain where the plan changed after its list was bought."""

    shopping: Shopping
    in_vain: tuple[Left, ...] = ()
    after_change: bool = False


def listed_for(plan: Plan, have: dict[str, float], state: State) -> Listed:
    """The list for this plan; worked out again only where something of it changed. Raises BadInput, Refused."""
    asked = (have, state.shops, state.prices, state.bought)
    done: tuple[Any, Any, Listed] | None = st.session_state.get(_DONE)
    if done is not None and done[0] is plan and done[1] == asked:
        return done[2]
    found = _with_prices(plan, have, state)
    st.session_state[_DONE] = (plan, asked, found)
    return found


def _with_prices(plan: Plan, have: dict[str, float], state: State) -> Listed:
    if state.prices is None:
        return _worked_out(plan, have, state, None)
    name, text = state.prices
    with TemporaryDirectory() as folder:
        path = Path(folder) / "prices.csv"
        path.write_text(text, encoding="utf-8")
        try:
            return _worked_out(plan, have, state, path)
        except BadInput as error:
            raise BadInput(str(error).replace(str(path), name)) from None


def _worked_out(plan: Plan, have: dict[str, float], state: State, prices: Path | None) -> Listed:
    bought, folder = state.bought, state.case.folder
    first = plan.days[0]
    if bought is None or bought is plan or (bought.days[0].day, bought.days[0].date) != (first.day, first.date):
        return Listed(api.groceries(plan, have, shops=state.shops, prices=prices, folder=folder))
    after = api.groceries_after(bought, plan, have, shops=state.shops, prices=prices, folder=folder)
    return Listed(after.now, after.in_vain, True)
