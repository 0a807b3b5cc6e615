"""What would follow if a food or a dish were in a planned day, or what it clashes with."""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from mealopt.core.clock import on_the_clock
from mealopt.documents.plan import Plan
from mealopt.menu.plates import Plate
from mealopt.milp.answer import Answer, Status
from mealopt.milp.elastic import least_relaxation
from mealopt.milp.model import Row
from mealopt.milp.stages import solve_in_stages
from mealopt.plans.day.document import plan_day_entry, solve_entry
from mealopt.plans.day.explain import at_slot, in_a_row
from mealopt.plans.day.found import SolvedDay
from mealopt.plans.day.least import eases_of, posed_problem, reaches, relaxable
from mealopt.plans.held.standing import StandingDay, standing_day
from mealopt.plans.swap.told import MealChange, changes
from mealopt.plans.swap.written import same_items
from mealopt.plans.why.asked import AskedFor, asked_for, kept_out, plates_with
from mealopt.rules import weights
from mealopt.rules.problem import Problem

#: How near the best the day with it is proven; seconds for the elastic answer where nothing fits.
GAP, ELASTIC = 0.02, 4.0

#: Other dishes that a meal may have where the planned ones leave no room.
OTHERS = 8

#: The last level that is looked at though one before it has a day, and the points that it must be better by.
FREE_AMOUNTS, PAYS = 1, 1.0

#: Points that a term must differ by to be told, and how many are.
TOLD, TERMS = 0.1, 3

Options = Sequence[Sequence[Plate]]


@dataclass(frozen=True, slots=True)
class WhyNot:
    """What would follow if it were in.

    name: what was asked about; foods: the pantry's foods or the id of the dish that it means. standing: numbers of the
    meals that hold it already. possible: whether a day with it meets every limit; None where the time ended first.
    penalty_before, penalty_after: points of the plan and of the day with it; terms: (term, before, after) of those that
    differ most. changes: meals that would be others. plan: the document with it in. clashes: what keeps it out. words:
    all of it in sentences.
    """

    name: str
    foods: tuple[str, ...]
    standing: tuple[int, ...]
    possible: bool | None
    penalty_before: float
    penalty_after: float | None
    terms: tuple[tuple[str, float, float], ...]
    changes: tuple[MealChange, ...]
    plan: Plan | None
    clashes: tuple[str, ...]
    words: tuple[str, ...]


def why_not_in(
    plan: Plan, name: str, day: str | None, folder: Path | None, seconds: float = 8.0, where: str = "the plan"
) -> WhyNot:
    """What would follow if it were in the day. Raises BadInput and Refused as `standing_day` does."""
    standing = standing_day(plan, day, folder, where)
    asked = asked_for(name, standing)
    before = sum(standing.entry.penalty.values())
    blank = WhyNot(
        name=asked.words,
        foods=asked.dishes or asked.foods,
        standing=tuple(one.meal.number for one in standing.meals if asked.in_meal(one.meal.dish_id, one.names)),
        possible=None,
        penalty_before=round(before, 2),
        penalty_after=None,
        terms=(),
        changes=(),
        plan=None,
        clashes=(),
        words=(),
    )
    if blank.standing:
        meals = in_a_row([str(number) for number in blank.standing])
        said = f"{asked.words} is in already: meal{'s' if len(blank.standing) > 1 else ''} {meals}"
        return replace(blank, possible=True, penalty_after=blank.penalty_before, plan=plan, words=(said,))
    suiting = plates_with(asked, standing)
    if not suiting:
        why = kept_out(asked, standing)
        return replace(blank, possible=False, clashes=why, words=(f"{asked.words} cannot be in this day", *why))
    return _sought(standing, asked, suiting, blank, seconds)


def _sought(
    standing: StandingDay, asked: AskedFor, suiting: dict[int, tuple[Plate, ...]], blank: WhyNot, seconds: float
) -> WhyNot:
    """The fewest changes first, as long as a wider level does not pay for its changes."""
    start = time.perf_counter()
    best: WhyNot | None = None
    status = Status.NOTHING
    for level, options in enumerate(_levels(standing, suiting)):
        left = seconds - (time.perf_counter() - start)
        if left <= 0 or (best is not None and level > FREE_AMOUNTS):
            break
        problem = standing.problem(options)
        _insist(problem, asked)
        groups = [[one.served for one in servings] for servings in problem.servings]
        answer = solve_in_stages(problem.model, groups, GAP, weights.FLOOR, left, decisive=problem.decisive())
        status = answer.status
        if answer.values:
            found = _would_follow(standing, problem, answer, blank)
            best = found if best is None or _pays(found, best) else best
    if best is not None:
        return best
    if status is Status.INFEASIBLE:
        return _clashing(standing, asked, suiting, blank)
    return replace(blank, words=(f"in {seconds:g} s no day with {asked.words} was found, nor that there is none",))


def _pays(found: WhyNot, best: WhyNot) -> bool:
    """Whether a day with more changes is nearer the ideal by enough."""
    return (found.penalty_after or 0.0) < (best.penalty_after or 0.0) - PAYS


def _levels(standing: StandingDay, suiting: dict[int, tuple[Plate, ...]]) -> list[Options]:
    """The plates of each slot, the fewest changes first: the other meals to the gram, with their foods, with their
    dishes, and with any of the day's card."""
    meals = standing.meals
    card = standing.posed.card()
    card.deal(OTHERS)
    others = [
        (meal.plate, *plates) if standing.posed.slots[meal.index].settled is None else (meal.plate,)
        for meal, plates in zip(meals, card.plates, strict=True)
    ]
    kept: list[Options] = [
        [(meal.held(),) for meal in meals],
        [(meal.held(to_the_gram=False),) for meal in meals],
        [(meal.plate,) for meal in meals],
        others,
    ]
    return [[_each_dish_once((*suiting.get(index, ()), *plates)) for index, plates in enumerate(one)] for one in kept]


def _each_dish_once(plates: Sequence[Plate]) -> list[Plate]:
    """The plates, but for a dish that stands there already: what was asked for leaves its dish open."""
    found: dict[str, Plate] = {}
    for plate in plates:
        found.setdefault(plate.dish.id, plate)
    return list(found.values())


def _insist(problem: Problem, asked: AskedFor) -> None:
    """What was asked for is in some meal (shape: one row)."""
    if asked.dishes:
        columns = [one.served for one in problem.all_servings if one.plate.dish.id in asked.dishes]
    else:
        columns = [food.used for food in problem.foods() if food.choice.name in asked.foods]
    terms = tuple((column, 1.0) for column in dict.fromkeys(columns))
    problem.model.rows.append(Row("asked_for", terms, least=1.0, says=f"{asked.words} is in the day"))


def _would_follow(standing: StandingDay, problem: Problem, answer: Answer, blank: WhyNot) -> WhyNot:
    shares, was = problem.shares(answer.values), standing.entry.penalty
    after = sum(shares.values())
    differ = [(term, was.get(term, 0.0), points) for term, points in shares.items()]
    differ = [one for one in differ if abs(one[2] - one[1]) >= TOLD]
    terms = tuple(sorted(differ, key=lambda one: one[1] - one[2])[:TERMS])
    plan = _with_it(standing, problem, replace(answer, objective=after), blank.name)
    entry = next(one for one in plan.days if one.day == standing.entry.day)
    found = replace(
        blank,
        possible=True,
        penalty_after=round(after, 2),
        terms=tuple((term, round(one, 2), round(two, 2)) for term, one, two in terms),
        changes=changes(standing.entry, entry),
        plan=plan,
    )
    return replace(found, words=_words(found))


def _with_it(standing: StandingDay, problem: Problem, answer: Answer, name: str) -> Plan:
    """The plan with the day that was found; its meals keep their numbers."""
    model, before = problem.model, standing.entry
    solve = solve_entry(answer, len(model.rows), model.columns, answer.seconds)
    solve = solve.model_copy(update={"says": f"{name} insisted on", "bound": None, "gap": None})
    entry = plan_day_entry(SolvedDay(standing.posed, problem, answer, answer.seconds), solve)
    meals = tuple(
        old.meal
        if new.dish_id == old.meal.dish_id and same_items(new, old.meal)
        else new.model_copy(update={"number": old.meal.number})
        for new, old in zip(entry.meals, standing.meals, strict=True)
    )
    entry = entry.model_copy(update={"meals": meals, "skipped": before.skipped, "struck": before.struck})
    days = tuple(entry if one.day == entry.day else one for one in standing.plan.days)
    update: dict[str, object] = {"days": days}
    if standing.plan.kind == "day":
        update["solve"] = solve
    return standing.plan.model_copy(update=update)


def _words(found: WhyNot) -> tuple[str, ...]:
    after = found.penalty_after or 0.0
    more = after - found.penalty_before
    words = [f"{found.name} could be in, and every limit would hold"]
    if more > TOLD:
        words.append(
            f"the day would then be {more:.1f} points further from ideal: {found.penalty_before:.1f} to {after:.1f}"
        )
    else:
        words.append(f"the day would be as good: {found.penalty_before:.1f} points now, {after:.1f} with it")
    worse = [f"{term} {two - one:+.1f}" for term, one, two in found.terms if two - one > TOLD]
    if worse and more > TOLD:
        words.append(f"what it costs most: {', '.join(worse)}")
    others = [change for change in found.changes if change.dish_before != change.dish_after]
    words += [
        f"meal {one.number} at {on_the_clock(one.time)}: {one.dish_after or 'nothing'} in place of {one.dish_before}"
        for one in others
    ]
    same = [str(change.number) for change in found.changes if change not in others]
    if same:
        words.append(f"other foods or amounts in meal{'s' if len(same) > 1 else ''} {in_a_row(same)}, of the same dish")
    return tuple(words)


def _clashing(standing: StandingDay, asked: AskedFor, suiting: dict[int, tuple[Plate, ...]], blank: WhyNot) -> WhyNot:
    """What gives, at the least, for it to be in: the limits that it clashes with."""
    options = tuple(tuple(plates) for plates in _levels(standing, suiting)[-1])
    problem = posed_problem(standing.posed, options)
    _insist(problem, asked)
    reached = reaches(standing.posed, problem.model)
    groups = [[one.served for one in servings] for servings in problem.servings]
    rows = relaxable(problem.model)
    least = least_relaxation(problem.model, rows, ELASTIC, 0.05, reached, groups)
    if least is None or not least.values:
        said = "the meals' sizes, their windows before sessions and what may come again in a day leave it no room"
        return replace(blank, possible=False, clashes=(said,), words=(f"{asked.words} cannot be in this day", said))
    slots = standing.posed.slots
    limits = tuple(dict.fromkeys(problem.model.rows[give.row].says for give in least.gives))
    eases = eases_of(problem, least.gives, least.values, reached)
    gives = [ease.missing(at_slot(None if ease.slot is None else slots[ease.slot])) for ease in eases]
    clash = f"{asked.words} clashes with: {in_a_row(limits)}" if limits else f"{asked.words} cannot be in this day"
    words = [clash, *([f"at the least that must give: {in_a_row(gives)}"] if gives else [])]
    return replace(blank, possible=False, clashes=limits, words=tuple(words))
