"""A small case that can be read, and ways to spoil it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from mealopt.errors import BadInput
from mealopt.people.case import Case
from mealopt.people.reading import case_from_text

BASE = """schema = "mealopt/case-1"
week_of = 2027-03-08

[athlete]
name = "Skerry test athlete"
sex = "female"
age = 31
mass_kg = 68.0
height_cm = 171.0
cautions = []

[goal]
protein_g_per_kg = 1.8

[kitchen]
wake = "06:30"
sleep = "22:30"
never = ["liver",
  "cod"]

[[session]]
day = "tue"
start = "07:30"
minutes = 75
kind = "run"
effort = "hard"

[[session]]
day = "tue"
start = "17:30"
minutes = 60
kind = "lift"
effort = "steady"
"""


def spoil(*changes: tuple[str, str]) -> str:
    """The small case with each first text replaced once by the second."""
    text = BASE
    for old, new in changes:
        assert text.count(old) >= 1, old
        text = text.replace(old, new, 1)
    return text


@pytest.fixture(scope="session")
def base() -> str:
    return BASE


@pytest.fixture
def read() -> Callable[..., Case]:
    """Reads the small case with changes, each (old text, new text)."""
    return lambda *changes: case_from_text(spoil(*changes), "case.toml")


@pytest.fixture
def refused() -> Callable[..., str]:
    """The sentence that refuses the small case with changes, each (old text, new text)."""

    def sentence(*changes: tuple[str, str]) -> str:
        with pytest.raises(BadInput) as caught:
            case_from_text(spoil(*changes), "case.toml")
        return str(caught.value)

    return sentence
