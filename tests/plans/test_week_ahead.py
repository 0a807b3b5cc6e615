"""Meals from an earlier day's pot: which pairs count, how they are marked, and what a posed day may share."""

from __future__ import annotations

from typing import Any

import pytest

from mealopt.documents.plan import Item, Meal, PlanDay
from mealopt.milp.answer import Status
from mealopt.milp.highs import Highs
from mealopt.milp.model import Row
from mealopt.plans.week.ahead import Ahead, labelled, pairs, pots_for
from mealopt.rules import weights
from mealopt.rules.problem import Problem
from mealopt.rules.registry import families
from mealopt.rules.weekly.ahead import WARMING, Pot, free_minutes, pose_pots, potable
from tests.rules import tiny

KEEPS = Ahead(1, 1, {"stew": 2, "pie": 0})


def meal(number: int, slot: str, dish: str, *foods: str) -> Meal:
    items = tuple(
        Item(food=food, source="USDA-SR28:01001", grams=100.0, measure="100 g", state="cooked", as_bought_g=100.0)
        for food in foods
    )
    keys: dict[str, Any] = {"before_session": None, "lead_minutes": None, "limits": {}, "totals": {}}
    return Meal(number=number, slot=slot, time="12:00", ends="12:20", dish=dish, dish_id=dish, minutes=30,
                items=items, **keys)  # fmt: skip


def day(name: str, *meals: Meal) -> PlanDay:
    keys: dict[str, Any] = {"sessions": (), "targets": {}, "totals": {}, "coverage": {}, "missed": (), "cautions": ()}
    return PlanDay(day=name, date=None, meals=meals, **keys)


def test_the_evenings_dish_is_the_next_middays_with_the_same_foods() -> None:
    monday = day("mon", meal(1, "dinner", "stew", "beans", "leek"))
    assert len(pairs([monday, day("tue", meal(1, "lunch", "stew", "leek", "beans"))], KEEPS)) == 1
    assert pairs([monday, day("tue", meal(1, "lunch", "stew", "beans"))], KEEPS) == []
    assert pairs([monday, day("tue", meal(1, "dinner", "stew", "leek", "beans"))], KEEPS) == []
    assert pairs([monday, day("tue"), day("wed", meal(1, "lunch", "stew", "leek", "beans"))], KEEPS) == []


def test_a_dish_that_does_not_keep_is_made_anew_and_salt_makes_no_odds() -> None:
    pie = day("mon", meal(1, "dinner", "pie", "beans"))
    assert pairs([pie, day("tue", meal(1, "lunch", "pie", "beans"))], KEEPS) == []
    stew = day("mon", meal(1, "dinner", "stew", "beans", "salt"))
    assert len(pairs([stew, day("tue", meal(1, "lunch", "stew", "beans"))], KEEPS)) == 1


def test_a_batch_lasts_as_long_as_the_case_and_the_fridge_allow() -> None:
    batch = Ahead(3, 1, {"stew": 2})
    days = [day(name, meal(1, "lunch", "stew", "beans")) for name in ("mon", "tue", "wed", "thu")]
    cooked = [pair.cooked[0] for pair in pairs(days, batch)]
    assert cooked == [0, 0], "Thursday's is three days old: a pot of its own"


def test_marked_meals_take_no_more_than_warming() -> None:
    days = [day("mon", meal(1, "dinner", "stew", "beans")), day("tue", meal(1, "lunch", "stew", "beans"))]
    monday, tuesday = labelled(days, KEEPS)
    assert (monday.meals[0].cooked_on, monday.meals[0].minutes) == (None, 30)
    assert (tuesday.meals[0].cooked_on, tuesday.meals[0].minutes) == ("mon", WARMING)
    assert "cool it within two hours" in tuesday.meals[0].notes[0]


def test_pots_look_back_and_ahead() -> None:
    days = [day("mon", meal(1, "dinner", "stew", "beans")), None, day("wed", meal(1, "lunch", "stew", "leek"))]
    found = pots_for(1, days, KEEPS)
    assert [(pot.later, sorted(pot.foods)) for pot in found] == [(True, ["beans"]), (False, ["leek"])]


def posed() -> Problem:
    """A lunch of stew (40 min) or bread (5 min), with 20 minutes in the kitchen."""
    beans, leek = tiny.food("beans", steps=(1, 3)), tiny.food("leek", steps=(1, 3))
    stew = tiny.plate("stew", tiny.part("all", beans, leek), minutes=40)
    problem = tiny.day((tiny.slot(0, "lunch"),), (tiny.simple("bread"), stew), minutes_most=20.0)
    names = ("one plate a meal", "dish", "kitchen minutes")
    for family in families():
        if family.name in names:
            problem.model.rows.extend(family.rows(problem))
    return problem


def served(problem: Problem, *more: Row) -> str:
    problem.model.rows.extend(more)
    answer = Highs(problem.model).solve()
    if answer.status is Status.INFEASIBLE:
        return "nothing"
    return next(one.plate.dish.id for one in problem.all_servings if answer.values[one.served] > 0.5)


def must(problem: Problem, dish: str) -> Row:
    column = next(one.served for one in problem.all_servings if one.plate.dish.id == dish)
    return Row("must", ((column, 1.0),), least=1.0)


@pytest.mark.parametrize(
    ("foods", "later", "ends"),
    [({"beans"}, True, "stew"), ({"beans"}, False, "nothing"), ({"beans", "rice"}, True, "nothing")],
)
def test_a_pot_saves_its_minutes_where_it_was_cooked_before(foods: set[str], later: bool, ends: str) -> None:
    problem = posed()
    assert served(posed(), must(posed(), "stew")) == "nothing"
    pose_pots(problem, [Pot("stew", frozenset(foods), frozenset({"lunch"}), later)], 0.0)
    assert served(problem, must(problem, "stew")) == ends


def test_a_pot_that_is_asked_for_is_charged_where_it_lacks() -> None:
    problem = posed()
    pose_pots(problem, [Pot("stew", frozenset({"beans"}), frozenset({"lunch"}), True)], 1.0)
    assert served(problem) == "stew"
    problem = posed()
    pose_pots(problem, [], 1.0)
    assert Highs(problem.model).solve().objective == pytest.approx(weights.WEEK_AHEAD)


def test_a_bound_frees_the_minutes_of_what_might_come_from_a_pot() -> None:
    problem = posed()
    free_minutes(problem, potable(problem, {"stew"}, frozenset({"lunch"})))
    assert served(problem, must(problem, "stew")) == "stew"
    problem = posed()
    free_minutes(problem, potable(problem, set(), frozenset({"lunch"})))
    assert served(problem, must(problem, "stew")) == "nothing"
