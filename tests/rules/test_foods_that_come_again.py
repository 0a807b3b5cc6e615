"""Foods of one kin in several meals."""

from __future__ import annotations

import pytest

from mealopt.rules import weights
from tests.rules import tiny

COVERS = "foods that come again"


def charged(*meals: str) -> float:
    """Points for these foods, one a meal; the last meal is in a session."""
    foods = (tiny.food("basmati", kin="rice"), tiny.food("paella", kin="rice"), tiny.food("egg"),
             tiny.food("salt", "salt"))  # fmt: skip
    bowl = tiny.plate("bowl", tiny.part("base", *foods))
    slots = tuple(tiny.slot(index, "during" if index == 3 else "snack") for index in range(4))
    eaten = {index: ("bowl", {name: 10.0}) for index, name in enumerate(meals)}
    return tiny.penalty(tiny.day(slots, *[(bowl,)] * 4), COVERS, eaten)


@pytest.mark.parametrize(
    ("meals", "again"),
    [
        (("basmati", "egg", "salt", "salt"), 0),
        (("basmati", "paella", "egg", "egg"), 1),
        (("basmati", "basmati", "paella", "egg"), 2),
        (("basmati", "basmati", "egg", "basmati"), 1),
        (("salt", "salt", "salt", "egg"), 0),
        (("egg", "salt", "basmati", "egg"), 0),
    ],
)
def test_each_meal_beyond_the_first(meals: tuple[str, ...], again: int) -> None:
    """Seasonings and what is eaten in a session are left out."""
    assert charged(*meals) == pytest.approx(again * weights.REPEAT, abs=1e-6)
