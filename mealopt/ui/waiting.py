"""What is seen while long work goes on: how far it is, and a way to stop it; then its answer, or why there is none."""

from __future__ import annotations

import re
from functools import partial

import streamlit as st

from mealopt.errors import Unplannable
from mealopt.ui import desk
from mealopt.ui.lines import for_health, with_lines
from mealopt.ui.work import Work

#: Seconds between two looks.
EVERY = 0.4
#: How many gaps are shown, the newest last.
SHOWN = 5

_OPTION = re.compile(r"^--[a-z-]+: ")
_GAP = re.compile(r"gap ([\d.]+) %")


def fall(told: list[str]) -> str:
    """How the distance from the best possible fell: "12 % > 3.1 % > 0.8 %"; "" where nothing was told of it."""
    gaps = [found[1] for words in told if (found := _GAP.search(words))]
    kept = [gap for place, gap in enumerate(gaps) if place == 0 or gap != gaps[place - 1]]
    return " → ".join(f"{gap} %" for gap in kept[-SHOWN:])


def show(where: str) -> None:
    """The work that belongs to this part of the page: going on, or ended without an answer."""
    work = desk.kept().work
    if work is None or work.where != where:
        return
    # A short piece is waited for, so that it needs no look back.
    if work.wait(0.05):
        if work.error is None:
            # It ended after this drawing began, which took in what had ended by then: the next one takes its answer.
            st.rerun()
        _trouble(work)
        return
    st.fragment(_watch, run_every=EVERY)(where)


def _watch(where: str) -> None:
    work = desk.kept().work
    if work is None or work.where != where or work.ended:
        st.rerun()
    told = list(work.told)
    with st.container(border=True):
        st.markdown(f"**{work.what}**" + (" Stopping; the best so far is taken." if work.stopping else ""))
        falls = fall(told)
        if falls:
            st.markdown(f"Still away from the best possible: {falls}")
        elif told:
            st.markdown(told[-1])
        elif work.can_stop:
            st.markdown("Looking for a first answer.")
        if work.can_stop:
            st.button("Stop and take the best so far", key=f"stop {where}", on_click=work.stop, disabled=work.stopping)


def _trouble(work: Work) -> None:
    # The word that a command has for the field is left out: the sentence stands beside the field.
    st.error(_OPTION.sub("", work.complaint))
    error = work.error
    if not isinstance(error, Unplannable):
        return
    if error.clashes:
        st.markdown("What clashes:\n\n" + "\n".join(f"- {clash}" for clash in error.clashes))
    if error.remedies:
        st.markdown("The least that must give, as lines for the case file:")
        st.code("\n\n".join(error.remedies), language="toml")
        if not any(for_health(lines) for lines in error.remedies):
            st.button("Put these lines into the case", key=f"ease {work.where}", on_click=_eased,
                      args=(error.remedies,))  # fmt: skip


def _eased(remedies: tuple[str, ...]) -> None:
    for lines in remedies:
        desk.change(partial(with_lines, text=lines))
    desk.kept().work = None
