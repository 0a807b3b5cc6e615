"""The whole project is clean: lint, layout, types, sizes, and words that may not stand in it."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.docs.pages import ROOT

#: Lines of a file and of a function in mealopt/, from its first line to its last.
FILE_MOST, FUNCTION_MOST = 300, 50

SOURCES = sorted((ROOT / "mealopt").rglob("*.py"))

#: Put together here, so that this file does not hold them.
FORBIDDEN = {
    "a path of some machine": rf"(?<![\w.])/(?:{'|'.join(('work', 'tmp', 'root', 'home', 'Users', 'opt'))})/",
    "a page that is not in the project": rf"(?:{'|'.join(('DES' + 'IGN', 'HAB' + 'ITS'))})\b|{'shared' + '/'}",
    "how it came about": rf"(?i:{'|'.join(('trans' + 'cript', 'seed' + ' doc'))})|\b{'A' + 'I'}\b|\b{'LL' + 'M'}s?\b",
}

TOOLS = (("ruff", "check", "."), ("ruff", "format", "--check", "."), ("mypy",))


@pytest.mark.parametrize("words", TOOLS, ids=" ".join)
def test_tools_find_nothing(words: tuple[str, ...]) -> None:
    ended = subprocess.run([sys.executable, "-m", *words], cwd=ROOT, capture_output=True, text=True)
    assert ended.returncode == 0, ended.stdout + ended.stderr


def long_functions(source: str) -> Iterator[str]:
    """Functions over the limit, by name and length."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            lines = (node.end_lineno or node.lineno) - node.lineno + 1
            if lines > FUNCTION_MOST:
                yield f"{node.name}: {lines} lines"


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_a_file_holds_one_idea(path: Path) -> None:
    source = path.read_text(encoding="utf-8")
    assert len(source.splitlines()) <= FILE_MOST
    assert list(long_functions(source)) == []


def test_a_long_function_is_noticed() -> None:
    body = "    x = 1\n" * FUNCTION_MOST
    assert list(long_functions(f"def f():\n{body}")) == [f"f: {FUNCTION_MOST + 1} lines"]


def ours() -> Iterator[Path]:
    """Every text file of the project; the published table is not ours."""
    folders = ("mealopt", "tests", "foods", "examples", "bench", ".ci")
    for path in (*ROOT.glob("*.*"), ROOT / "LICENSE", *(file for name in folders for file in (ROOT / name).rglob("*"))):
        if (
            path.is_file()
            and path.suffix != ".pyc"
            and path.name not in ("composition.csv", ".git")
            and "results" not in path.parts
        ):
            yield path


def unwanted(text: str) -> list[str]:
    """Lines that hold what may not stand in the project."""
    return [
        f"{number}: {words}: {line.strip()}"
        for number, line in enumerate(text.splitlines(), 1)
        for words, pattern in FORBIDDEN.items()
        if re.search(pattern, line)
    ]


def test_no_word_tells_of_machines_or_of_how_it_came_about() -> None:
    found = {path.relative_to(ROOT).as_posix(): unwanted(path.read_text(encoding="utf-8")) for path in ours()}
    assert len(found) > 100
    assert {name: lines for name, lines in found.items() if lines} == {}


@pytest.mark.parametrize(
    "line", ["see /" + "work/main/x", "DES" + "IGN section 8", "made by A" + "I", "a Trans" + "cript"]
)
def test_an_unwanted_word_is_noticed(line: str) -> None:
    assert len(unwanted(line)) == 1


@pytest.mark.parametrize("line", ["#!/usr/bin/env bash", "tests/work/x", "AIM", "https://x.org/home/", "(/dev/null)"])
def test_an_ordinary_word_passes(line: str) -> None:
    assert unwanted(line) == []
