"""Plates that cannot be served by themselves: those that are left out really cannot stand in the day."""

from __future__ import annotations

from dataclasses import replace

from mealopt.milp.answer import Status
from mealopt.milp.highs import Highs
from mealopt.plans.day.servable import OF_A_PLATE, servable
from mealopt.rules.registry import families
from tests.plans.cases import RUN, posed


def test_the_families_of_a_plate_are_families() -> None:
    names = {entry.name for entry in families() if not entry.is_term}
    assert names >= OF_A_PLATE


def test_a_plate_that_is_left_out_has_no_place_in_the_day() -> None:
    """The snack before a run in a slot with tight limits: each plate held in the whole day's own program."""
    day = posed(RUN | {"effort": "hard"}, meals_per_day=3)
    tight = next(slot for slot in day.slots if slot.limits)
    tight_too = replace(tight, energy_least=0.985 * tight.energy_most)
    day = replace(day, slots=tuple(tight_too if slot is tight else slot for slot in day.slots))
    card = day.card()
    card.deal(10)
    problem = day.problem(card)
    options, can = problem.servings[tight.index], servable(problem)
    said = {one.served: can(one.served) for one in options}
    assert set(said.values()) == {False, True}
    engine = Highs(problem.model)
    for column in (column for column, yes in said.items() if not yes):
        engine.set_least(column, 1.0)
        assert engine.solve(gap=1e9, seconds=60.0).status is Status.INFEASIBLE
        engine.set_least(column, 0.0)
