"""On small weeks the bound never passes the exact optimum of the whole model, and the value never beats it.

The exact optimum is found by the engine alone, from one program of all days with the week's rows; where pots are
allowed, with each pair of an evening's and a midday's plate that could be one pot, written here from the words of the
rule: the same dish, the same foods, its minutes but for the warming saved.
"""

from __future__ import annotations

import time
from dataclasses import replace
from typing import Any

import pytest

from mealopt.milp.answer import Answer
from mealopt.milp.highs import Highs
from mealopt.milp.model import Model, Row
from mealopt.people.case import Case
from mealopt.people.reading import case_from_dict
from mealopt.plans.week.alone import proof
from mealopt.plans.week.crew import Crew
from mealopt.plans.week.day import Days
from mealopt.plans.week.job import Ask, task_of
from mealopt.plans.week.potted import Freed
from mealopt.plans.week.search import Search
from mealopt.plans.week.state import WeekState
from mealopt.rules import weights
from mealopt.rules.problem import Problem, Serving
from mealopt.rules.weekly.joined import joined
from tests.plans.cases import ATHLETE

#: Points to which the whole model is solved.
EXACT = 0.1

#: More than these days have plates.
MANY = 9
HOURS = {"wake": "06:30", "sleep": "22:30", "meals_per_day": 3}

#: Minutes that a meal from a pot still takes, those of a day on which that matters, and its dishes.
WARMING, MINUTES = 5, 50
DISHES = {
    "breakfast": ("yoghurt_fruit_bowl",),
    "lunch": ("bean_and_vegetable_pitta",),
    "dinner": ("tomato_and_egg_with_rice", "chicken_soup", "paella_style_rice"),
}
SLOW_LUNCH = ("chicken_soup", "paella_style_rice", "harira", "meat_and_root_stew", "bean_and_vegetable_pitta")

OUT_OF_REACH = {"cook_ahead_days": 0, "plants_least": 60, "pulses_least": 7, "red_meat_most_g": 200.0}
POTS = {"cook_ahead_days": 1, "cooked_ahead_least": 7, "micronutrients_percent": 0.0, "plants_least": 0}


def small_case(week: dict[str, Any], **kitchen: Any) -> Case:
    data = {"schema": "mealopt/case-1", "athlete": ATHLETE, "kitchen": HOURS | kitchen, "week": week}
    return case_from_dict(data, "small week")


def small_days(case: Case, days: tuple[str, ...], few: int) -> Days:
    """The days with so few plates a slot: their cards end there."""
    found = Days(task_of(case, days, {}))
    for day in days:
        posed = found.posed(day)
        found._posed[day] = replace(posed, laid=tuple(plates[:few] for plates in posed.card().all))
    return found


def exactly(days: Days, pots: bool) -> tuple[Answer, int]:
    """The optimum of the whole model, and the pots that it could have."""
    problems = []
    for day in days.task.days:
        card = days.posed(day).card()
        card.deal(MANY)
        problems.append(days.posed(day).problem(card))
    whole, firsts = joined(problems, days.rows)
    possible: list[int] = []
    if pots:
        for place in range(1, len(problems)):
            shift = firsts[place - 1], firsts[place]
            possible += let_share(whole, problems[place - 1], problems[place], shift, f"{place}_minutes")
    if days.ahead.least:
        short = whole.column(cost=weights.WEEK_AHEAD)
        whole.rows.append(Row("", ((short, 1.0), *((pot, 1.0) for pot in possible)), least=days.ahead.least))
    exact = Highs(whole).solve(gap=0.0, seconds=60.0, gap_absolute=EXACT)
    assert exact.status.solved
    return exact, len(possible)


def let_share(whole: Model, before: Problem, after: Problem, shift: tuple[int, int], minutes: str) -> list[int]:
    """Let a dinner's pot be the next day's lunch, so that it takes the minutes of warming only; the pots' columns."""
    saved = []
    for cooked in before.all_servings:
        for eaten in after.all_servings:
            slots = cooked.slot.kind, eaten.slot.kind
            if slots == ("dinner", "lunch") and cooked.plate.dish.id == eaten.plate.dish.id:
                pot = whole.column(0.0, 1.0, whole=True)
                one, other = foods(cooked, shift[0]), foods(eaten, shift[1])
                whole.rows.append(Row("", ((pot, 1.0), (cooked.served + shift[0], -1.0)), most=0.0))
                whole.rows.append(Row("", ((pot, 1.0), (eaten.served + shift[1], -1.0)), most=0.0))
                for name in set(one) | set(other):
                    terms = [(one[name], 1.0)] if name in one else []
                    terms += [(other[name], -1.0)] if name in other else []
                    whole.rows.append(Row("", ((pot, 1.0), *terms), most=1.0))
                    whole.rows.append(Row("", ((pot, 1.0), *((c, -x) for c, x in terms)), most=1.0))
                saved.append((pot, -float(max(0, eaten.plate.dish.minutes - WARMING))))
    place = next(place for place, row in enumerate(whole.rows) if row.name == minutes)
    whole.rows[place] = replace(whole.rows[place], terms=(*whole.rows[place].terms, *saved))
    return [pot for pot, _ in saved]


def foods(serving: Serving, shift: int) -> dict[str, int]:
    return {food.choice.name: food.used + shift for food in serving.foods if food.choice.name != "salt"}


def searched(days: Days, seconds: float) -> WeekState:
    case, task = days.case, days.task
    minutes = {day: float(case.kitchen_on(day).cook_minutes) for day in task.days}
    state = WeekState(task.days, days.rows, days.ahead, minutes)
    crew = Crew(task, 1)
    crew._here = days
    # By the processor's clock: others may use the machine.
    Search(crew, state, gap=0.002, seconds=seconds, clock=time.process_time).run()
    return state


@pytest.mark.slow
@pytest.mark.parametrize(
    ("days", "few", "kitchen"),
    [(("sat", "sun"), 3, {"diet": "vegan"})],
)
def test_bound_and_value_stand_on_their_own_side_of_the_optimum(
    days: tuple[str, ...], few: int, kitchen: dict[str, Any]
) -> None:
    posed = small_days(small_case(OUT_OF_REACH, **kitchen), days, few)
    exact, _ = exactly(posed, pots=False)
    state = searched(posed, 2.0)
    assert 0 < state.bound <= exact.objective + 1e-4
    assert state.value >= exact.bound - 1e-4
    assert state.lacks, "the week's rules are out of reach here, so that prices have something to say"
    prices = {row.name: row.charge for row in state.rows if row.least is not None and row.charge}
    bounds = [posed.answer(Ask("priced", day, 0.01, 10.0, prices=prices)).bound for day in days]
    state.priced = float("-inf")
    state.bound_by_prices(prices, bounds)
    assert float("-inf") < state.priced <= exact.objective + 1e-4
    # The two bounds are not the same thing: prices see what the rules cost.
    assert state.priced != pytest.approx(sum(state.alone.values()))


def names(kind: str, slow: bool) -> tuple[str, ...]:
    return SLOW_LUNCH if slow and kind == "lunch" else DISHES[kind]


def days_of_dishes(case: Case, days: tuple[str, ...]) -> Days:
    """The days with just these dishes, in this order: the second day's lunches that come first take long, but may be
    one pot with the dinner before."""
    found = Days(task_of(case, days, {}))
    for day in days:
        posed = found.posed(day)
        laid = tuple(
            tuple(plate for name in names(slot.kind, day == days[-1]) for plate in plates if plate.dish.id == name)
            for slot, plates in zip(posed.slots, posed.card().all, strict=True)
        )
        found._posed[day] = replace(posed, laid=laid)
    return found


@pytest.mark.slow
def test_the_bound_holds_where_a_pot_saves_minutes() -> None:
    days = ("tue", "wed")
    posed = days_of_dishes(small_case(POTS, cook_minutes=MINUTES), days)
    exact, possible = exactly(posed, pots=True)
    without, _ = exactly(posed, pots=False)
    assert possible
    assert exact.objective < without.bound - 0.2, "pots must matter here, or nothing is tested"
    state = searched(posed, 12.0)
    assert 0 < state.bound <= exact.objective + 1e-4
    assert state.value >= exact.bound - 1e-4
    # The charge for a pot is what makes the bound tell more than if pots came for nothing.
    free = sum(proof(posed.posed(day), 1e3, 0.002, 5.0, Freed(posed._eased_for(day)))[1] for day in days)
    assert state.bound > free + 0.005
