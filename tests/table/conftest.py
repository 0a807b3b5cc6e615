"""What the tests of the table share: the shipped pantry, and small files of the same layout."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable
from pathlib import Path

import pytest

from mealopt.table.composition import Composition, shipped_composition
from mealopt.table.files import foods_folder
from mealopt.table.pantry import Food, Pantry, shipped_pantry

Writer = Callable[..., Path]


@pytest.fixture(scope="session")
def table() -> Composition:
    return shipped_composition()


@pytest.fixture(scope="session")
def pantry() -> Pantry:
    return shipped_pantry()


@pytest.fixture
def write_pantry(tmp_path: Path) -> Writer:
    """Writes a pantry of the shipped row of one food, with cells changed by keyword; returns its path."""

    def write(food: str = "rice, white", **changed: str) -> Path:
        with (foods_folder() / "pantry.csv").open(encoding="utf-8", newline="") as file:
            row = next(fields for fields in csv.DictReader(file) if fields["name"] == food)
        out = io.StringIO()
        writer = csv.DictWriter(out, list(Food.model_fields), lineterminator="\n")
        writer.writeheader()
        writer.writerow(row | changed)
        path = tmp_path / "pantry.csv"
        path.write_text(out.getvalue(), encoding="utf-8")
        return path

    return write
