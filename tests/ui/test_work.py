"""Long work: one answer however often it is asked for, stopped where it is asked to, its fault told."""

from __future__ import annotations

import threading
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from mealopt.errors import OutOfTime
from mealopt.ui.keeping import Kept, Shelf
from mealopt.ui.waiting import fall
from mealopt.ui.work import STOPPED, Work, begun


def work(key: str, task: Any) -> Work:
    return Work("Planning.", key, "day", task)


def test_ten_clicks_run_one_task() -> None:
    go, runs = threading.Event(), []

    def task(progress: Any, stop: Any) -> str:
        runs.append(1)
        go.wait(10)
        return "the answer"

    running = None
    seen = []
    for _ in range(10):
        running = begun(running, work("the same", task))
        seen.append(running)
    go.set()
    assert running is not None
    assert running.wait(10)
    assert len({id(one) for one in seen}) == 1
    assert runs == [1]
    assert running.answer == "the answer"


def test_what_is_asked_last_is_what_counts() -> None:
    def task(progress: Any, stop: Any) -> str:
        threading.Event().wait(0.01)
        return "stopped" if stop() else "first"

    first = begun(None, work("a", lambda progress, stop: _until(stop)))
    second = begun(first, work("b", task))
    assert first is not second
    assert first.wait(10)
    assert first.answer == "stopped"
    assert second.wait(10)
    assert second.answer == "first"


def _until(stop: Any) -> str:
    for _ in range(1000):
        if stop():
            return "stopped"
        threading.Event().wait(0.01)
    return "never"


def test_a_fault_is_one_sentence() -> None:
    def late(progress: Any, stop: Any) -> None:
        raise OutOfTime("no plan was found in 1 s")

    def broken(progress: Any, stop: Any) -> None:
        raise ZeroDivisionError("division by zero")

    def by_hand(progress: Any, stop: Any) -> None:
        raise KeyboardInterrupt

    told = []
    for task in (late, broken, by_hand):
        one = begun(None, work("x", task))
        assert one.wait(10)
        told.append(one.complaint)
    assert told[0] == "no plan was found in 1 s"
    assert "fault of the program" in told[1]
    assert told[2] == STOPPED


@pytest.mark.parametrize(
    ("told", "words"),
    [
        ([], ""),
        (["days planned: 1 of 7"], ""),
        (["penalty 5.3, at best 3.6, gap 3.4 %", "penalty 5.1, at best 4.4, gap 1.4 %"], "3.4 % → 1.4 %"),
        (["gap 3.0 %", "gap 3.0 %"], "3.0 %"),
    ],
)
def test_the_gap_is_seen_to_fall(told: list[str], words: str) -> None:
    assert fall(told) == words


def test_the_shelf_keeps_the_newest_and_stops_what_it_lets_go() -> None:
    shelf = Shelf(most=2)
    first = Kept(None)  # type: ignore[arg-type]
    first.work = begun(None, work("x", lambda progress, stop: _until(stop)))
    shelf.put("a", first)
    shelf.put("b", Kept(None))  # type: ignore[arg-type]
    shelf.put("c", Kept(None))  # type: ignore[arg-type]
    assert shelf.find("a") is None
    assert shelf.find("b") is not None
    assert first.work.wait(10)
    assert first.work.answer == "stopped"


def test_work_that_ends_while_the_page_is_drawn_is_answered_by_the_next_drawing() -> None:
    def drawn() -> None:
        import streamlit as st

        from mealopt.ui import desk, waiting

        desk.collect()
        if st.session_state.get("asked") is None:
            st.session_state["asked"] = True
            desk.begin("Planning.", "quick", "day", lambda progress, stop: 1, lambda state, found: state)
            # However quick it is, its answer comes after this drawing took in what had ended.
            work = desk.kept().work
            assert work is not None
            work.wait(10)
        waiting.show("day")
        st.markdown("going on" if desk.kept().work else "taken in")

    page = AppTest.from_function(drawn).run()
    assert not page.exception
    assert [one.value for one in page.error] == []
    assert [one.value for one in page.markdown] == ["taken in"]
