"""Made-up days of two to four slots, and what a family's rows say of a day that was eaten.

A test writes a day in grams; `holds` and `penalty` fix the columns of what was eaten and leave the family's own columns
free, so that a row means what a person means by it, not how it was written.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from mealopt.core.bands import Band
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FAT, FIBRE, FRUIT_VEGETABLE, PROTEIN, SATURATED
from mealopt.core.slots import RefuelWindow, Slot
from mealopt.menu.dishes import Component, Dish, Ratio
from mealopt.menu.plates import Choice, Part, Plate
from mealopt.milp.answer import Status
from mealopt.milp.highs import Highs
from mealopt.milp.model import Model, Row
from mealopt.rules.problem import OwnLimit, Problem, Wishes
from mealopt.rules.registry import Family, families

#: Round numbers that no food has: nobody can take them for data.
PER_GRAM = {ENERGY: 1.0, PROTEIN: 0.1, CARBOHYDRATE: 0.1, FAT: 0.02, FIBRE: 0.01, SATURATED: 0.005}

#: slot index -> (dish id, food -> grams)
Eaten = Mapping[int, tuple[str, Mapping[str, float]]]


def food(name: str, *counts: str, steps: tuple[int, int] = (1, 20), step: float = 10.0, **changed: Any) -> Choice:
    """A food of the round numbers; nutrients by key, other fields of Choice by name."""
    amounts = PER_GRAM | {key: changed.pop(key) for key in list(changed) if key in PER_GRAM}
    if {"fruit", "vegetable"} & set(counts):
        amounts[FRUIT_VEGETABLE] = 1.0
    own = {"says": name, "kin": name, "settles": "well", "most_day_g": 1000.0} | changed
    return Choice(name=name, per_gram=amounts, counts=frozenset(counts), step_g=step, steps=steps, **own)


def part(role: str, *foods: Choice, pick: tuple[int, int] = (1, 1), grams: tuple[float, float] | None = None) -> Part:
    """A part of a plate; its grams are what its foods allow where none are given."""
    if grams is None:
        most = sorted(one.most_g for one in foods)[-pick[1] :]
        grams = (min(one.least_g for one in foods), sum(most))
    return Part(role, pick, grams, foods)


def plate(
    name: str, *parts: Part, ratio: tuple[Ratio, ...] = (), apart: tuple[tuple[str, ...], ...] = (), **changed: Any
) -> Plate:
    """A plate of a dish of that id; other fields of Dish by name."""
    own: dict[str, Any] = {
        "name": f"made-up {name}",
        "kind": f"kind {name}",
        "kitchen": "made up",
        "slots": ("breakfast", "lunch", "dinner", "snack", "before", "during", "after"),
        "heat": "none",
        "served": "cold",
        "minutes": 5,
        "fridge_days": 0,
        "hours_out": 1.0,
        "energy": (1.0, 5000.0),
        "method": ("Put it on a plate.",),
    }
    components = tuple(
        Component(role=one.role, foods=tuple(choice.name for choice in one.choices), pick=one.pick, grams=one.grams)
        for one in parts
    )
    return Plate(Dish(id=name, component=components, ratio=ratio, apart=apart, **(own | changed)), parts)


def simple(name: str, *counts: str, minutes: int = 5, served: str = "cold", **changed: Any) -> Plate:
    """A plate of one food of the same name."""
    return plate(name, part("all", food(name, *counts, **changed)), minutes=minutes, served=served)


def slot(index: int, kind: str = "snack", **changed: Any) -> Slot:
    """A meal at four-hour steps; a main one where its kind is."""
    own: dict[str, Any] = {"main": kind in ("breakfast", "lunch", "dinner"), "energy_most": 5000.0, "label": kind}
    return Slot(index, kind, 360 + 240 * index, 380 + 240 * index, **(own | changed))


def day(
    slots: tuple[Slot, ...],
    *plates: tuple[Plate, ...],
    bands: dict[str, Band] | None = None,
    refuel: tuple[RefuelWindow, ...] = (),
    own_limits: tuple[OwnLimit, ...] = (),
    **wishes: Any,
) -> Problem:
    """A posed day; one tuple of plates a slot; wishes by name."""
    return Problem(slots, plates, bands or {}, Wishes(**wishes), refuel, own_limits)


def entry(name: str) -> Family:
    """The registered family or term of this name."""
    (found,) = [one for one in families() if one.name == name]
    return found


def rows(problem: Problem, name: str) -> dict[str, Row]:
    """The rows of one family by name."""
    found = list(entry(name).rows(problem))
    assert len({row.name for row in found}) == len(found), "a row's name stands twice"
    return {row.name: row for row in found}


class CannotBeSaid(AssertionError):
    """Grams for which a plate has no columns: a food that is always there left out, or steps beyond its bounds."""


def fixed(problem: Problem, eaten: Eaten) -> dict[int, float]:
    """Columns of plates and foods at what was eaten. Raises CannotBeSaid."""
    values: dict[int, float] = {}
    for serving in problem.all_servings:
        dish, grams = eaten.get(serving.slot.index, ("", {}))
        here = serving.plate.dish.id == dish
        values[serving.served] = float(here)
        for one in serving.foods:
            amount = grams.get(one.choice.name, 0.0) if here else 0.0
            if one.used != serving.served:
                values[one.used] = float(amount > 0)
            elif here and amount == 0:
                raise CannotBeSaid(f"{one.choice.name} is always there")
            steps = amount / one.choice.step_g - one.choice.steps[0] if amount else 0.0
            if abs(steps - round(steps)) > 1e-9 or not 0 <= round(steps) <= one.choice.steps[1] - one.choice.steps[0]:
                raise CannotBeSaid(f"{one.choice.name}: {amount} g")
            if one.more is not None:
                values[one.more] = float(round(steps))
    return values


def least_cost(problem: Problem, name: str, eaten: Eaten) -> float | None:
    """The least that the family charges for what was eaten; None where its rows do not allow it."""
    model = problem.model
    assert not model.rows, "a problem serves for one question"
    for one in dict.fromkeys(("sums", name)):
        model.rows.extend(entry(one).rows(problem))
    held = fixed(problem, eaten)
    copy = Model(
        [held.get(column, least) for column, least in enumerate(model.least)],
        [held.get(column, most) for column, most in enumerate(model.most)],
        [False] * model.columns,
        model.cost,
        model.rows,
    )
    found = Highs(copy).relax()
    assert found.status in (Status.OPTIMAL, Status.INFEASIBLE)
    return found.objective if found.status is Status.OPTIMAL else None


def _fresh(problem: Problem) -> Problem:
    plates = tuple(tuple(serving.plate for serving in options) for options in problem.servings)
    return Problem(problem.slots, plates, problem.bands, problem.wishes, problem.refuel, problem.own_limits)


def holds(problem: Problem, name: str, eaten: Eaten) -> bool:
    """Whether the family allows what was eaten."""
    return least_cost(_fresh(problem), name, eaten) is not None


def penalty(problem: Problem, name: str, eaten: Eaten) -> float:
    """Points that the term charges for what was eaten; a term may never forbid anything."""
    fresh = _fresh(problem)
    cost = least_cost(fresh, name, eaten)
    assert cost is not None, "a term of the penalty forbids what was eaten"
    assert set(fresh.costs) <= {name}, "a term charges under another name"
    assert min(fresh.model.cost) >= 0, "a charge below nought"
    return cost


def with_wishes(problem: Problem, **wishes: Any) -> Problem:
    """The same day with other wishes."""
    fresh = _fresh(problem)
    fresh.wishes = replace(problem.wishes, **wishes)
    return fresh
