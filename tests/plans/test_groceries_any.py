"""Any plan: what is bought and at home covers what is eaten, food by food, and the recheck finds nothing to say."""

from __future__ import annotations

import math
from collections import defaultdict
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mealopt import api
from mealopt.core.clock import DAYS
from mealopt.documents.plan import Plan
from mealopt.plans.groceries.after import shop_after
from mealopt.plans.groceries.shop import shop_for, with_groceries
from mealopt.recheck.check import recheck_plan
from tests.plans.shelves import FOODS, MENU, Eaten, bought, plan_of

ALIKE = ("carrot, raw", "carrot, boiled", "egg", "egg, fried")
SOME = (*list(FOODS)[::9], *ALIKE, "salmon", "bread, French", "salt")

foods = st.lists(
    st.tuples(st.sampled_from(SOME), st.floats(0.5, 900).map(lambda grams: round(grams, 1))), min_size=1, max_size=4
)
slots = st.sampled_from(("breakfast", "lunch", "dinner", "snack", "before", "during", "after"))
meals = st.lists(st.builds(Eaten, foods=foods, slot=slots), min_size=1, max_size=3)


@st.composite
def plans(draw: st.DrawFn, replanned: bool = False) -> Plan:
    """One to seven days that follow each other from any day on, some meals cooked the day before.

    replanned: perhaps one of the days was planned anew.
    """
    first, count = draw(st.integers(0, 6)), draw(st.integers(1, 7))
    days = {DAYS[(first + number) % 7]: draw(meals) for number in range(count)}
    names = list(days)
    for earlier, day in pairwise(names):
        if draw(st.booleans()):
            days[day] = [*days[day], Eaten(draw(foods), slot="lunch", cooked_on=earlier)]
    anew = draw(st.sampled_from((None, *names))) if replanned else None
    return plan_of(days, anew=anew, people_at_table=draw(st.sampled_from((1, 1, 3))))


haves = st.dictionaries(st.sampled_from(SOME), st.floats(0, 5000).map(lambda grams: round(grams, 2)), max_size=4)


def eaten(plan: Plan) -> dict[str, float]:
    """Food -> grams as bought on the athlete's own plate, added up from the plan alone."""
    found: dict[str, list[float]] = defaultdict(list)
    for day in plan.days:
        for meal in day.meals:
            for item in meal.items:
                found[item.food].append(bought(item.food, item.grams))
    return {food: math.fsum(grams) for food, grams in found.items()}


@settings(max_examples=30, deadline=None)
@given(plans(), haves, st.sampled_from((1, 2)))
def test_bought_and_at_home_cover_what_is_eaten(plan: Plan, have: dict[str, float], shops: int) -> None:
    shopping = shop_for(plan, MENU, have, shops=shops, people=1)
    need = eaten(plan)
    assert {line.food for line in shopping.lines} == set(need)
    for food, grams in need.items():
        lines = [line for line in shopping.lines if line.food == food]
        assert math.fsum(line.at_home_g + line.buy_g for line in lines) >= grams - 1e-9
        assert math.fsum(line.need_g for line in lines) == pytest.approx(grams, abs=0.5, rel=1e-3)
    for foods in {thing.foods for thing in shopping.things}:
        there = math.fsum(thing.at_home_g + thing.buy_g for thing in shopping.things if thing.foods == foods)
        assert there >= math.fsum(need[food] for food in foods) - 1e-9
    for thing in shopping.things:
        assert thing.buy_g == pytest.approx(thing.packs * thing.pack_g)
        assert thing.at_home_g + thing.buy_g >= thing.need_g
        assert thing.packs == 0 or thing.at_home_g + thing.buy_g - thing.pack_g < thing.need_g
    assert math.fsum(line.buy_g for line in shopping.lines) == math.fsum(thing.buy_g for thing in shopping.things)


@settings(max_examples=20, deadline=None)
@given(plans(replanned=True))
def test_the_recheck_agrees_with_every_list(plan: Plan) -> None:
    made = with_groceries(plan, MENU)
    said = [says for says in recheck_plan(made, MENU.pantry.composition, MENU.pantry) if "groceries" in says]
    assert said == []


@settings(max_examples=30, deadline=None)
@given(plans(), haves, st.sampled_from(SOME), st.floats(0, 3000), st.sampled_from((1, 2)))
def test_more_at_home_never_buys_more(plan: Plan, have: dict[str, float], food: str, more: float, shops: int) -> None:
    before, after = (
        _bought(shop_for(plan, MENU, held, shops=shops).lines)
        for held in (have, have | {food: have.get(food, 0.0) + more})
    )
    assert all(after.get(foods, 0.0) <= grams + 1e-9 for foods, grams in before.items())
    assert set(after) <= set(before)


@settings(max_examples=20, deadline=None)
@given(plans(), haves)
def test_two_people_never_need_less_than_one(plan: Plan, have: dict[str, float]) -> None:
    one, two = (shop_for(plan, MENU, have, people=count) for count in (1, 2))
    assert two.total_price >= one.total_price
    first = _bought(one.lines)
    second = _bought(two.lines)
    assert all(second.get(foods, 0.0) >= grams for foods, grams in first.items())
    needs = {line.food: line.need_g for line in one.lines}
    assert all(line.need_g >= needs[line.food] for line in two.lines)


@settings(max_examples=20, deadline=None)
@given(plans(), haves)
def test_what_is_left_is_what_the_next_week_has(plan: Plan, have: dict[str, float]) -> None:
    shopping = shop_for(plan, MENU, have)
    kept = {one.food: one.grams for one in shopping.left if one.keeps}
    assert api.read_have(api.left_over(shopping)) == pytest.approx(kept)
    for one in shopping.left:
        assert one.grams > 0
        lines = [line for line in shopping.things if one.food in line.foods]
        assert one.grams <= math.fsum(line.at_home_g + line.buy_g - line.need_g for line in lines) + 1e-6 or not lines


@settings(max_examples=20, deadline=None)
@given(plans(), haves, st.integers(0, 6))
def test_an_unchanged_plan_needs_no_second_list(plan: Plan, have: dict[str, float], over: int) -> None:
    """However many of its days are past."""
    days = tuple(
        day.model_copy(update={"meals": tuple(meal.model_copy(update={"eaten": True}) for meal in day.meals)})
        if number < over
        else day
        for number, day in enumerate(plan.days)
    )
    change = shop_after(plan, plan.model_copy(update={"days": days}), MENU, have)
    assert change.now.bought == ()
    assert change.in_vain == ()


def _bought(lines: tuple[api.Grocery, ...]) -> dict[tuple[str, ...], float]:
    found: dict[tuple[str, ...], float] = defaultdict(float)
    for line in lines:
        if line.buy_g:
            found[line.foods] += line.buy_g
    return dict(found)
