"""Ctrl-C for real: another process plans a day, is sent the signal, and what it then shows is looked at."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from mealopt import api
from mealopt.milp.answer import Status
from mealopt.milp.highs import Highs
from mealopt.plans.stopping import stop_by_hand
from tests.milp.conftest import market_split
from tests.plans import table_sums

#: Plans a day to a gap that cannot be proven, and tells of each better answer on its standard output.
PLANS = """
import sys
from mealopt import api
def tell(words):
    print(words, flush=True)
try:
    print("planning", flush=True)
    case = api.read_case("examples/double_day.toml")
    plan = api.plan_day(case, gap=0.0, seconds=120, solver=sys.argv[2], progress=tell)
except KeyboardInterrupt:
    print("nothing yet", flush=True)
    sys.exit(130)
api.write_text(sys.argv[1], api.plan_text(plan))
print(plan.solve.status, flush=True)
"""

posix = pytest.mark.skipif(os.name != "posix", reason="signals are sent as POSIX does")


def interrupted(out: Path, until: str, solver: str = "highs") -> tuple[int, str]:
    """Start the process, send it Ctrl-C once a line begins so, and wait: its exit code and what it printed last."""
    process = subprocess.Popen(
        [sys.executable, "-c", PLANS, str(out), solver], cwd=table_sums.ROOT, stdout=subprocess.PIPE, text=True
    )
    assert process.stdout is not None
    try:
        for line in process.stdout:
            if line.startswith(until):
                process.send_signal(signal.SIGINT)
                break
        rest, _ = process.communicate(timeout=60)
    finally:
        process.kill()
    return process.returncode, rest.strip().rpartition("\n")[2]


@posix
def test_the_best_so_far_is_kept_and_marked(tmp_path: Path) -> None:
    code, last = interrupted(tmp_path / "plan.json", "penalty")
    assert (code, last) == (0, "stopped")
    plan = api.read_plan(tmp_path / "plan.json")
    assert plan.solve.status == "stopped"
    assert plan.solve.seconds < 110
    assert plan.solve.bound is not None
    assert plan.solve.bound <= (plan.solve.objective or 0.0)
    assert api.recheck(plan) == []
    assert json.loads((tmp_path / "plan.json").read_text())["days"][0]["meals"]


@posix
def test_stopped_before_there_is_an_answer_nothing_is_written(tmp_path: Path) -> None:
    code, last = interrupted(tmp_path / "plan.json", "planning")
    assert code == 130 or last == "stopped"
    assert (tmp_path / "plan.json").exists() == (last == "stopped")


def test_the_engine_ends_in_the_midst_of_a_solve() -> None:
    """A program that no engine proves in minutes: once it is told to stop, it asks hardly ever again."""
    asked: list[None] = []

    def stop() -> bool:
        asked.append(None)
        return len(asked) >= 5

    answer = Highs(market_split()[0], stop).solve(gap=0.0, seconds=20.0, gap_absolute=0.0)
    assert answer.status in (Status.LIMIT, Status.NOTHING)
    assert 5 <= len(asked) < 20


@posix
def test_python_handles_the_signal_again_afterwards() -> None:
    before = signal.getsignal(signal.SIGINT)
    with stop_by_hand() as stopped:
        assert not stopped()
        os.kill(os.getpid(), signal.SIGINT)
        assert stopped()
    assert signal.getsignal(signal.SIGINT) is before


def test_elsewhere_than_in_the_main_thread_nothing_changes() -> None:
    before, seen = signal.getsignal(signal.SIGINT), []

    def work() -> None:
        with stop_by_hand() as stopped:
            seen.append(stopped())

    thread = threading.Thread(target=work)
    thread.start()
    thread.join()
    assert seen == [False]
    assert signal.getsignal(signal.SIGINT) is before


@posix
def test_a_handler_of_somebody_else_is_left_alone() -> None:
    calls = []
    before = signal.signal(signal.SIGINT, lambda number, frame: calls.append(number))
    try:
        with stop_by_hand() as stopped:
            os.kill(os.getpid(), signal.SIGINT)
            assert not stopped()
        assert calls == [signal.SIGINT]
    finally:
        signal.signal(signal.SIGINT, before)
