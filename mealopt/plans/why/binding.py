"""Which limits of a day bind, and what easing each by a little would buy.

The day's dishes and foods are held and their amounts are continuous, so that the day is a linear program. Its duals
only tell which limits to look at: each figure is what easing that limit by the stated step really changes, found by
solving again.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from mealopt.core.clock import on_the_clock
from mealopt.core.nutrients import LABELS
from mealopt.core.words import amount, number
from mealopt.documents.plan import Plan
from mealopt.milp.answer import Relaxation
from mealopt.milp.highs import Highs
from mealopt.milp.model import Row
from mealopt.plans.held.standing import StandingDay, standing_day
from mealopt.rules import plate_limits
from mealopt.rules.problem import Problem
from mealopt.rules.registry import families

#: Unit of a row -> by how much it is eased. What is counted in mg or ug is eased by about a hundredth of its limit.
STEPS = {"kcal": 10.0, "g": 1.0, "min": 1.0, "money": 1.0, "share": 0.1}
SMALL_UNITS = ("mg", "ug", "IU")

#: What a limit buys below this many points is not worth a line.
WORTH = 0.01

#: How far a figure may lie from what the dual says before it holds for less than the whole step.
SAME = 0.01

#: Rules that hold whole things together: easing them by a little means nothing.
NO_AMOUNTS = frozenset({"one plate a meal", "a warm meal", "sums", plate_limits.NAME})

#: What a dual of the engine's own rounding comes to, points per unit.
NOUGHT = 1e-7


@dataclass(frozen=True, slots=True)
class Binding:
    """One limit that binds.

    says: the limit as a sentence. name: of its row. side: "least" or "most"; limit: its value; unit: of both it and
    step. buys: points of the penalty that easing it by one step takes away; up_to: the first part of the step buys
    more than the rest, so that a smaller one does not buy in proportion. penalty: of the day with these dishes and
    foods. may_give: whether the case may ease it; what keeps a meal safe or whole may not. moves: what would change
    most, as (nutrient key, before, after) of the day. words: all of it in a sentence.
    """

    says: str
    name: str
    side: str
    limit: float
    unit: str
    step: float
    buys: float
    up_to: bool
    penalty: float
    may_give: bool
    moves: tuple[tuple[str, float, float], ...]
    words: str


def binding_limits(plan: Plan, day: str | None, folder: Path | None, where: str = "the plan") -> tuple[Binding, ...]:
    """The limits that bind, those that buy most first. Raises BadInput and Refused as `standing_day` does."""
    standing = standing_day(plan, day, folder, where)
    problem = held_problem(standing)
    base = Highs(problem.model).relax()
    if not base.status.solved:
        return ()
    limits = limits_of(standing, problem)
    anew = standing.entry.now is not None
    found = (_bought(problem, base, one, anew=anew) for at, one in limits.items() if abs(base.duals[at]) > NOUGHT)
    return tuple(sorted((one for one in found if one is not None), key=lambda one: -one.buys))


def held_problem(standing: StandingDay) -> Problem:
    """The day with its dishes and foods held, amounts free. What is implied by another row stands once."""
    problem = standing.problem([(meal.held(to_the_gram=False),) for meal in standing.meals])
    problem.model.rows[:] = [row for row in problem.model.rows if row.family != plate_limits.NAME]
    return problem


@dataclass(frozen=True, slots=True)
class Limit:
    """A row that may be eased. number: of the row. step: how much easing it is asked about, in unit; in_row: the same
    in what the row counts. shown: the limit in its unit, None where the row's own side is it."""

    number: int
    says: str
    unit: str
    step: float
    in_row: float
    shown: float | None = None


def limits_of(standing: StandingDay, problem: Problem) -> dict[int, Limit]:
    """Number of a row -> what easing it a little means; the limits of each food and part of a dish among them."""
    terms = {entry.name for entry in families() if entry.is_term}
    parts = _parts(standing, problem)
    found = {}
    for at, row in enumerate(problem.model.rows):
        if row.name in parts:
            says, most, grams = parts[row.name]
            found[at] = Limit(at, says, "g", STEPS["g"], STEPS["g"] / grams, most)
        elif row.says and row.family not in NO_AMOUNTS | terms:
            step = _step(row)
            if step is not None:
                found[at] = Limit(at, _said(row, standing), row.unit, step, step)
    return found


def _parts(standing: StandingDay, problem: Problem) -> dict[str, tuple[str, float, float]]:
    """Name of a row that holds a food or a part of a dish -> sentence, limit in g, grams of a unit of it."""
    found: dict[str, tuple[str, float, float]] = {}
    for serving in problem.all_servings:
        meal = standing.meals[serving.slot.index].meal
        for place, part in enumerate(serving.parts):
            name = f"{serving.plate.dish.id}_{serving.slot.index}_{place}"
            at = f"in {meal.dish} at {on_the_clock(meal.time)}"
            for nth, food in enumerate(part.foods):
                most = food.choice.most_g
                words = f"{food.choice.name} {at}: at most {most:g} g"
                found[f"{name}_steps_{nth}"] = (words, most, food.choice.step_g)
            least, most = part.part.grams
            listed = " and ".join(food.choice.name for food in part.foods)
            found[f"{name}_most"] = (f"{listed} {at}: at most {most:g} g", most, 1.0)
            found[f"{name}_least"] = (f"{listed} {at}: at least {least:g} g", least, 1.0)
    return found


def _said(row: Row, standing: StandingDay) -> str:
    """The row's sentence, with the meal's own words in place of a dish's id."""
    for meal in standing.meals:
        dish_id, _, rest = row.says.partition(":")
        if dish_id == meal.plate.dish.id and row.name.startswith(f"{dish_id}_{meal.index}_"):
            return f"{meal.meal.dish} at {on_the_clock(meal.meal.time)}:{rest}"
    return row.says


def _step(row: Row) -> float | None:
    limit = abs(row.least if row.least is not None else row.most or 0.0)
    if row.unit in SMALL_UNITS:
        return 1.0 if limit < 150 else 10.0 if limit < 1500 else 100.0
    return STEPS.get(row.unit)


def eased(row: Row, side: str, by: float) -> Row:
    """The row with one of its sides eased by so much."""
    if side == "least":
        return replace(row, least=(row.least or 0.0) - by)
    return replace(row, most=(row.most or 0.0) + by)


def value_with(problem: Problem, place: int, row: Row) -> Relaxation:
    """The day solved with another row in this one's place."""
    rows = list(problem.model.rows)
    rows[place] = row
    return Highs(replace(problem.model, rows=rows)).relax()


def _bought(problem: Problem, base: Relaxation, asked: Limit, *, anew: bool = False) -> Binding | None:
    """What easing it buys; None where that is nothing. anew: of a day that was planned anew."""
    row, dual = problem.model.rows[asked.number], base.duals[asked.number]
    # Minimising, a least that binds has a dual above nought, a most one below.
    side = "least" if dual > 0 and row.least is not None else "most"
    limit = row.least if side == "least" else row.most
    if limit is None:
        return None
    after = value_with(problem, asked.number, eased(row, side, asked.in_row))
    buys = base.objective - after.objective
    if not after.status.solved or buys < WORTH:
        return None
    found = Binding(
        says=asked.says,
        name=row.name,
        side=side,
        limit=limit if asked.shown is None else asked.shown,
        unit=asked.unit,
        step=asked.step,
        buys=buys,
        up_to=abs(abs(dual) * asked.in_row - buys) > SAME * buys,
        penalty=base.objective,
        may_give=row.relaxable,
        moves=tuple(_moves(problem, base.values, after.values)),
        words="",
    )
    return replace(found, words=_words(found, row, problem, base, after, anew=anew))


def _moves(problem: Problem, before: list[float], after: list[float]) -> Iterator[tuple[str, float, float]]:
    """The day's totals that move by more than a two-hundredth."""
    for key in problem.bands:
        was, now = (sum(one * values[column] for column, one in problem.day_sum(key)) for values in (before, after))
        if abs(now - was) > 0.005 * max(1.0, abs(was)):
            yield key, was, now


def _words(found: Binding, row: Row, problem: Problem, base: Relaxation, after: Relaxation, *, anew: bool) -> str:
    much = f"{found.step:g} {_unit_words(found.unit)}"
    direction = "less" if found.side == "least" else "more"
    points = f"{'up to ' if found.up_to else ''}{found.buys:.2f} of the day's {found.penalty:.1f} points"
    gained = _gained(problem, base.values, after.values)
    why = f", mostly of {gained}" if gained else ""
    if found.unit == "share":
        much, direction = "a tenth of it", "more"
    sentence = f"{found.says}: {much} {direction} would buy {points}{why}"
    if found.moves:
        moved = [f"{LABELS[key]} {number(was)} to {amount(now, key)}" for key, was, now in found.moves
                 if number(was) != number(now)]  # fmt: skip
        sentence += f" ({', '.join(moved[:3])})" if moved else ""
    if not found.may_give:
        sentence += f"; it stays: {_stays(row, found.side, anew=anew)}"
    return sentence


def _unit_words(unit: str) -> str:
    return {"money": "of money"}.get(unit, unit)


def _stays(row: Row, side: str, *, anew: bool) -> str:
    if row.family == "window before a session":
        return "it keeps the session easy on the gut"
    if row.family == "dish":
        return "without it the dish is another one"
    if row.family == "no repeats":
        return "it keeps one food from filling the day"
    if side == "least":
        return "the meal keeps three quarters of what was planned" if anew else "less would be no meal"
    return "it keeps the meal one that somebody finishes"


def _gained(problem: Problem, before: list[float], after: list[float]) -> str:
    """The term of the penalty that falls most."""
    was, now = problem.shares(before), problem.shares(after)
    falls = {term: was[term] - now.get(term, 0.0) for term in was}
    best = max(falls, key=lambda term: falls[term], default="")
    return best if best and falls[best] > 0 else ""
