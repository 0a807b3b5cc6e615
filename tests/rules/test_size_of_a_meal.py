"""How much one meal may be: energy and weight, of the slot and of the plate's own range."""

from __future__ import annotations

import pytest

from mealopt.core.nutrients import ENERGY
from mealopt.rules.meal_energy import MAIN_MOST_G, OTHER_MOST_G
from tests.rules import tiny

COVERS = "size of a meal"


@pytest.mark.parametrize(("grams", "ok"), [(190, False), (200, True), (400, True), (410, False)])
def test_energy_of_a_slot(grams: float, ok: bool) -> None:
    slot = tiny.slot(0, energy_least=200.0, energy_most=400.0)
    problem = tiny.day((slot,), (tiny.simple("a", steps=(1, 100)),))
    assert tiny.holds(problem, COVERS, {0: ("a", {"a": grams})}) == ok


@pytest.mark.parametrize(("kind", "most"), [("dinner", MAIN_MOST_G), ("snack", OTHER_MOST_G), ("during", None)])
def test_weight_of_a_meal(kind: str, most: float | None) -> None:
    """What is drunk in a session is not weighed."""
    problem = tiny.day((tiny.slot(0, kind),), (tiny.simple("a", steps=(1, 200)),))
    limit = most or 2000.0
    assert tiny.holds(problem, COVERS, {0: ("a", {"a": limit})})
    if most is not None:
        assert not tiny.holds(problem, COVERS, {0: ("a", {"a": limit + 10})})


@pytest.mark.parametrize(("grams", "ok"), [(90, False), (100, True), (150, True), (160, False)])
def test_energy_of_a_plate_within_its_dish(grams: float, ok: bool) -> None:
    """2 kcal a gram; the dish holds 200 to 300 kcal, though slot and foods would allow more and less."""
    made = tiny.plate("a", tiny.part("all", tiny.food("a", steps=(1, 40), **{ENERGY: 2.0})), energy=(200.0, 300.0))
    problem = tiny.day((tiny.slot(0),), (made, tiny.simple("b", steps=(1, 40))))
    assert tiny.holds(problem, COVERS, {0: ("a", {"a": grams})}) == ok
    assert tiny.holds(problem, COVERS, {0: ("b", {"b": grams})}), "the other plate has a range of its own"


def test_the_plates_energy_adds_up_its_parts() -> None:
    made = tiny.plate(
        "a",
        tiny.part("one", tiny.food("rice", steps=(5, 20))),
        tiny.part("two", tiny.food("oil", **{ENERGY: 9.0}), pick=(0, 1)),
        energy=(150.0, 250.0),
    )
    problem = tiny.day((tiny.slot(0),), (made,))
    assert tiny.holds(problem, COVERS, {0: ("a", {"rice": 150})})
    assert tiny.holds(problem, COVERS, {0: ("a", {"rice": 150, "oil": 10})})
    assert not tiny.holds(problem, COVERS, {0: ("a", {"rice": 140})})
    assert not tiny.holds(problem, COVERS, {0: ("a", {"rice": 150, "oil": 20})})
