"""DEVELOPERS.md against the code: files, families, commands and names that it mentions are there."""

from __future__ import annotations

import re
import tomllib

from mealopt.cli.main import main
from mealopt.rules.registry import families
from tests.docs.pages import DEVELOPERS, ROOT, file_of, generated

TEXT = DEVELOPERS.read_text(encoding="utf-8")

#: A name that stands for many, or one that only somebody else's folder holds.
PLACEHOLDERS = {"tests/rules/test_<name>.py"}


def test_named_files_are_there() -> None:
    page = TEXT.replace(generated(TEXT, "rooms"), "")
    named = set(re.findall(r"`((?:[\w.-]+/)+[\w.<>-]*|[\w-]+\.(?:md|toml|py))`", page)) - PLACEHOLDERS
    assert named >= {"mealopt/rules/weights.py", "tests/golden/", "foods/pantry.csv", "pyproject.toml", ".ci/run"}
    places = (ROOT, ROOT / "mealopt")
    assert {name for name in named if not any((place / name).exists() for place in places)} == set()


def test_each_family_is_listed_with_its_file_and_its_test() -> None:
    part = generated(TEXT, "families")
    listed = re.findall(r"^\| ([^|]+?) \| (?:family|term) \| (?:yes|-) \| `([^`]+)`", part, re.M)
    assert sorted(listed) == sorted((entry.name, file_of(entry)) for entry in families())
    assert all((ROOT / file).is_file() for _, file in listed)


def test_modules_that_are_run_are_there() -> None:
    named = set(re.findall(r"`python -m ([\w.]+)", TEXT))
    assert {"tests.golden.write", "tests.docs.write", "mealopt.documents.schema", "bench", "mealopt"} <= named
    for name in named:
        path = ROOT.joinpath(*name.split("."))
        assert path.with_suffix(".py").is_file() or (path / "__main__.py").is_file(), name


def test_commands_are_there() -> None:
    for words in re.findall(r"`mealopt ([a-z]+(?: [a-z]+)?)", TEXT):
        command, *rest = words.split()
        assert command in main.commands, words
        assert not rest or rest[0] in getattr(main.commands[command], "commands", rest), words


def test_the_suite_runs_as_it_says() -> None:
    options = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["pytest"]["ini_options"]
    assert "-n 2" in options["addopts"]
    assert any(line.startswith("slow:") for line in options["markers"])
    assert '-m "not slow"' in TEXT


def test_names_in_the_code_are_there() -> None:
    """`beyond`, `ALIKE` and the like, each in the file that is named beside it."""
    pairs = re.findall(r"`(\w+)` in `(mealopt/[\w/]+\.py)`", TEXT)
    assert len(pairs) >= 3
    for name, file in pairs:
        assert re.search(rf"^\s*(?:def|class) {name}\b|^{name}\b", (ROOT / file).read_text(encoding="utf-8"), re.M), (
            name
        )
    for name in ("FLOOR", "PLACE"):
        assert f"`{name}`" in generated(TEXT, "weights")


def test_versions_are_those_that_are_asked_for() -> None:
    """What the page says of the engines' oldest versions stands in the requirements."""
    project = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    for name, words in (("highspy", r"HiGHS before (\d+\.\d+\.\d+) gave"), ("pulp", r"PuLP from (\d+\.\d+\.\d+)")):
        found = re.search(words, TEXT)
        assert found is not None, words
        assert f'"{name}>={found[1]},' in project
