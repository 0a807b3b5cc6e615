"""Another good day, unlike those given; and several days to choose from, each near the best."""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from mealopt.documents.plan import Plan, PlanDay
from mealopt.errors import OutOfTime
from mealopt.people.case import Case
from mealopt.plans.day.document import day_plan
from mealopt.plans.day.explain import explained
from mealopt.plans.day.found import NothingFits, SolvedDay
from mealopt.plans.day.plan import plan_one_day
from mealopt.plans.day.pose import PosedDay, pose_day
from mealopt.plans.day.solve import Progress, solve_posed
from mealopt.plans.own import own_table
from mealopt.plans.stopping import stop_by_hand
from mealopt.recheck.check import assert_plan
from mealopt.rules import weights
from mealopt.rules.problem import Problem

#: Points, for the search alone, of a dish that stands in a day given: more than the penalty of most days, so that
#: dishes come again only where nothing else fits. Another dish of the same kind costs this share of it.
SAME_DISH, SAME_KIND = 30.0, 0.1

#: The same for days to choose from, one after the other until the day lies near enough to the best: the dearer a dish
#: that comes again, the more unlike the days, and the further from the best.
DEARER = (1.5, 1.0, 0.7, 0.5, 0.35, 0.2)

#: The gap of such a search: a quarter of a point, beside the floor.
CHOICE_GAP = 0.005

#: The term under which the search charges them; no document has it.
TERM = "like days given"

#: How far above the best a choice may lie, as a share of the larger of the best and the floor, as every gap is.
CHOICE_SHARE = 0.05


def plan_unlike(
    case: Case,
    day: str,
    plans: Sequence[Plan],
    *,
    gap: float,
    seconds: float,
    progress: Progress | None = None,
    each: float = SAME_DISH,
) -> Plan:
    """The day of a case, with as few dishes as can be that stand in these plans, then at the lowest penalty.

    each: points of a dish that comes again. Raises as planning does.
    """
    posed = pose_day(case, day)
    given = [entry for plan in plans for entry in plan.days]
    unlike = replace(posed, also=_charge(posed, given, each))
    with stop_by_hand() as stopped:
        solved = solve_posed(unlike, gap, seconds, progress=progress, stop=stopped)
    if isinstance(solved, NothingFits):
        raise explained(NothingFits(posed, solved.empty), seconds)
    plan = day_plan(_own_penalty(solved, posed))
    menu = posed.larder.menu
    assert_plan(plan, menu.pantry.composition, menu.pantry, own_table(menu))
    return plan


def plan_choices(
    case: Case, day: str, count: int, *, gap: float, seconds: float, progress: Progress | None = None
) -> tuple[Plan, ...]:
    """So many days, the best first, each within 5 % of the best as gaps are measured, and unlike those before it.

    Fewer where no more are within that, or in the time. seconds: of each. Raises as planning does.
    """
    best = plan_one_day(case, day, gap=gap, seconds=seconds, solver="highs", progress=progress)
    found = [best]
    while len(found) < count:
        another = _another(case, day, found, seconds, progress)
        if another is None:
            break
        found.append(another)
    return tuple(found)


def near_enough(plan: Plan, best: Plan) -> bool:
    """Whether a day's penalty lies within 5 % of the best's, or of the floor where that is more."""
    value, least = plan.solve.objective or 0.0, best.solve.objective or 0.0
    return value - least <= CHOICE_SHARE * max(least, weights.FLOOR)


def _another(case: Case, day: str, found: list[Plan], seconds: float, progress: Progress | None) -> Plan | None:
    end = time.perf_counter() + seconds
    for each in DEARER:
        left = end - time.perf_counter()
        if left <= 0:
            return None
        try:
            plan = plan_unlike(case, day, found, gap=CHOICE_GAP, seconds=left, progress=progress, each=each)
        except OutOfTime:
            return None
        new = all(dishes_of(plan.days[0]) != dishes_of(one.days[0]) for one in found)
        if new and near_enough(plan, found[0]):
            return plan
    return None


def dishes_of(entry: PlanDay) -> Mapping[str, int]:
    """Dish -> in how many meals of the day it is served, what is eaten in sessions and settled meals left out."""
    return Counter(meal.dish_id for meal in entry.meals if meal.dish_id is not None and meal.slot != "during")


def _charge(posed: PosedDay, given: Sequence[PlanDay], each: float) -> Callable[[Problem], None]:
    """What charges dishes, and dishes of kinds, that stand in days given."""
    times: Counter[str] = Counter()
    kinds: Counter[str] = Counter()
    for entry in given:
        for dish_id, served in dishes_of(entry).items():
            times[dish_id] += served
            dish = posed.larder.menu.dishes.get(dish_id)
            if dish is not None:
                kinds[dish.kind] += served

    def charge(problem: Problem) -> None:
        for serving in problem.all_servings:
            if serving.slot.kind == "during" or serving.slot.settled is not None:
                continue
            dish = serving.plate.dish
            same = times.get(dish.id, 0) or SAME_KIND * kinds.get(dish.kind, 0)
            problem.charge(TERM, serving.served, each * same)

    return charge


def _own_penalty(solved: SolvedDay, posed: PosedDay) -> SolvedDay:
    """The answer with the day's own penalty as its value, and a bound that holds among days so unlike."""
    charged = sum(cost * solved.answer.values[column] for column, cost in solved.problem.costs.get(TERM, ()))
    answer = solved.answer
    solved.problem.costs.pop(TERM, None)
    own = replace(answer, objective=answer.objective - charged, bound=max(0.0, answer.bound - charged))
    return replace(solved, posed=posed, answer=own)
