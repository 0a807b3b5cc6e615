"""A search that is asked to stop ends with its best so far, marked; without one, with KeyboardInterrupt."""

from __future__ import annotations

import threading

import pytest

from mealopt import api


def test_the_best_so_far_is_given_back_and_marked() -> None:
    found: list[str] = []
    plan = api.plan_day(api.read_case(), "tue", gap=0.0, seconds=120, progress=found.append, stop=lambda: bool(found))
    assert plan.solve.status in ("stopped", "optimal")
    assert plan.days[0].meals
    assert "gap" in found[0]


def test_before_the_first_answer_it_says_so() -> None:
    with pytest.raises(KeyboardInterrupt):
        api.plan_day(api.read_case(), "mon", stop=lambda: True)


def test_it_works_in_a_thread_as_in_the_main_one() -> None:
    asked = threading.Event()
    ended: list[BaseException] = []

    def work() -> None:
        try:
            api.plan_day(api.read_case(), "mon", stop=lambda: not asked.set())
        except BaseException as error:
            ended.append(error)

    thread = threading.Thread(target=work)
    thread.start()
    thread.join(60)
    assert asked.is_set()
    assert [type(error) for error in ended] == [KeyboardInterrupt]
