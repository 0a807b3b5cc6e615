"""How commands end, by the README's exit codes, and what they leave behind."""

from __future__ import annotations

import json
import signal
import subprocess
import sys
import tomllib
from collections.abc import Callable
from pathlib import Path

import pytest

from mealopt import __version__, api
from mealopt.errors import BrokenPlan, MealoptError, OutOfTime, Refused, Unplannable
from tests.cli.conftest import ROOT, Process, Run, environment

BAND = '[[goal.band]]\nnutrient = "protein_g"\nleast = 143'

#: What the example's day would be planned by, replaced by something that ends otherwise.
STOP_PLANNING = (
    "import os, signal\nfrom mealopt import api\napi.plan_day = lambda *_, **__: os.kill(os.getpid(), signal.SIGINT)\n"
)


def fails_with(monkeypatch: pytest.MonkeyPatch, error: BaseException) -> None:
    def planned(*_: object, **__: object) -> None:
        raise error

    monkeypatch.setattr(api, "plan_day", planned)


@pytest.mark.parametrize(
    ("error", "code"),
    [
        (BrokenPlan("the plan failed its recheck: energy"), 1),
        (Refused("no plan is made: see a doctor or registered dietitian"), 3),
        (OutOfTime("no plan was found in 20 s"), 4),
        (MealoptError("the food files are missing"), 1),
    ],
)
def test_exit_codes_and_the_sentence(run: Run, monkeypatch: pytest.MonkeyPatch, error: MealoptError, code: int) -> None:
    fails_with(monkeypatch, error)
    result = run("day", api.example_case_path())
    assert (result.exit_code, result.stdout, result.stderr) == (code, "", f"mealopt: {error}\n")


def test_what_clashes_is_told_with_lines_for_the_case_file(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    clashes, remedies = ("protein floor 152 g", "vegan with no soy"), (BAND, BAND.replace("143", "140"))
    fails_with(monkeypatch, Unplannable("nothing meets all of the day's rules", clashes, remedies))
    result = run("day", api.example_case_path())
    assert (result.exit_code, result.stdout) == (3, "")
    told, _, lines = result.stderr.partition("as lines for the case file:\n")
    assert "- protein floor 152 g\n- vegan with no soy\n" in told
    assert [band["least"] for band in tomllib.loads(lines)["goal"]["band"]] == [143, 140]


def test_a_fault_of_ours_is_no_fault_of_the_reader(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    fails_with(monkeypatch, ZeroDivisionError("division\nby zero"))
    result = run("day", api.example_case_path())
    assert (result.exit_code, result.stdout) == (1, "")
    assert len(result.stderr.splitlines()) == 1
    assert "fault of the program, not yours (ZeroDivisionError: division by zero)" in result.stderr
    traced = run("day", api.example_case_path(), MEALOPT_TRACE="1")
    assert traced.exit_code == 1
    assert "Traceback" in traced.stderr


def test_stopped_by_hand(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    fails_with(monkeypatch, KeyboardInterrupt())
    result = run("day", api.example_case_path())
    assert (result.exit_code, result.stdout) == (130, "")
    assert "stopped by hand" in result.stderr


def test_an_interrupt_leaves_the_old_file_whole(process: Process, tmp_path: Path) -> None:
    """130 is 128 and the number of the signal, as POSIX shells report it."""
    (tmp_path / "plan.json").write_text("old", encoding="utf-8")
    done = process("day", "-o", "plan.json", code=STOP_PLANNING)
    assert done.returncode == 128 + signal.SIGINT
    assert "Traceback" not in done.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["plan.json"]
    assert (tmp_path / "plan.json").read_text(encoding="utf-8") == "old"


def test_the_best_so_far_is_shown_written_and_marked(
    run: Run, plan: api.Plan, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    data = json.loads(api.plan_text(plan))
    data["solve"]["status"] = data["days"][0]["solve"]["status"] = "stopped"
    stopped = type(plan).model_validate(data)
    monkeypatch.setattr(api, "plan_day", lambda *_, **__: stopped)
    result = run("day", "-o", tmp_path / "plan.json")
    assert result.exit_code == 130
    assert "stopped by hand: the best so far" in " ".join(result.stdout.split())
    assert api.read_plan(tmp_path / "plan.json").solve.status == "stopped"


def test_options_reach_the_planner(run: Run, plan: api.Plan, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: dict[str, object] = {}

    def planned(case: api.Case, day: str | None, **options: object) -> api.Plan:
        asked.update(options, day=day, name=case.athlete.name)
        return plan

    monkeypatch.setattr(api, "plan_day", planned)
    run("day", "--day", "thu", "--gap", "0.05", "--seconds", "3", "--solver", "cbc")
    assert {key: asked[key] for key in ("day", "gap", "seconds", "solver", "name")} == {
        "day": "thu", "gap": 0.05, "seconds": 3.0, "solver": "cbc", "name": "Skerry demo athlete",
    }  # fmt: skip
    run("day")
    assert (asked["day"], asked["gap"], asked["solver"]) == (None, 0.01, "highs")


@pytest.mark.parametrize("arguments", [("targets",), ("foods", "check", "--json"), ("--help",)], ids=" ".join)
def test_a_reader_that_leaves_is_no_error(tmp_path: Path, arguments: tuple[str, ...]) -> None:
    started = subprocess.Popen(
        [sys.executable, "-m", "mealopt.cli.main", *arguments],
        cwd=tmp_path, env=environment(), stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    assert started.stdout is not None
    assert started.stderr is not None
    started.stdout.close()
    said = started.stderr.read()
    started.stderr.close()
    assert (started.wait(timeout=60), said) == (0, "")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="only Linux has a device that is always full")
@pytest.mark.parametrize("arguments", [("targets",), ("targets", "--json"), ("--help",), ("foods", "show", "egg")])
def test_a_full_disk_is_one_sentence(arguments: tuple[str, ...]) -> None:
    with Path("/dev/full").open("w", encoding="utf-8") as full:
        done = subprocess.run(
            [sys.executable, "-m", "mealopt.cli.main", *arguments],
            env=environment(), stdout=full, stderr=subprocess.PIPE, text=True, timeout=60,
        )  # fmt: skip
    assert done.returncode == 2
    assert "standard output: cannot be written (No space left on device)" in done.stderr
    assert "Traceback" not in done.stderr
    assert "Exception ignored" not in done.stderr


def test_plain_where_the_encoding_is_ascii(process: Process, case_file: Callable[..., Path]) -> None:
    name = "Sk\xe6rhavn Zo\xeb \xbd \u6771"
    path = case_file(("Skerry test athlete", name))
    page = process("targets", path, PYTHONIOENCODING="ascii")
    assert page.returncode == 0, page.stderr
    assert page.stdout.isascii()
    assert page.stdout.startswith("Sk?rhavn Zoe ? ?: targets")
    document = process("targets", path, "--json", PYTHONIOENCODING="ascii")
    assert document.stdout.isascii()
    assert json.loads(document.stdout)["case"]["athlete"]["name"] == name


def test_coloured_on_a_terminal_and_plain_elsewhere(terminal: Callable[..., tuple[int, str, str]]) -> None:
    code, shown, _ = terminal("stdout", "targets")
    assert code == 0
    assert "\x1b[33m" in shown
    _, plain, _ = terminal("stdout", "targets", NO_COLOR="1")
    assert "\x1b[3" not in plain
    assert "\x1b[1m" in plain
    _, _, piped = terminal("stderr", "targets")
    assert "\x1b" not in piped


def test_progress_goes_to_a_terminal_s_standard_error_only(
    terminal: Callable[..., tuple[int, str, str]], process: Process
) -> None:
    code, shown, piped = terminal("stderr", "day", api.example_case_path(), "--gap", "0.2")
    assert code == 0
    assert "penalty" in shown
    assert shown.endswith(" \r")
    assert "\r" not in piped
    assert process("day", api.example_case_path(), "--gap", "0.2").stderr == ""


@pytest.mark.parametrize("width", [80, 40])
def test_help_names_what_there_is_and_carries_the_caution(run: Run, width: int) -> None:
    for arguments in (("--help",), (), ("day", "--help"), ("targets", "--help"), ("foods", "--help"), ("foods",)):
        result = run(*arguments, columns=width)
        assert result.exit_code == 0
        assert "not medical advice" in " ".join(result.stdout.split())
        assert max(len(line) for line in result.stdout.splitlines()) <= width
        assert "..." not in result.stdout.replace("[ARGS]...", "").replace("WORDS...", "")


def test_only_what_works_is_offered(run: Run) -> None:
    offered = run("--help").stdout.partition("Commands:")[2].partition("\n\n")[0]
    assert [line.split()[0] for line in offered.strip().splitlines()] == [
        "app", "day", "foods", "fuel", "groceries", "replan", "swap", "targets", "week", "why", "why-not",
    ]  # fmt: skip


def test_the_version_and_the_entry_point() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert project["scripts"]["mealopt"] == "mealopt.cli.main:main"
    done = subprocess.run(
        [sys.executable, "-m", "mealopt.cli.main", "--version"],
        env=environment(), capture_output=True, text=True, timeout=60,
    )  # fmt: skip
    assert done.stdout == f"mealopt {__version__}\n"
    assert project["version"] == __version__
