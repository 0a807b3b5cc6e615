"""The rest of the day as a program that comes as near to the day's numbers as it can, and then changes little.

Limits that may give are elastic: each per cent off a limit is a unit of harm, some weighing more. What a meal was
planned to hold of protein weighs most of all, so that it gives only where nothing else can.
"""

from __future__ import annotations

import copy
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from mealopt.core.nutrients import ENERGY, PROTEIN
from mealopt.menu.plates import Plate
from mealopt.milp.answer import Answer
from mealopt.milp.effort import SLOWEST, after
from mealopt.milp.highs import Highs
from mealopt.milp.model import Model, Row, Term
from mealopt.milp.stages import solve_in_stages
from mealopt.plans.held.standing import StandingMeal
from mealopt.plans.replan.anew import DayAnew
from mealopt.plans.replan.options import Held, Options
from mealopt.rules import plate_limits
from mealopt.rules.problem import FoodColumn, Problem, Serving
from mealopt.rules.registry import pose

#: Harm of one scale of a row, by what it bounds (project's assumption): energy counts most among the day's numbers.
HARM = {ENERGY: 3.0, PROTEIN: 2.0}
HARM_OTHER, HARM_WISH, HARM_KEPT_PROTEIN = 1.0, 0.3, 2000.0
WISHES = frozenset({"kitchen_minutes", "cost", "whole_food_percent", "added_sugar_percent", "fruit_vegetable_kinds"})

#: Harm below this is the engine's own tolerance. Days that differ by no more than this, or by this share of their harm,
#: are as near as each other: the one that changes less is taken.
NOUGHT, AS_NEAR, AS_NEAR_SHARE = 0.05, 1.5, 0.08

#: What rounding may take of the protein that meals keep, in units of 5 g, and add to the harm of the rest.
KEPT_ROUNDING, HARM_ROUNDING = 0.005, 0.005

#: Points for another dish, another food of a dish, and a gram moved; share of the penalty that counts beside them.
DISH, FOOD, GRAM, PENALTY = 25.0, 5.0, 0.05, 0.1

#: Gaps of harm and of changes, beside these floors: harm to a tenth of a unit, changes to a few grams.
HARM_GAP, HARM_FLOOR, GAP, FLOOR = 0.02, 5.0, 0.02, 10.0


@dataclass(frozen=True, slots=True)
class Near:
    """A posed program. slacks: columns of harm, with the harm of a unit of each."""

    problem: Problem
    model: Model
    slacks: tuple[Term, ...]

    @property
    def groups(self) -> list[list[int]]:
        """One plate a slot."""
        return [[one.served for one in options] for options in self.problem.servings]

    def nearest(self, seconds: float) -> Answer:
        """The least harm, in whole steps. seconds: of work, as everywhere here."""
        clock, ended = SLOWEST * seconds, after(seconds)
        return solve_in_stages(self._harmful(), self.groups, HARM_GAP, HARM_FLOOR, clock, stop=ended)

    def bound(self) -> float:
        """The harm that no day can be under, by the linear program."""
        found = Highs(self._harmful()).relax()
        return found.objective if found.status.solved else 0.0

    def _harmful(self) -> Model:
        """The program whose cost is the harm alone."""
        model = copied(self.model)
        model.cost = [0.0] * model.columns
        for column, harm in self.slacks:
            model.cost[column] = harm
        return model

    def least_changed(self, nearest: Sequence[float], changes: Mapping[int, float], seconds: float) -> Answer:
        """The least changes, then the least penalty, as near as a day that was found. changes: column -> points."""
        model = copied(self.model)
        model.cost = [PENALTY * cost for cost in model.cost]
        for column, points in changes.items():
            model.cost[column] += points
        kept = [(column, 1.0) for column, each in self.slacks if each == HARM_KEPT_PROTEIN]
        others = [(column, each) for column, each in self.slacks if each != HARM_KEPT_PROTEIN]
        # What weighs so much is held by itself: in one sum with the rest, the engine's own rounding would fill it.
        model.rows.append(Row("kept", tuple(kept), most=_sum(kept, nearest) + KEPT_ROUNDING))
        harm = _sum(others, nearest)
        model.rows.append(Row("harm", tuple(others), most=harm + max(HARM_ROUNDING, 0.01 * harm)))
        for column, each in others:
            model.cost[column] += 0.01 * each
        return solve_in_stages(model, self.groups, GAP, FLOOR, SLOWEST * seconds, stop=after(seconds))


def _sum(terms: Sequence[Term], values: Sequence[float]) -> float:
    return sum(each * max(0.0, values[column]) for column, each in terms)


def as_near(harm: float) -> float:
    """The harm up to which a day is as near as one of this harm; where a day meets all, none that does not is."""
    if harm <= NOUGHT:
        return NOUGHT
    return harm + max(AS_NEAR, AS_NEAR_SHARE * harm)


def copied(model: Model) -> Model:
    """The same program, to be changed."""
    return Model(list(model.least), list(model.most), list(model.whole), list(model.cost), list(model.rows))


def pose_near(day: DayAnew, plates: tuple[tuple[Plate, ...], ...], options: Options) -> Near:
    """The program over these plates."""
    posed = day.posed
    wishes = replace(posed.wishes, beyond=posed.wishes.prefer & options.beyond) if posed.wishes.prefer else posed.wishes
    problem = Problem(posed.slots, plates, posed.bands, wishes, posed.refuel, posed.own)
    pose(problem, frozenset({plate_limits.NAME}))
    # A plate's share of what its slot asks for; what may give is no part of it.
    fixed = copy.copy(problem)
    fixed.slots = tuple(replace(one, protein_least=0.0, carbohydrate_least=0.0, carbohydrate_most=None)
                        for one in problem.slots)  # fmt: skip
    problem.model.rows.extend(plate_limits.plate_limits(fixed))
    lift(problem, options.held)
    return _elastic(problem)


def lift(problem: Problem, held: Mapping[int, Held] | Mapping[int, StandingMeal]) -> None:
    """What was eaten and what is planned still may stand together: rules on what comes again let that be, and add
    nothing to it. A supplement's most of a day is not lifted for what is still planned."""
    eaten = [0.0] * problem.model.columns
    for serving in problem.all_servings:
        if serving.slot.given:
            eaten[serving.served] = 1.0
    standing = list(eaten)
    for index, one in held.items():
        for serving in problem.servings[index]:
            if serving.plate.dish.id == one.plate.dish.id:
                _stand(standing, serving, one)
    for number, row in enumerate(problem.model.rows):
        if row.family == "no repeats" and row.most is not None:
            past, both = row.activity(eaten), row.activity(standing)
            if row.name.startswith("dose_"):
                both = past
            elif row.name.startswith("day_"):
                # What is still planned holds no more of it than a day like this one of now may.
                both = min(both, past + row.most)
            problem.model.rows[number] = replace(row, most=max(row.most, both + 1e-6))


def _stand(values: list[float], serving: Serving, held: Held | StandingMeal) -> None:
    """Set the columns of a planned meal as it was planned."""
    values[serving.served] = 1.0
    for part, food in food_columns(serving):
        grams = planned_grams(held, part, food)
        values[food.used] = 1.0 if grams > 0 or food.used == serving.served else 0.0
        if food.more is not None and grams > 0:
            values[food.more] = round(grams / food.choice.step_g) - food.choice.steps[0]


def food_columns(serving: Serving) -> list[tuple[str, FoodColumn]]:
    """The food columns of a plate, each with its role."""
    return [(part.part.role, food) for part in serving.parts for food in part.foods]


def planned_grams(held: Held | StandingMeal, role: str, food: FoodColumn) -> float:
    """Grams of a food in this role of the planned meal; 0 where it is not there."""
    return sum(one.grams for one in held.foods if one.role == role and one.choice.name == food.choice.name)


def _elastic(problem: Problem) -> Near:
    model = copied(problem.model)
    slacks: list[Term] = []
    for number, row in enumerate(problem.model.rows):
        if not row.relaxable:
            continue
        added: list[Term] = []
        for limit, sign in ((row.least, 1.0), (row.most, -1.0)):
            if limit is not None:
                slack = model.column(0.0, None)
                added.append((slack, sign * row.scale))
                slacks.append((slack, _harm(row)))
        model.rows[number] = replace(row, terms=(*row.terms, *added))
    return Near(problem, model, tuple(slacks))


def _harm(row: Row) -> float:
    if row.family == "protein of a meal":
        return HARM_KEPT_PROTEIN
    if row.key in WISHES:
        return HARM_WISH
    return HARM.get(row.key, HARM_OTHER) if row.slot is None else HARM_OTHER


def changes_of(near: Near, held: Mapping[int, Held]) -> dict[int, float]:
    """Points for what differs from the planned meals: columns of the model, some of them new."""
    model, points = near.model, {}
    for index, one in held.items():
        for serving in near.problem.servings[index]:
            if serving.plate.dish.id != one.plate.dish.id:
                points[serving.served] = DISH
                continue
            for role, food in food_columns(serving):
                _food_changes(model, points, serving, food, planned_grams(one, role, food))
    return points


def _food_changes(model: Model, points: dict[int, float], serving: Serving, food: FoodColumn, grams: float) -> None:
    amounts = tuple(food.amounts())
    if grams <= 0:
        points[food.used] = points.get(food.used, 0.0) + FOOD
        return
    if food.used != serving.served:
        gone = model.column(0.0, 1.0)
        points[gone] = FOOD
        model.rows.append(Row(f"gone_{gone}", ((gone, 1.0), (food.used, 1.0), (serving.served, -1.0)), least=0.0))
    moved = model.column(0.0, None)
    points[moved] = GRAM
    model.rows.append(Row(f"less_{moved}", ((moved, 1.0), *amounts, (serving.served, -grams)), least=0.0))
    fewer = tuple((column, -one) for column, one in amounts)
    model.rows.append(Row(f"more_{moved}", ((moved, 1.0), *fewer, (serving.served, grams)), least=0.0))
