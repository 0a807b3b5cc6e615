"""The least that may give in a day of these meals: by the linear program first, then in whole plates and steps."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from dataclasses import dataclass, replace

from mealopt.errors import BadInput, Refused
from mealopt.menu.plates import Plate
from mealopt.milp.answer import Status
from mealopt.milp.effort import spent
from mealopt.milp.elastic import NOUGHT, Give, LinearRelief, Reach, find_clash, least_relaxation, linear_relaxation
from mealopt.milp.highs import Highs
from mealopt.milp.model import Model
from mealopt.plans.day.eased import Ease, Line, case_with, lines_for, reach
from mealopt.plans.day.pose import PosedDay, pose_day
from mealopt.rules import plate_limits
from mealopt.rules.problem import Problem
from mealopt.rules.registry import families, pose
from mealopt.rules.whole_food import counted_share

#: Plates a slot that the whole-number search chooses among: in all, and the least for one slot.
PLATES, PLATES_LEAST = 60, 5

#: More plates a slot than there are.
ALL = 1_000_000

#: Shares of the time that is left: for the whole-number search, and for what clashes.
SEARCH, CLASH = 0.3, 0.5

#: The search ends at this share of the least harm: what a remedy's rounding outward makes of it anyway.
SEARCH_GAP = 0.05

#: A limit that gives less than this share of one unit of harm is left alone where the margins of the others make up.
TRIFLE = 0.1

#: Seconds of work for one plate a slot: it is small.
SECONDS_HELD = 2.0


def loosened(posed: PosedDay) -> PosedDay:
    """The day with the least energy of what is eaten in sessions left to its least carbohydrate, which may give."""
    slots = tuple(replace(slot, energy_least=0.0) if slot.kind == "during" else slot for slot in posed.slots)
    return replace(posed, slots=slots)


def all_plates(posed: PosedDay) -> tuple[tuple[Plate, ...], ...]:
    """For each slot, every plate that fits it."""
    card = posed.card()
    card.deal(ALL)
    return card.plates


def posed_problem(posed: PosedDay, plates: tuple[tuple[Plate, ...], ...]) -> Problem:
    """The day's rules without its penalty, in which the limits that may give stand once."""
    terms = frozenset(entry.name for entry in families() if entry.is_term)
    problem = Problem(posed.slots, plates, posed.bands, posed.wishes, posed.refuel, posed.own)
    pose(problem, terms | {plate_limits.NAME})
    # A plate's share of what its slot asks for keeps the linear program tight; what may give is no part of it.
    fixed = copy.copy(problem)
    fixed.slots = tuple(
        replace(slot, protein_least=0.0, carbohydrate_least=0.0, carbohydrate_most=None) for slot in problem.slots
    )
    problem.model.rows.extend(plate_limits.plate_limits(fixed))
    return problem


def relaxable(model: Model) -> list[int]:
    """The numbers of the rows that may give."""
    return [number for number, row in enumerate(model.rows) if row.relaxable]


def reaches(posed: PosedDay, model: Model) -> Reach:
    """How far safety lets each of these rows give."""
    found = {}
    for number in relaxable(model):
        row = model.rows[number]
        for side, limit in (("least", row.least), ("most", row.most)):
            if limit is not None and row.slot is None:
                most = reach(posed, row.key, side, limit)
                if most is not None:
                    found[number, side] = most
    return found


def hopeless(posed: PosedDay) -> bool:
    """Whether the linear program over every dish that fits proves that no plan meets the day's rules."""
    problem = posed_problem(posed, all_plates(posed))
    return Highs(problem.model).relax().status is Status.INFEASIBLE


def begun(posed: PosedDay, end: float) -> Search | None:
    """The search once the linear program is solved; None where nothing that may give helps. end: of work, as
    `milp.effort.spent` counts it."""
    free = loosened(posed)
    plates = all_plates(free)
    problem = posed_problem(free, plates)
    linear = linear_relaxation(problem.model, relaxable(problem.model), reaches(posed, problem.model))
    if linear is None:
        return None
    return Search(posed, free, problem, linear, end)


def leaned_on(problem: Problem, linear: LinearRelief, places: int) -> tuple[tuple[Plate, ...], ...]:
    """So many plates of each slot: those that the linear program leans on, and those that it would take next."""
    values, reduced = linear.values, linear.reduced_costs
    chosen = []
    for options in problem.servings:
        order = sorted(
            range(len(options)),
            key=lambda place: (-values[options[place].served], reduced[options[place].served], place),
        )
        chosen.append(tuple(options[place].plate for place in sorted(order[:places])))
    return tuple(chosen)


@dataclass(slots=True)
class Search:
    """From the linear program's answer to whole plates. dishes: what is served in each slot, once that is known."""

    posed: PosedDay
    free: PosedDay
    problem: Problem
    linear: LinearRelief
    end: float
    dishes: tuple[str, ...] = ()

    def left(self) -> float:
        """Seconds of work that are left, never less than a blink."""
        return max(0.1, self.end - spent())

    def whole(self) -> tuple[Ease, ...] | None:
        """What must give in whole plates and steps; the linear program's where time ends first; None for no help."""
        names = [row.name for row in self.problem.model.rows]
        given = {give.name for give in self.linear.gives}
        weighing = given | {names[number] for number in self.linear.weighing}
        few = max(PLATES_LEAST, PLATES // len(self.posed.slots))
        ended = False
        # Few limits first: where those that the linear program eases are enough, no others need to be touched.
        for may_give, places in ((given, few), (weighing, few), (None, few), (None, 3 * few), (None, ALL)):
            if may_give is not None and not may_give:
                continue
            fewer = leaned_on(self.problem, self.linear, places)
            problem = posed_problem(self.free, fewer)
            rows = [n for n in relaxable(problem.model) if may_give is None or problem.model.rows[n].name in may_give]
            reached = reaches(self.posed, problem.model)
            named = [] if may_give is None else [[one.served for one in options] for options in problem.servings]
            found = least_relaxation(problem.model, rows, SEARCH * self.left(), SEARCH_GAP, reached, named)
            if found is not None and found.values:
                served = [one for options in problem.servings for one in options if found.values[one.served] > 0.5]
                self.dishes = tuple(one.plate.dish.id for one in served)
                return tuple(eases_of(problem, found.gives, found.values, reached))
            ended = found is not None
        reached = reaches(self.posed, self.problem.model)
        return tuple(eases_of(self.problem, self.linear.gives, self.linear.values, reached)) if ended else None

    def clashes(self, eases: tuple[Ease, ...]) -> tuple[str, ...]:
        """Sentences of the rows that clash by the linear program, and of all that give."""
        model, weighing = self.problem.model, self.linear.weighing if self.linear.total > NOUGHT else ()
        clash = [model.rows[number] for number in sorted(weighing)]
        if len(weighing) > 2 and self.left() > 1.0:
            rows = [row for number, row in enumerate(model.rows) if not row.relaxable or number in weighing]
            only = replace(model, rows=rows, whole=[False] * model.columns)
            found = find_clash(only, relaxable(only), CLASH * self.left())
            clash = [rows[number] for number in found.rows] or clash
        return tuple(dict.fromkeys((*(row.says for row in clash), *self.said(eases))))

    def said(self, eases: tuple[Ease, ...]) -> tuple[str, ...]:
        """Sentences of the rows that give."""
        gives = {(ease.key, ease.slot, ease.side) for ease in eases}
        return tuple(
            row.says
            for row in self.problem.model.rows
            if row.relaxable and (row.key, row.slot, "most" if row.least is None else "least") in gives
        )

    def without_trifles(self, eases: tuple[Ease, ...]) -> tuple[Ease, ...]:
        """The limits that give more than a trifle, where a day can be made of the same dishes with those alone."""
        few = tuple(ease for ease in eases if not ease.trifle)
        return few if few and self._served(lines_for(self.posed, few)) else eases

    def _served(self, lines: tuple[Line, ...]) -> bool:
        """Whether the dishes that were found make a day with these bands."""
        try:
            posed = pose_day(case_with(self.posed.case, lines), self.posed.day)
        except (Refused, BadInput):
            return False
        plates = tuple(
            tuple(plate for plate in fitting if plate.dish.id == dish)
            for fitting, dish in zip(all_plates(posed), self.dishes, strict=False)
        )
        if len(plates) < len(posed.slots) or not all(plates):
            return False
        return Highs(posed_problem(posed, plates).model).solve(effort=SECONDS_HELD).status.solved


def eases_of(problem: Problem, gives: tuple[Give, ...], values: list[float], reached: Reach) -> Iterator[Ease]:
    """What these rows give, in the units of the case file's bands."""
    for give in gives:
        row = problem.model.rows[give.row]
        trifle = give.by < TRIFLE * row.scale
        limit, by = (row.least if give.side == "least" else row.most) or 0.0, give.by
        side = give.side
        if row.key in ("whole_food_percent", "added_sugar_percent"):
            share = problem.wishes.whole_food_share if side == "least" else problem.wishes.added_sugar_share
            found = counted_share(problem, row.key.removesuffix("_percent"), values)
            limit, by = 100.0 * share, 100.0 * abs(share - found)
        yield Ease(row.key, row.slot, side, limit, by, reached.get((give.row, side)), trifle)
