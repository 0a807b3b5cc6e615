"""Where the program's own food files lie: beside the package in a checkout, inside it when installed."""

from __future__ import annotations

from pathlib import Path

from mealopt.errors import MealoptError


def foods_folder() -> Path:
    """The folder with composition.csv, pantry.csv, dishes/ and prices.csv."""
    package = Path(__file__).resolve().parent.parent
    for folder in (package / "foods", package.parent / "foods"):
        if (folder / "composition.csv").is_file():
            return folder
    raise MealoptError("the food files that ship with the program are missing: install it again")
