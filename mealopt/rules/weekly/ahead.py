"""Meals from an earlier day's pot: the same dish with the same foods, cooked once."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from mealopt.milp.model import Row, Term
from mealopt.rules import weights
from mealopt.rules.problem import Problem, Serving
from mealopt.rules.weekly.pose import WEEK

#: Minutes that a meal from an earlier day's pot still takes: to warm it, or to pack it (common practice, no source).
WARMING = 5


@dataclass(frozen=True, slots=True)
class Pot:
    """A meal of another day that one of this day could share a pot with.

    foods: pantry names, cooking salt left out. slots: kinds of this day's meals that could. later: this day's meal
    would be the one that is eaten from the pot, so that its minutes are saved; otherwise it would be the one cooked.
    must: it has to be shared, for the other day is not in time without it.
    """

    dish: str
    foods: frozenset[str]
    slots: frozenset[str]
    later: bool
    must: bool = False


def potable(problem: Problem, keeps: Iterable[str], slots: frozenset[str]) -> Iterator[Serving]:
    """Plates that might come from an earlier day's pot: their dish keeps, and their slot is one of these kinds."""
    names = set(keeps)
    return (
        serving
        for serving in problem.all_servings
        if serving.slot.kind in slots and serving.slot.settled is None and serving.plate.dish.id in names
    )


def free_minutes(problem: Problem, servings: Iterable[Serving]) -> None:
    """Let these plates take no more than `WARMING` minutes of the day's: the day as it is with any pot it may want."""
    saved = {serving.served: _saved(serving) for serving in servings}
    rows = problem.model.rows
    for place, row in enumerate(rows):
        if row.name == "minutes":
            terms = tuple((column, minutes - saved.get(column, 0.0)) for column, minutes in row.terms)
            rows[place] = _with_terms(row, terms)


def pose_priced_pots(problem: Problem, servings: Iterable[Serving], charges: Mapping[str, float]) -> dict[int, str]:
    """Let these plates come from an earlier day's pot for a charge by dish, which is none of the day's own penalty.

    Returns the pots' columns with their dishes.
    """
    terms: list[Term] = []
    pots: dict[int, str] = {}
    for serving in servings:
        charge = charges.get(serving.plate.dish.id, float("inf"))
        if charge < float("inf") and _saved(serving) > 0:
            pot = problem.model.column(0.0, 1.0, whole=True, cost=charge)
            problem.never_split.append(pot)
            pots[pot] = serving.plate.dish.id
            name = f"pot_{serving.slot.index}_{serving.plate.dish.id}"
            problem.model.rows.append(Row(name, ((pot, 1.0), (serving.served, -1.0)), most=0.0))
            terms.append((pot, -_saved(serving)))
    rows = problem.model.rows
    for place, row in enumerate(rows):
        if row.name == "minutes":
            rows[place] = _with_terms(row, (*row.terms, *terms))
    return pots


def pose_pots(problem: Problem, pots: Sequence[Pot], need: float) -> None:
    """Let the day share these pots; charge what then lacks of so many meals from a pot (shape: two rows a food).

    A pot that must be shared and that no plate of the day could be makes the day's rows clash.
    """
    shared: list[Term] = []
    saved: list[Term] = []
    for number, pot in enumerate(pots):
        before = len(shared)
        for serving in problem.all_servings:
            if serving.plate.dish.id == pot.dish and serving.slot.kind in pot.slots:
                column = problem.model.column(0.0, 1.0, whole=True)
                problem.model.rows.extend(_same(serving, pot, column, f"pot_{number}_{serving.slot.index}"))
                shared.append((column, 1.0))
                if pot.later:
                    saved.append((column, -_saved(serving)))
        if pot.must:
            here = tuple(shared[before:]) or ((problem.model.column(0.0, 0.0), 1.0),)
            problem.model.rows.append(Row(f"pot_{number}_must", here, least=1.0))
    if saved:
        rows = problem.model.rows
        for place, row in enumerate(rows):
            if row.name == "minutes":
                rows[place] = _with_terms(row, (*row.terms, *saved))
    if need > 0:
        short = problem.cost_column(WEEK, weights.WEEK_AHEAD)
        problem.model.rows.append(Row("week_pots", (*shared, (short, 1.0)), least=need))


def _same(serving: Serving, pot: Pot, column: int, name: str) -> Iterator[Row]:
    """1 only where the plate is served with just the pot's foods."""
    yield Row(f"{name}_served", ((column, 1.0), (serving.served, -1.0)), most=0.0)
    offered = {food.choice.name for food in serving.foods}
    if not pot.foods <= offered:
        yield Row(f"{name}_lacks", ((column, 1.0),), most=0.0)
        return
    for place, food in enumerate(serving.foods):
        if food.choice.name in pot.foods:
            yield Row(f"{name}_{place}", ((column, 1.0), (food.used, -1.0)), most=0.0)
        else:
            yield Row(f"{name}_{place}", ((column, 1.0), (food.used, 1.0)), most=1.0)
    # One earlier meal is one pot: a dish has one slot in a day, so no further row is needed.


def _saved(serving: Serving) -> float:
    return float(max(0, serving.plate.dish.minutes - WARMING))


def _with_terms(row: Row, terms: tuple[Term, ...]) -> Row:
    return replace(row, terms=terms)
