"""Ways to run the command: in this process, as a process of its own, at a terminal; and one planned day to show."""

from __future__ import annotations

import os
import pty
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from mealopt import api
from mealopt.cli.main import main

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))

CASE = """schema = "mealopt/case-1"
week_of = 2027-03-08

[athlete]
name = "Skerry test athlete"
sex = "female"
age = 31
mass_kg = 68.0
height_cm = 171.0
cautions = []

[goal]
protein_g_per_kg = 1.8

[kitchen]
wake = "06:30"
sleep = "22:30"
never = []

[[session]]
day = "tue"
start = "07:30"
minutes = 75
kind = "run"
effort = "hard"
active_kcal = 640

[[session]]
day = "tue"
start = "17:30"
minutes = 60
kind = "lift"
effort = "steady"
"""

Run = Callable[..., Result]


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch) -> Run:
    """Runs the command in this process: run("targets", path, columns=40)."""
    for name in ("NO_COLOR", "FORCE_COLOR", "MEALOPT_TRACE"):
        monkeypatch.delenv(name, raising=False)

    def runs(*arguments: str | Path, columns: int = 80, **environment: str) -> Result:
        env = {"COLUMNS": str(columns), **environment}
        return CliRunner().invoke(main, [str(one) for one in arguments], env=env)

    return runs


@pytest.fixture
def case_file(tmp_path: Path) -> Callable[..., Path]:
    """Writes the small case with changes, each (old text, new text), and gives its path."""

    def write(*changes: tuple[str, str]) -> Path:
        text = CASE
        for old, new in changes:
            assert old in text, old
            text = text.replace(old, new, 1)
        path = tmp_path / "case.toml"
        path.write_text(text, encoding="utf-8")
        return path

    return write


def environment(**more: str) -> dict[str, str]:
    """This process's environment without what would change the looks of the output."""
    kept = {key: value for key, value in os.environ.items() if key not in ("NO_COLOR", "FORCE_COLOR", "MEALOPT_TRACE")}
    return {**kept, "PYTHONPATH": str(ROOT), "COLUMNS": "80", **more}


Process = Callable[..., "subprocess.CompletedProcess[str]"]


@pytest.fixture
def process(tmp_path: Path) -> Process:
    """Runs the command as a process of its own, in an empty folder; `code` is Python to run before it."""

    def runs(*arguments: str | Path, code: str = "", **more: str) -> subprocess.CompletedProcess[str]:
        start = f"{code}\nfrom mealopt.cli.main import main\nmain(prog_name='mealopt')"
        return subprocess.run(
            [sys.executable, "-c", start, *map(str, arguments)],
            cwd=tmp_path, env=environment(**more), capture_output=True, text=True, timeout=120,
        )  # fmt: skip

    return runs


@pytest.fixture
def terminal(tmp_path: Path) -> Callable[..., tuple[int, str, str]]:
    """Runs the command with a terminal for "stdout" or "stderr": exit code, what the terminal and the pipe got."""

    def runs(stream: str, *arguments: str | Path, **more: str) -> tuple[int, str, str]:
        leader, follower = pty.openpty()
        ends = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, stream: follower}
        started = subprocess.Popen(
            [sys.executable, "-m", "mealopt.cli.main", *map(str, arguments)],
            cwd=tmp_path, env=environment(TERM="xterm-256color", **more), stdin=subprocess.DEVNULL, text=True, **ends,
        )  # fmt: skip
        os.close(follower)
        got = "".join(_read(leader))
        out, err = started.communicate(timeout=120)
        return started.returncode, got, (err if stream == "stdout" else out)

    return runs


def _read(leader: int) -> Iterator[str]:
    while True:
        try:
            part = os.read(leader, 65536)
        except OSError:
            # Linux says so when the last writer has closed its end.
            break
        if not part:
            break
        yield part.decode()
    os.close(leader)


@pytest.fixture(scope="session")
def plan() -> api.Plan:
    """The example's Tuesday, a day with windows before both sessions, planned once."""
    return api.plan_day(api.read_case(), "tue", gap=0.2)


@pytest.fixture
def planned(monkeypatch: pytest.MonkeyPatch, plan: api.Plan) -> api.Plan:
    """The same, and what the command gets when it asks for any plan."""
    monkeypatch.setattr(api, "plan_day", lambda *_, **__: plan)
    return plan


def squeezed(text: str) -> str:
    """The text without spaces and line ends: what is left when lines break in other places."""
    return "".join(text.split())
