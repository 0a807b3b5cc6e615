"""The two documents as data: their generated parts, the commands that they show, and how those are run."""

from __future__ import annotations

import ast
import inspect
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from pydantic import BaseModel

from mealopt.documents import fuel, parts, plan
from mealopt.people.reference import case_reference
from mealopt.rules import weights
from mealopt.rules.registry import Family, families
from mealopt.rules.weekly.registry import week_families

ROOT = Path(__file__).parents[2]
README = ROOT / "README.md"
DEVELOPERS = ROOT / "DEVELOPERS.md"

#: Of the plan document, in the order in which the README shows them.
MODELS: tuple[type[BaseModel], ...] = (
    plan.Plan,
    plan.Table,
    plan.PlanDay,
    plan.SkippedMeal,
    plan.Struck,
    plan.SessionEntry,
    fuel.FuelPlan,
    fuel.FuelFluid,
    fuel.FuelSodium,
    fuel.Bottle,
    fuel.Carried,
    fuel.FuelFood,
    fuel.FuelStep,
    plan.Meal,
    plan.Item,
    parts.TargetBand,
    plan.Solve,
    plan.Grocery,
    plan.Week,
    plan.WeekCheck,
    plan.WeekEnergy,
    plan.CookingDay,
    plan.Cooking,
)


#: Commands that solve, or show what was solved.
SOLVERS = ("day", "swap", "replan", "why", "why-not", "week", "groceries", "fuel")


@dataclass(frozen=True, slots=True)
class Shown:
    """A command that a document shows, and what it printed."""

    command: str
    output: str

    @property
    def is_day(self) -> bool:
        """Whether it shows a whole planned day."""
        return "\nHow this plan was found\n" in self.output and re.match(r"mealopt day\b", self.command) is not None

    @property
    def solved(self) -> bool:
        """Whether a solver had a hand in the output, so that only its shape is the same everywhere."""
        refused = "exit code" in self.command
        return (
            not refused and re.search(rf"\bmealopt (?:{'|'.join(SOLVERS)})\b(?![^|]*--help)", self.command) is not None
        )


def fenced(text: str, language: str) -> list[str]:
    """The fenced blocks of one language."""
    return re.findall(rf"^```{language}\n(.*?)^```$", text, re.S | re.M)


def shown(block: str) -> list[Shown]:
    """The commands of a console block with their output."""
    first, *entries = re.split(r"^\$ ", block, flags=re.M)
    assert not first.strip(), f"a console block begins with a command, not {first!r}"
    pairs = (entry.split("\n", 1) for entry in entries)
    return [Shown(command.strip(), output.rstrip("\n")) for command, output in pairs]


def prepare(folder: Path) -> None:
    """A folder in which the documents' commands find what they name: the examples, the foods, the README's scripts."""
    for name in ("examples", "foods"):
        (folder / name).symlink_to(ROOT / name)
    for script in fenced(README.read_text(encoding="utf-8"), "python"):
        name = re.match(r"# (\w+\.py)\n", script)
        if name:
            (folder / name[1]).write_text(script, encoding="utf-8")
    programs = folder / ".bin"
    programs.mkdir()
    for program, words in (("mealopt", "-m mealopt.cli.main"), ("python", "")):
        file = programs / program
        file.write_text(f'#!/bin/sh\nexec "{sys.executable}" {words} "$@"\n', encoding="utf-8")
        file.chmod(0o755)


def run(command: str, folder: Path) -> str:
    """What a command prints in a prepared folder at 80 columns, both streams, as a terminal would show it."""
    environment = {
        **os.environ,
        "PATH": f"{folder / '.bin'}{os.pathsep}{os.environ['PATH']}",
        "PYTHONPATH": str(ROOT),
        "PYTHONUTF8": "1",
        "COLUMNS": "80",
    }
    ended = subprocess.run(
        ["sh", "-c", command],
        cwd=folder, env=environment, text=True, encoding="utf-8",
        stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, timeout=120,
    )  # fmt: skip
    return ended.stdout.rstrip("\n")


def generated(text: str, name: str) -> str:
    """What stands between the markers of a generated part."""
    found = re.search(rf"<!-- {name} -->\n(.*?)<!-- /{name} -->", text, re.S)
    assert found is not None, f"the markers of {name!r} are missing"
    return found[1]


def replaced(text: str, name: str, body: str) -> str:
    """The text with another generated part."""
    generated(text, name)
    return re.sub(
        rf"(<!-- {name} -->\n).*?(<!-- /{name} -->)", lambda found: found[1] + body + found[2], text, flags=re.S
    )


def table(headers: tuple[str, ...], rows: Iterator[tuple[str, ...]]) -> str:
    """A Markdown table."""
    lines = [headers, tuple("---" for _ in headers), *rows]
    return "".join("| " + " | ".join(cell.replace("|", "\\|") for cell in line) + " |\n" for line in lines)


def keys_table() -> str:
    """Every key of the case file, from the models."""
    rows = ((f"`{key}`", kind, range_, default, meaning) for key, kind, range_, default, meaning in case_reference())
    return table(("key", "type", "range", "default (-: none)", "meaning"), rows)


def document_table() -> str:
    """Every part of the plan document with its keys, from the models."""
    return table(
        ("part", "keys", "what it is"),
        (
            (
                model.__name__,
                ", ".join(f"`{info.alias or name}`" for name, info in model.model_fields.items()),
                " ".join(inspect.cleandoc(model.__doc__ or "").split()),
            )
            for model in MODELS
        ),
    )


def file_of(entry: Family) -> str:
    """The file of a family, from the project's folder."""
    return f"{entry.make.__module__.replace('.', '/')}.py"


def families_table() -> str:
    """Every rule family and term of the penalty, from the register."""
    return table(
        ("name", "kind", "may be eased", "file", "what it asks"),
        (
            (
                entry.name,
                "term" if entry.is_term else "family",
                "yes" if entry.relaxable else "-",
                f"`{file_of(entry)}`",
                inspect.cleandoc(entry.make.__doc__ or "").split("\n")[0],
            )
            for entry in families()
        ),
    )


def weekly_table() -> str:
    """Every rule family of the week, from its register."""
    return table(
        ("name", "file", "what it asks"),
        (
            (
                entry.name,
                f"`{entry.make.__module__.replace('.', '/')}.py`",
                inspect.cleandoc(entry.make.__doc__ or "").split("\n")[0],
            )
            for entry in week_families()
        ),
    )


def weights_table() -> str:
    """Every weight of the penalty with its words, from its file."""
    lines = inspect.getsource(weights).splitlines()
    rows: list[tuple[str, str, str]] = []
    for node in ast.parse("\n".join(lines)).body:
        if isinstance(node, ast.Assign | ast.AnnAssign) and node.value is not None:
            target = node.targets[0] if isinstance(node, ast.Assign) else node.target
            rows.append((f"`{ast.unparse(target)}`", f"`{ast.unparse(node.value)}`", _comment(lines, node.lineno)))
    return table(("weight", "value", "meaning"), iter(rows))


def _comment(lines: list[str], number: int) -> str:
    """The words above a line; one that follows straight on another shares them."""
    above = number - 2
    while above >= 0 and lines[above] and not lines[above].startswith("#:"):
        above -= 1
    words: list[str] = []
    while above >= 0 and lines[above].startswith("#:"):
        words.insert(0, lines[above].removeprefix("#:").strip())
        above -= 1
    return " ".join(words)


#: document -> generated part -> what makes it.
GENERATED = {
    README: {"keys": keys_table, "document": document_table},
    DEVELOPERS: {"families": families_table, "weekly": weekly_table, "weights": weights_table},
}
