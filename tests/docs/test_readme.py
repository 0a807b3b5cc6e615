"""The README against the program: its commands are run, its tables made again, what it names is there."""

from __future__ import annotations

import re
import subprocess
import tomllib
from collections.abc import Iterator
from pathlib import Path

import click
import pytest

from mealopt.cli.main import main
from mealopt.cli.program import STOPPED
from mealopt.errors import MealoptError
from mealopt.menu.dishes import shipped_menu
from tests.docs.pages import GENERATED, README, ROOT, Shown, fenced, generated, prepare, run, shown
from tests.docs.shape import faults, headings, shape

TEXT = README.read_text(encoding="utf-8")
SHOWN = [entry for block in fenced(TEXT, "console") for entry in shown(block)]
AGAIN = "if this change is meant: python -m tests.docs.write, and read the difference"
INSTALL, TEST, *_ = (block.strip() for block in fenced(TEXT, "sh"))


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("readme")
    prepare(made)
    return made


@pytest.mark.slow
def test_every_shown_command_prints_what_is_shown(folder: Path) -> None:
    """In the order of the page, for later ones read what earlier ones write."""
    assert len(SHOWN) >= 10
    assert sum(entry.is_day for entry in SHOWN) == 1
    for entry in SHOWN:
        printed = run(entry.command, folder)
        if entry.is_day:
            assert faults(printed) == [], entry.command
            assert shape(printed) == shape(entry.output), f"{entry.command}: {AGAIN}"
        elif entry.solved:
            assert headings(printed) == headings(entry.output), f"{entry.command}: {AGAIN}"
        else:
            assert printed.splitlines() == entry.output.splitlines(), f"{entry.command}: {AGAIN}"


def solved() -> Shown:
    """The one command that shows a planned day."""
    return next(entry for entry in SHOWN if entry.is_day)


def test_the_shown_day_is_whole_and_names_the_engine_that_made_it() -> None:
    day = solved()
    assert faults(day.output) == []
    engine = re.search(r"^(HiGHS [\d.]+), proven within the gap", day.output, re.M)
    assert engine, day.output
    before = TEXT[: TEXT.index(day.command)]
    assert f"with {engine[1]}." in before


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (r"^energy +[\d,]+ kcal", "energy                9,999 kcal"),
        (r"^        = \d.*\n", ""),
        (r"gap\s[\d.e-]+\s%", "gap unknown"),
    ],
)
def test_a_day_that_lacks_something_is_noticed(old: str, new: str) -> None:
    changed = re.sub(old, new, solved().output, count=1, flags=re.M)
    assert changed != solved().output
    assert faults(changed) != []


@pytest.mark.parametrize(
    ("old", "new"),
    [(r"^Cautions$", "Notes"), (r"^\d\d:\d\d 1\.", "04:00 1."), (r"protein( +)(\d+) g  \d+", r"protein\1\2 g  11")],
)
def test_another_shape_is_noticed(old: str, new: str) -> None:
    changed = re.sub(old, new, solved().output, count=1, flags=re.M)
    assert changed != solved().output
    assert shape(changed) != shape(solved().output)


@pytest.mark.parametrize(("page", "name"), [(page, name) for page, made in GENERATED.items() for name in made])
def test_generated_parts_are_up_to_date(page: Path, name: str) -> None:
    written = generated(page.read_text(encoding="utf-8"), name)
    assert written.splitlines() == GENERATED[page][name]().splitlines(), AGAIN


def test_the_job_comes_first_then_the_two_commands() -> None:
    assert re.match(r"# mealopt\n\nAn athlete who [^#`]+?\n\n[^#`]+?\n\n```sh\n", TEXT)
    assert INSTALL.startswith("python3 -m venv .venv && ")
    assert INSTALL.endswith(".venv/bin/mealopt day")
    assert TEST.endswith(".venv/bin/pytest")
    assert "'.[test]'" in TEST


def test_the_ci_runs_the_readme_s_test_command() -> None:
    file = ROOT / ".ci" / "run"
    lines = file.read_text(encoding="utf-8").splitlines()
    assert lines[0] == "#!/usr/bin/env bash"
    assert "set -euo pipefail" in lines
    assert lines[-1] == TEST
    assert file.stat().st_mode & 0o111 == 0o111
    subprocess.run(["bash", "-n", str(file)], check=True)


def _tree(error: type[MealoptError]) -> Iterator[type[MealoptError]]:
    yield error
    for below in error.__subclasses__():
        yield from _tree(below)


def test_exit_codes() -> None:
    listed = {int(code) for code in re.findall(r"^\| (\d+) \| ", TEXT, re.M)}
    assert listed == {0, STOPPED, *(error.exit_code for error in _tree(MealoptError))}


def commands(group: click.Group) -> set[str]:
    return set(group.commands) | {f"{name} {one}" for name in group.commands for one in _below(group.commands[name])}


def _below(command: click.Command) -> set[str]:
    return set(command.commands) if isinstance(command, click.Group) else set()


def test_commands_are_offered_and_what_is_not_yet_is_not() -> None:
    not_yet = TEXT.split("## Not yet")[1].split("\n## ")[0]
    missing = set(re.findall(r"`mealopt ([\w-]+)`", not_yet))
    assert missing & commands(main) == set(), "it is there now: take it out of this list, and say how it is used"
    named = set(re.findall(r"mealopt ((?:foods )?[a-z]+(?:-[a-z]+)*)(?=[ `;])", TEXT.replace(not_yet, "")))
    assert {name for name in named if name in commands(main)} >= {"day", "targets", "foods find", "foods show"}
    assert named - commands(main) - {"works"} == set()


def test_keys_that_change_nothing_are_used_nowhere() -> None:
    line = re.search(r"^- (`.*) in the case file: read and checked, and it changes nothing\.$", TEXT, re.M)
    keys = re.findall(r"`(\w+)`", line[1]) if line else []
    rooms = [path for path in (ROOT / "mealopt").rglob("*.py") if path.parent.name != "people"]
    used = {key for key in keys for path in rooms if f".{key}" in path.read_text(encoding="utf-8")}
    assert used == set(), "it is used now: take it out of this line"


def test_options_are_offered() -> None:
    offered = {
        option
        for command in (main, *main.commands.values())
        for parameter in command.params
        for option in (*parameter.opts, *parameter.secondary_opts)
    }
    named = set(re.findall(r"`(--?[a-z][a-z-]*)", TEXT)) | set(re.findall(r"^\$ mealopt .*?(--[a-z-]+)", TEXT, re.M))
    assert named >= {"--day", "--json", "-o", "--gap", "--seconds", "--solver", "--no-method"}
    assert named - offered == set()


def test_named_files_are_there() -> None:
    named = set(re.findall(r"`((?:\.?\w[\w.-]*/)[\w./-]*|[A-Z]\w+\.md|LICENSE)`", TEXT))
    assert named >= {"foods/SOURCES.md", "DEVELOPERS.md", "LICENSE", "examples/"}
    forms = {"mealopt/case-1", "mealopt/plan-1"}
    assert {name for name in named - forms if not (ROOT / name).exists()} == set()


def _names(lines: list[str]) -> list[str]:
    return [re.split(r"[^\w-]", line)[0] for line in lines]


def test_each_dependency_has_its_line() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    part = TEXT.split("## What it stands on")[1].split("\n## ")[0]
    listed = re.findall(r"^\| ([\w-]+) \| (?!what for)", part, re.M)
    assert listed == _names(project["dependencies"])
    assert [name for name in _names(project["optional-dependencies"]["test"]) if name not in part] == []


def test_there_are_as_many_foods_and_dishes_as_it_says() -> None:
    foods, dishes = re.search(r"More than (\d+) foods of an ordinary shop and (\d+) dishes", TEXT).groups()  # type: ignore[union-attr]
    menu = shipped_menu()
    assert len(menu.pantry.foods) > int(foods)
    assert len(menu.dishes) > int(dishes)


def test_the_cautions_are_there_before_any_number() -> None:
    words = "This is planning help for healthy adults, not medical advice."
    assert words in TEXT
    assert TEXT.index(words) < TEXT.index("## What it does")
    for caution in ("pregnant", "kidney", "diabetes", "missed_periods", "hyponatraemia_before"):
        assert caution in TEXT.split("## What it does")[0]
