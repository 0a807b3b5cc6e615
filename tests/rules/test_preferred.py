"""What the eater likes."""

from __future__ import annotations

from typing import Any

import pytest

from mealopt.rules import weights
from tests.rules import tiny

COVERS = "preferred and avoided"
MEALS: tiny.Eaten = {0: ("bowl", {"oats": 40.0}), 1: ("bowl", {"rice": 40.0})}


def charged(eaten: tiny.Eaten = MEALS, **wishes: Any) -> float:
    bowl = tiny.plate("bowl", tiny.part("base", tiny.food("oats"), tiny.food("rice")))
    problem = tiny.day((tiny.slot(0), tiny.slot(1)), (bowl, tiny.simple("soup")), (bowl, tiny.simple("soup")))
    return tiny.penalty(tiny.with_wishes(problem, **wishes), COVERS, eaten)


def test_less_costs_each_time_that_it_is_served() -> None:
    assert charged() == 0.0
    assert charged(less=frozenset({"oats"})) == pytest.approx(weights.LESS)
    assert charged(less=frozenset({"bowl"})) == pytest.approx(2 * weights.LESS)
    assert charged(less=frozenset({"soup"})) == 0.0


def test_prefer_costs_where_it_is_nowhere() -> None:
    assert charged(prefer=frozenset({"oats"})) == pytest.approx(0.0, abs=1e-6)
    assert charged(prefer=frozenset({"soup"})) == pytest.approx(weights.PREFER)
    both = {0: ("bowl", {"oats": 40.0}), 1: ("soup", {"soup": 10.0})}
    assert charged(both, prefer=frozenset({"rice", "soup", "oats"})) == pytest.approx(weights.PREFER)


def test_what_no_plate_holds_costs_nothing() -> None:
    """A preferred food that the day has no room for must not move the penalty's nought."""
    assert charged(prefer=frozenset({"caviar"}), less=frozenset({"truffle"})) == 0.0


def test_what_only_plates_beyond_the_card_hold_is_missed() -> None:
    """Else a short card would look better than a long one, and its bound would not cover all dishes."""
    assert charged(prefer=frozenset({"caviar"}), beyond=frozenset({"caviar"})) == pytest.approx(weights.PREFER)
