"""One level of a swap: the day's rules, and at most so many other foods that change.

The objective in order: dishes that change, grams moved, the penalty. Changes are a row, for the levels come one after
the other; grams count one point each; a point of the penalty less than a tenth of a gram, so that it decides between
equals only.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from mealopt.menu.plates import Plate
from mealopt.milp.model import Row, Term
from mealopt.plans.held.standing import StandingDay
from mealopt.plans.swap.aims import Aim
from mealopt.rules.problem import Problem, Serving

#: Points in grams: of a dish that changes, and of one point of the penalty.
A_DISH, A_POINT = 1000.0, 0.005


@dataclass(frozen=True, slots=True)
class Level:
    """A level's problem. counted: terms whose sum is the number of other foods that change. moved: of grams moved."""

    problem: Problem
    counted: tuple[Term, ...]
    moved: tuple[Term, ...]

    def changes(self, values: list[float]) -> int:
        """Other foods that change in this answer."""
        return round(sum(one * values[column] for column, one in self.counted))

    def grams_moved(self, values: list[float]) -> float:
        """Grams of other foods that are moved in this answer."""
        return max(0.0, sum(one * values[column] for column, one in self.moved))

    def penalty(self, values: list[float]) -> float:
        """The day's own penalty in this answer, points."""
        return sum(self.problem.shares(values).values())


def level(
    day: StandingDay, aims: Sequence[Aim], options: Sequence[Sequence[Plate]], most: int, each: float = 0.0
) -> Level:
    """The day's problem over these plates, at most so many other foods changed. each: grams that a change costs."""
    problem = day.problem(options)
    model = problem.model
    model.cost = [A_POINT * cost for cost in model.cost]
    counted: list[Term] = []
    moved: list[Term] = []
    for aim in aims:
        servings = problem.servings[aim.standing.index]
        ask(problem, aim, servings)
        if aim.held or not (aim.standing.foods or aim.asked):
            continue
        for serving in servings if not aim.whole else ():
            if serving.plate.dish.id != aim.standing.plate.dish.id:
                model.cost[serving.served] += A_DISH
        counted += _counted(problem, aim, servings)
        moved += _moved(problem, aim, servings)
    _warm(day, problem)
    if counted:
        model.rows.append(Row("changes", tuple(counted), most=float(most), says="foods that change", unit="foods"))
    for column, one in counted:
        model.cost[column] += each * one
    for column, grams in moved:
        model.cost[column] += grams
    return Level(problem, tuple(counted), tuple(moved))


def ask(problem: Problem, aim: Aim, servings: Sequence[Serving]) -> None:
    """Each food that is to come into the meal comes."""
    for place, one in enumerate(aim.came):
        used = tuple(
            (food.used, 1.0) for serving in servings for food in serving.foods if food.choice.name in one.names
        )
        most = None if one.names & aim.standing.names else 1.0
        says = f"{' or '.join(sorted(one.names))} is asked for"
        problem.model.rows.append(Row(f"asked_{aim.standing.index}_{place}", used, least=1.0, most=most, says=says))


def _counted(problem: Problem, aim: Aim, servings: Sequence[Serving]) -> list[Term]:
    """Terms that add up to the foods of the meal that leave or come; rows tie their columns."""
    if aim.whole:
        return []
    model, index = problem.model, aim.standing.index
    used: dict[str, list[Term]] = defaultdict(list)
    always: dict[str, int] = defaultdict(int)
    for serving in servings:
        for food in serving.foods:
            used[food.choice.name].append((food.used, 1.0))
            always[food.choice.name] += food.used == serving.served
    found: list[Term] = []
    for name in sorted(aim.stays):
        if always[name] < len(servings):
            leaves = model.column(0.0, 1.0)
            model.rows.append(Row(f"leaves_{index}_{name}", ((leaves, 1.0), *used[name]), least=1.0))
            found.append((leaves, 1.0))
    come = [term for name in sorted(used) if name not in aim.stays | aim.asked_for for term in used[name]]
    if not aim.asked:
        return found + come
    more = model.column(0.0)
    model.rows.append(
        Row(f"come_{index}", ((more, 1.0), *((column, -1.0) for column, _ in come)), least=-float(aim.free))
    )
    return [*found, (more, 1.0)]


def _moved(problem: Problem, aim: Aim, servings: Sequence[Serving]) -> list[Term]:
    """Terms that add up to the grams moved of a meal's foods; what comes into a meal that was asked about is not."""
    model, index = problem.model, aim.standing.index
    grams: dict[str, list[Term]] = defaultdict(list)
    for serving in servings:
        for food in serving.foods:
            grams[food.choice.name] += food.amounts()
    found: list[Term] = []
    weighed = {name for one in aim.came if one.grams is not None for name in one.names}
    for name in sorted(aim.stays - weighed):
        before, apart = aim.standing.grams(name), model.column(0.0)
        terms = grams[name]
        model.rows.append(Row(f"more_{index}_{name}", ((apart, 1.0), *((c, -g) for c, g in terms)), least=-before))
        model.rows.append(Row(f"less_{index}_{name}", ((apart, 1.0), *terms), least=before))
        found.append((apart, 1.0))
    if not aim.asked:
        found += [term for name in sorted(grams) if name not in aim.stays for term in grams[name]]
    return found


def _warm(day: StandingDay, problem: Problem) -> None:
    """Ask for a warm main meal where the whole card could give one, though these plates may not."""
    warm = any(one.plate.dish.served == "warm" for slot in problem.main_slots for one in problem.servings[slot.index])
    if not warm and problem.wishes.warm_main and day.warm:
        problem.model.rows.append(Row("warm_main", ((problem.servings[0][0].served, 0.0),), least=1.0))
