"""No import goes against the table of rooms in DEVELOPERS.md: inside functions and for types too."""

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from importlib import metadata
from pathlib import Path

import pytest

from tests.docs.pages import DEVELOPERS, ROOT, generated

TEXT = DEVELOPERS.read_text(encoding="utf-8")
PACKAGE = ROOT / "mealopt"


@dataclass(frozen=True, slots=True)
class Rooms:
    """may: room -> what it may import (rooms "core/", files "milp/model.py", libraries "click"), its own left out."""

    may: dict[str, frozenset[str]]

    @classmethod
    def read(cls, text: str) -> Rooms:
        """From the page: the table, and the sentence above it about what is open to (nearly) all."""
        rows = [line.strip("| ").split(" | ") for line in generated(text, "rooms").splitlines()[2:]]
        may = {row[0].strip("`"): frozenset(re.findall(r"`([^`]+)`", row[2])) for row in rows}
        every = re.search(r"Every room may import ((?:`[\w.]+`(?: and )?)+)\.", text)
        but = re.search(r"Every room but ([\w, ]+?), which touch no file, may import\s+`(\w+\.py)`", text)
        assert every, "the sentence on what every room may import"
        assert but, "the sentence on what every room but some may import"
        to_all = frozenset(re.findall(r"`([\w.]+)`", every[1]))
        shut = {f"{name}/" for name in re.findall(r"\w+", but[1].replace(" and ", " "))}
        assert shut <= may.keys()
        return cls({room: given | to_all | (set() if room in shut else {but[2]}) for room, given in may.items()})

    def faults(self, file: str, source: str) -> list[str]:
        """What a file imports and may not. file: its path inside the package, "core/bands.py"."""
        room = room_of(file)
        if room not in self.may:
            return [f"{file}: {room} is no room of the table"]
        wrong = []
        for line, module in imported(source, file):
            names = reached(module)
            if names and not names & ({room} | self.may[room]):
                wrong.append(f"{file}:{line}: {room} may not import {module}")
        return wrong


def room_of(file: str) -> str:
    """ "core/" of "core/bands.py"; a file at the top is a room of its own."""
    top, _, below = file.partition("/")
    return f"{top}/" if below else top


def reached(module: str) -> set[str]:
    """The words of the table that would allow this module: its room and its file, or its library."""
    top, *below = module.split(".")
    if top != "mealopt":
        return set() if top in sys.stdlib_module_names else {top}
    if not below:
        return {"__init__.py"}
    path = "/".join(below)
    if (PACKAGE / path).is_dir():
        return {f"{below[0]}/"}
    return {room_of(f"{path}.py"), f"{path}.py"}


def imported(source: str, file: str) -> Iterator[tuple[int, str]]:
    """Line and full name of every module that a source imports, wherever it does."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = _absolute(node, file)
            for alias in node.names:
                yield node.lineno, _deepest(base, alias.name)
        elif isinstance(node, ast.Call) and _name(node.func) in ("import_module", "__import__") and node.args:
            if words := _beginning(node.args[0]):
                yield node.lineno, words.rstrip(".")
            else:
                yield node.lineno, "a_name_that_cannot_be_read"


def _absolute(node: ast.ImportFrom, file: str) -> str:
    if not node.level:
        return node.module or ""
    folders = ["mealopt", *Path(file).parent.parts]
    return ".".join([*folders[: len(folders) - node.level + 1], *filter(None, [node.module])])


def _deepest(base: str, name: str) -> str:
    """The module that `from base import name` reaches: the name's own where that is one."""
    inside = PACKAGE.joinpath(*base.split(".")[1:], name)
    if base.split(".")[0] == "mealopt" and (inside.is_dir() or inside.with_suffix(".py").is_file()):
        return f"{base}.{name}"
    return base


def _name(function: ast.expr) -> str:
    return (
        function.attr if isinstance(function, ast.Attribute) else function.id if isinstance(function, ast.Name) else ""
    )


def _beginning(argument: ast.expr) -> str:
    """The words that a module's name begins with, as far as they stand in the source."""
    if isinstance(argument, ast.JoinedStr) and argument.values:
        argument = argument.values[0]
    return argument.value if isinstance(argument, ast.Constant) and isinstance(argument.value, str) else ""


ROOMS = Rooms.read(TEXT)
FILES = sorted(path.relative_to(PACKAGE).as_posix() for path in PACKAGE.rglob("*.py"))


@pytest.mark.parametrize("file", FILES)
def test_a_file_imports_what_its_room_may(file: str) -> None:
    assert ROOMS.faults(file, (PACKAGE / file).read_text(encoding="utf-8")) == []


def test_every_room_of_the_table_is_there() -> None:
    assert {room for room in ROOMS.may if not (PACKAGE / room).exists()} == set()
    granted = {name for given in ROOMS.may.values() for name in given if name.endswith(("/", ".py"))}
    assert {name for name in granted if not (PACKAGE / name).exists()} == set()


def test_nothing_is_allowed_that_nobody_needs() -> None:
    """A line that allows more than its room imports is an open door."""
    used: dict[str, set[str]] = {room: set() for room in ROOMS.may}
    for file in FILES:
        for _, module in imported((PACKAGE / file).read_text(encoding="utf-8"), file):
            used[room_of(file)] |= reached(module)
    rows = (line.strip("| ").split(" | ") for line in generated(TEXT, "rooms").splitlines()[2:])
    idle = {row[0]: set(re.findall(r"`([^`]+)`", row[2])) - used[row[0].strip("`")] for row in rows}
    assert {room: names for room, names in idle.items() if names} == {}


@pytest.mark.parametrize(
    ("file", "source"),
    [
        ("milp/x.py", "import mealopt.table.pantry"),
        ("milp/x.py", "from mealopt.core.bands import Band"),
        ("milp/x.py", "from mealopt import files"),
        ("milp/x.py", "import pandas as pd"),
        ("rules/x.py", "from mealopt.milp.highs import Highs"),
        ("rules/x.py", "from mealopt.milp import highs"),
        ("rules/x.py", "import mealopt.milp"),
        ("recheck/x.py", "def f():\n    from mealopt.rules import weights"),
        ("recheck/x.py", "from ..milp.model import Row"),
        (
            "targets/x.py",
            "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    from mealopt.menu.dishes import Dish",
        ),
        ("cli/x.py", "from mealopt.table.pantry import Food"),
        ("cli/x.py", "from importlib import import_module\nimport_module('mealopt.plans.day.plan')"),
        ("cli/x.py", "import importlib\nimportlib.import_module(name)"),
        ("plans/x.py", "from mealopt import api"),
        ("plans/day/x.py", "from ...cli import main"),
        ("people/x.py", "try:\n    import requests\nexcept ImportError:\n    pass"),
        ("api/x.py", "import tests"),
        ("cellar/x.py", "import json"),
    ],
)
def test_a_reach_that_is_not_allowed_is_noticed(file: str, source: str) -> None:
    assert len(ROOMS.faults(file, source)) == 1


@pytest.mark.parametrize(
    ("file", "source"),
    [
        ("milp/x.py", "import json\nfrom mealopt.milp import quiet\nfrom . import answer\nimport numpy.linalg"),
        ("rules/x.py", "from mealopt.milp.model import Row\nfrom mealopt.milp import model"),
        ("rules/x.py", "import importlib\nimportlib.import_module(f'mealopt.rules.{name}')"),
        ("cli/x.py", "from mealopt import __version__, api\nfrom mealopt.errors import BadInput"),
        ("plans/week/x.py", "from ..day.plan import plan_one_day\nfrom mealopt.files import read_text"),
    ],
)
def test_a_reach_that_is_allowed_passes(file: str, source: str) -> None:
    assert ROOMS.faults(file, source) == []


def test_libraries_are_declared_or_come_with_one_that_is() -> None:
    declared = {_plain(line) for line in metadata_of_project()}
    brought = {_plain(line) for name in declared for line in metadata.requires(name) or () if "extra ==" not in line}
    used = {name for given in ROOMS.may.values() for name in given if not name.endswith(("/", ".py"))}
    assert {_plain(name) for name in used} <= declared | brought


def metadata_of_project() -> list[str]:
    import tomllib

    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    dependencies: list[str] = project["dependencies"] + project["optional-dependencies"]["page"]
    return dependencies


def _plain(line: str) -> str:
    return re.split(r"[^\w.-]", line)[0].lower().replace("_", "-")
