"""The wheel: what is installed from it works by itself, foods and examples with it."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import sysconfig
import zipfile
from pathlib import Path

import pytest

from tests.docs.pages import ROOT

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    words = ["wheel", "-q", "--no-deps", "--no-build-isolation", "--no-index", "-w", str(folder), str(ROOT)]
    ended = subprocess.run([sys.executable, "-m", "pip", *words], capture_output=True, text=True)
    assert ended.returncode == 0, ended.stderr
    (made,) = folder.glob("mealopt-*.whl")
    return made


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder with the programs of an environment of its own; dependencies are those of this one."""
    place = tmp_path_factory.mktemp("fresh") / "environment"
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", str(place)], check=True)
    python = place / "bin" / "python"
    words = ["--python", str(python), "install", "-q", "--no-deps", "--no-index", str(wheel)]
    subprocess.run([sys.executable, "-m", "pip", *words], check=True, capture_output=True)
    found = subprocess.run(
        [python, "-c", "import sysconfig; print(sysconfig.get_path('purelib'))"],
        check=True, capture_output=True, text=True,
    )  # fmt: skip
    here = dict.fromkeys(sysconfig.get_path(name) for name in ("purelib", "platlib"))
    Path(found.stdout.strip(), "dependencies.pth").write_text("\n".join(here) + "\n", encoding="utf-8")
    return python.parent


def run(program: Path, *words: str, folder: Path) -> str:
    """What a program prints far away from the checkout."""
    environment = {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}
    ended = subprocess.run([program, *words], cwd=folder, env=environment, capture_output=True, text=True)
    assert ended.returncode == 0, ended.stderr
    return ended.stdout


def test_it_holds_foods_and_examples_and_no_tests(wheel: Path) -> None:
    names = set(zipfile.ZipFile(wheel).namelist())
    for folder in ("foods", "examples"):
        files = [path for path in (ROOT / folder).rglob("*") if path.is_file()]
        assert files
        assert {f"mealopt/{path.relative_to(ROOT).as_posix()}" for path in files} <= names
    assert "mealopt/documents/plan-1.schema.json" in names
    assert {name.split("/")[0] for name in names} == {"mealopt", wheel.name.rsplit("-", 3)[0] + ".dist-info"}
    assert any(name.endswith("/LICENSE") for name in names)


def test_the_installed_command_shows_a_food(installed: Path, tmp_path: Path) -> None:
    where = run(installed / "python", "-c", "import mealopt; print(mealopt.__file__)", folder=tmp_path)
    assert Path(where.strip()).is_relative_to(installed.parent)
    page = run(installed / "mealopt", "foods", "show", "banana", folder=tmp_path)
    assert page.startswith("banana\nFood table: USDA SR28, row 09040: Bananas, raw\n")


def test_the_installed_command_finds_its_example(installed: Path, tmp_path: Path) -> None:
    found = json.loads(run(installed / "mealopt", "targets", "--json", folder=tmp_path))
    assert found["schema"] == "mealopt/targets-1"
