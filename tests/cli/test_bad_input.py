"""Whatever cannot be used ends with code 2 (code 3 where safety forbids), one sentence, and nothing half written."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result

from mealopt import api
from tests.cli.conftest import CASE, Process, Run

CaseFile = Callable[..., Path]


def one_sentence(result: Result, code: int = 2) -> str:
    assert result.exit_code == code, result.stderr
    assert result.stdout == ""
    lines = result.stderr.splitlines()
    assert len(lines) == 1, lines
    assert lines[0].startswith("mealopt: ")
    assert "Traceback" not in lines[0]
    return lines[0]


SPOILT = {
    "broken TOML": (("mass_kg = 68.0", "mass_kg = = 68.0"), "line 8"),
    "a key that does not exist": (("mass_kg", "mass_kgs"), 'did you mean "mass_kg"'),
    "a wrong type": (("mass_kg = 68.0", 'mass_kg = "68"'), "mass_kg"),
    "a mass in grams": (("mass_kg = 68.0", "mass_kg = 68000"), "grams"),
    "a mass in pounds": (("mass_kg = 68.0", "mass_kg = 305.0"), "pounds"),
    "overlapping sessions": (("17:30", "08:00"), "session"),
    "a session past midnight": (("17:30", "23:50"), "session"),
    "a day that is none": (('day = "tue"', 'day = "tuesday"'), "day"),
    "energy that no day can burn": (("active_kcal = 640", "active_kcal = 19000"), "19000"),
    "kilojoules": (("active_kcal = 640", "active_kcal = 64000"), "kilojoules"),
    "another schema": (("mealopt/case-1", "mealopt/case-9"), "mealopt/case-1"),
}


@pytest.mark.parametrize("command", ["targets", "day"])
@pytest.mark.parametrize("name", SPOILT)
def test_a_spoilt_case(run: Run, case_file: CaseFile, name: str, command: str) -> None:
    change, says = SPOILT[name]
    path = case_file(change)
    sentence = one_sentence(run(command, path))
    assert str(path) in sentence or "session" in sentence
    assert says in sentence


def test_a_food_that_no_pantry_holds(run: Run, case_file: CaseFile) -> None:
    path = case_file(("never = []", 'never = ["unicorn steak"]'))
    assert "unicorn steak" in one_sentence(run("day", path))


@pytest.mark.parametrize("command", ["targets", "day"])
def test_files_that_are_no_case(run: Run, tmp_path: Path, command: str) -> None:
    empty, latin, large = tmp_path / "empty.toml", tmp_path / "latin.toml", tmp_path / "large.toml"
    empty.touch()
    latin.write_bytes(CASE.replace("Skerry", "Sk\xe9rry").encode("latin-1"))
    with large.open("wb") as file:
        file.truncate(100_000_000)
    assert "no such file" in one_sentence(run(command, tmp_path / "none.toml"))
    assert "empty" in one_sentence(run(command, empty))
    assert "folder" in one_sentence(run(command, tmp_path))
    assert "100.0 MB" in one_sentence(run(command, large))
    assert "UTF-8" in one_sentence(run(command, latin))
    assert "file" in one_sentence(run(command, "x" * 5000))


@pytest.mark.skipif(not Path("/proc/self/mem").exists(), reason="only Linux has a file that nobody can read")
def test_an_unreadable_file(run: Run) -> None:
    assert "cannot be read" in one_sentence(run("targets", "/proc/self/mem"))


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="the superuser may read any file")
def test_a_file_without_permission(run: Run, case_file: CaseFile) -> None:
    path = case_file()
    path.chmod(0)
    assert "cannot be read" in one_sentence(run("targets", path))


USAGE = [
    ("--frob",),
    ("frob",),
    ("day", "--frob"),
    ("day", "--gap", "nan"),
    ("day", "--gap", "-1"),
    ("day", "--gap", "much"),
    ("day", "--seconds", "0"),
    ("day", "--seconds", "inf"),
    ("day", "--solver", "abacus"),
    ("day", "--day", "toosday"),
    ("day", "one.toml", "two.toml"),
    ("targets", "--day"),
    ("foods", "find"),
    ("foods", "show"),
    ("foods", "import"),
    ("foods", "frob"),
    ("weeks",),
]


@pytest.mark.parametrize("arguments", USAGE, ids=" ".join)
def test_wrong_usage(run: Run, arguments: tuple[str, ...]) -> None:
    assert "--help" in one_sentence(run(*arguments))


@pytest.fixture
def no_planning(monkeypatch: pytest.MonkeyPatch) -> None:
    def planned(*_: object, **__: object) -> None:
        raise AssertionError("the long work began before the path was tried")

    monkeypatch.setattr(api, "plan_day", planned)


@pytest.mark.usefixtures("no_planning")
def test_paths_that_cannot_be_written_are_refused_before_the_work(
    run: Run, case_file: CaseFile, tmp_path: Path
) -> None:
    case = case_file()
    protected, link = tmp_path / "protected.json", tmp_path / "link.json"
    protected.write_text("kept", encoding="utf-8")
    protected.chmod(0o444)
    link.symlink_to(case)
    before = sorted(tmp_path.iterdir())
    for path, says in (
        (tmp_path, "folder"),
        (f"{tmp_path}/new/", "folder"),
        (tmp_path / "none" / "plan.json", "no folder"),
        (case / "plan.json", "no folder"),
        (protected, "write-protected"),
        ("/dev/null", "not a plain file"),
        (tmp_path / ("x" * 300), "too long"),
        ("", "nothing"),
        (case, "file that is read"),
        (link, "file that is read"),
    ):
        assert says in one_sentence(run("day", case, "-o", path)), path
    assert sorted(tmp_path.iterdir()) == before
    assert protected.read_text(encoding="utf-8") == "kept"
    assert case.read_text(encoding="utf-8") == CASE


REFUSED = {
    "under 18": ("age = 31", "age = 17"),
    **{
        word: ("cautions = []", f'cautions = ["{word}"]')
        for word in ("pregnant", "breastfeeding", "kidney", "eating_disorder_now")
    },
}


@pytest.mark.parametrize(
    "arguments", [("targets",), ("targets", "--json"), ("day",), ("day", "--json", "-o", "x.json")]
)
@pytest.mark.parametrize("name", REFUSED)
def test_safety_refuses_before_any_number(
    run: Run,
    case_file: CaseFile,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    name: str,
    arguments: tuple[str, ...],
) -> None:
    monkeypatch.chdir(tmp_path)
    sentence = one_sentence(run(*arguments, case_file(REFUSED[name])), code=3)
    assert "doctor or registered dietitian" in sentence
    assert "kcal" not in sentence
    assert not (tmp_path / "x.json").exists()


def test_a_real_process_says_one_sentence_too(process: Process, case_file: CaseFile) -> None:
    done = process("day", case_file(SPOILT["a mass in grams"][0]))
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.startswith("mealopt: ")
    assert len(done.stderr.splitlines()) == 1


def test_names_that_steer_a_terminal_are_made_harmless(run: Run, case_file: CaseFile) -> None:
    assert "\x1b" not in one_sentence(run("targets", "\x1b[31mred\x07.toml"))
    shown = run("targets", case_file(('"Skerry test athlete"', '"\\u001b[31mred\\u202e\\u0007"')))
    assert shown.exit_code == 0
    assert not {"\x1b", "\x07", "\u202e"} & set(shown.stdout)
