"""Swaps: the struck food leaves, every limit holds, and no answer changes fewer other foods (all of them are tried)."""

from __future__ import annotations

import random

import pytest

from mealopt import api
from mealopt.documents.plan import Meal, Plan
from mealopt.errors import Unplannable
from mealopt.plans.held.standing import standing_day
from tests.plans import cases
from tests.plans.brute import Day, possible, sets_with

#: Dishes of which a day can be made, few enough that every set of foods can be tried.
FEW = (
    "cottage_cheese_fruit",
    "pretzels_and_fruit",
    "chicken_wrap",
    "chickpea_curry",
    "oat_porridge",
    "scrambled_eggs_toast",
    "potato_salad",
    "fruit_and_nuts",
    "muesli",
    "rajma_with_rice",
    "rice_salad",
    "bean_and_rice_wrap",
    "fruit_salad",
)

#: Changes up to which all sets of foods are tried.
TRIED = 2


@pytest.fixture(scope="session")
def small_day() -> Plan:
    """A day from few dishes."""
    return cases.planned(cases.RUN, never=cases.small_menu(*FEW))


def meal(plan: Plan, number: int) -> Meal:
    """The meal of this number."""
    return next(one for one in plan.days[0].meals if one.number == number)


def names(one: Meal) -> set[str]:
    """Its foods, cooking salt left out."""
    return {item.food for item in one.items} - {"salt"}


def others_changed(before: Plan, after: Plan, number: int, out: str) -> int:
    """Other foods that left or came, by the two documents alone; one stand-in in the meal is not counted."""
    left = {one.number: names(one) for one in after.days[0].meals}
    count = 0
    for one in before.days[0].meals:
        gone, come = names(one) - left[one.number] - {out}, left[one.number] - names(one)
        count += len(gone) + (max(0, len(come) - 1) if one.number == number else len(come))
    return count


def swapped_or_clash(plan: Plan, number: int, food: str) -> tuple[api.Swapped | None, tuple[str, ...]]:
    """The swap, or what clashes where there is none."""
    try:
        return api.swap(plan, number, food, seconds=60), ()
    except Unplannable as error:
        return None, error.clashes


def test_no_set_of_foods_with_fewer_changes_makes_a_day(small_day: Plan) -> None:
    """Every other food of the day struck out; all sets of foods with fewer changes are tried, and the found one."""
    day = Day(standing_day(small_day))
    changed = []
    for standing in day.of.meals:
        for food in sorted(standing.names)[1::2]:
            done, clash = swapped_or_clash(small_day, standing.meal.number, food)
            if done is None:
                assert clash
                sets = [one for fewer in range(TRIED + 1) for one in sets_with(day, standing.meal.number, food, fewer)]
                assert not any(possible(day, chosen) for chosen in sets), f"{food} is not the clash that it is called"
                continue
            assert api.recheck(done.plan) == []
            assert food not in names(meal(done.plan, standing.meal.number))
            assert done.foods_changed is not None
            assert others_changed(small_day, done.plan, standing.meal.number, food) == done.foods_changed
            changed.append(done.foods_changed)
            for fewer in range(min(done.foods_changed, TRIED + 1)):
                sets = sets_with(day, standing.meal.number, food, fewer)
                assert not any(possible(day, chosen) for chosen in sets), (food, fewer)
            if 0 < done.foods_changed <= TRIED:
                sets = sets_with(day, standing.meal.number, food, done.foods_changed)
                assert any(possible(day, chosen) for chosen in sets), "trying all finds what was found"
    assert max(changed) > 0, "some foods of the day have no stand-in, so that something was tried"


def test_ten_swaps_in_a_row_keep_every_promise_and_bring_nothing_back(vegan_day: Plan) -> None:
    draw, plan, struck = random.Random(5), vegan_day, []
    for _ in range(10):
        one = draw.choice([one for one in plan.days[0].meals if names(one)])
        food = draw.choice(sorted(names(one)))
        done = api.swap(plan, one.number, food, seconds=60)
        struck.append((one.number, food))
        plan = done.plan
        assert api.recheck(plan) == []
        assert not any(food in names(meal(plan, number)) for number, food in struck)
        assert done.penalty_after == pytest.approx(sum(plan.days[0].penalty.values()), abs=0.05)
        assert done.fresh_at_best is not None
        assert done.fresh_offered == (done.penalty_after - done.fresh_at_best > 0.1 * max(done.penalty_after, 50.0))
    assert {(one.meal, one.what) for one in plan.days[0].struck} == set(struck)


def test_all_meals_are_rid_of_a_food_of_any_kind(evening_run: Plan) -> None:
    """ "rice" means rice of every kind; what was meant for all meals is remembered for all."""
    foods = [item.food for one in evening_run.days[0].meals for item in one.items if item.food != "salt"]
    food = next((food for food in foods if "," in food), foods[0])
    head = food.partition(",")[0]
    done = api.swap(evening_run, "all", head, seconds=60)
    assert api.recheck(done.plan) == []
    assert not [item for one in done.day.meals for item in one.items if item.food.partition(",")[0] == head]
    assert all(one.meal is None for one in done.day.struck)


def test_what_is_held_stays_to_the_gram_and_what_is_dropped_goes(evening_run: Plan) -> None:
    snack = next(one for one in evening_run.days[0].meals if one.slot == "snack")
    held = next(one for one in evening_run.days[0].meals if one.slot == "dinner")
    done = api.swap(evening_run, None, drop=[snack.number], hold=[held.number], seconds=20)
    assert api.recheck(done.plan) == []
    assert [one.number for one in done.day.skipped] == [snack.number]
    assert snack.number not in [one.number for one in done.day.meals]
    assert meal(done.plan, held.number) == held
    assert done.fresh_at_best is None, "a day of fewer meals is another day"
    food = sorted(names(held))[0]
    again = api.swap(done.plan, held.number, food, seconds=60)
    assert api.recheck(again.plan) == []
    assert again.day.skipped == done.day.skipped


def test_what_is_asked_for_comes_in_its_amount(evening_run: Plan) -> None:
    one = next(one for one in evening_run.days[0].meals if one.slot == "dinner")
    item = max((item for item in one.items if item.food != "salt"), key=lambda item: item.grams)
    step = api.show_food(item.food).food
    assert step is not None
    grams = item.grams - step.step_g
    done = api.swap(evening_run, one.number, None, f"{item.food}={grams:g}g", seconds=60)
    assert api.recheck(done.plan) == []
    assert next(now.grams for now in meal(done.plan, one.number).items if now.food == item.food) == pytest.approx(grams)


def test_the_whole_dish_is_swapped_for_any_other_or_for_one(evening_run: Plan) -> None:
    one = next(one for one in evening_run.days[0].meals if one.slot == "dinner")
    done = api.swap(evening_run, one.number, dish=True, seconds=60)
    assert meal(done.plan, one.number).dish_id != one.dish_id
    assert api.recheck(done.plan) == []
    back = api.swap(done.plan, one.number, None, str(one.dish_id), seconds=60)
    assert meal(back.plan, one.number).dish_id == one.dish_id
    assert api.recheck(back.plan) == []
    assert str(one.dish_id) not in [entry.what for entry in back.day.struck], "what is asked for is struck out no more"


def test_a_fresh_plan_keeps_the_wishes_and_is_no_worse(evening_run: Plan) -> None:
    one = next(one for one in evening_run.days[0].meals if one.slot == "dinner")
    food = sorted(names(one))[0]
    least = api.swap(evening_run, one.number, food, seconds=60)
    fresh = api.swap(evening_run, one.number, food, fresh=True, seconds=60)
    assert api.recheck(fresh.plan) == []
    assert food not in names(meal(fresh.plan, one.number))
    assert fresh.penalty_after <= least.penalty_after + 0.01 * 50.0
    assert fresh.foods_changed is None


def test_a_clash_is_stated(evening_run: Plan) -> None:
    """All but one meal held and the largest dropped: nothing can make up for it."""
    day = evening_run.days[0]
    largest = max(day.meals, key=lambda one: one.totals["energy_kcal"])
    kept = [one.number for one in day.meals if one is not largest][1:]
    with pytest.raises(Unplannable) as raised:
        api.swap(evening_run, None, drop=[largest.number], hold=kept, seconds=20)
    assert raised.value.exit_code == 3
    assert any(f"meal {largest.number} dropped" in clash for clash in raised.value.clashes)
    assert len(raised.value.clashes) > len(kept), "the limits that clash with the wishes are named too"


def test_offers_are_other_replacements_each_proved_possible(evening_run: Plan) -> None:
    one = next(one for one in evening_run.days[0].meals if one.slot == "dinner")
    food = sorted(names(one))[-1]
    found = api.offers(evening_run, one.number, food, most=4, seconds=30)
    assert 1 <= len(found) <= 4
    assert len({(offer.into, offer.dish) for offer in found}) == len(found)
    changed = [offer.foods_changed for offer in found]
    assert changed == sorted(changed), "the least change first"
    least = api.swap(evening_run, one.number, food, seconds=60).foods_changed
    assert least is not None
    assert changed[0] >= least, "nothing is offered that changes fewer foods than the least there is"
    for offer in found:
        assert api.recheck(offer.plan) == []
        assert food not in names(meal(offer.plan, one.number))
        assert offer.grams_moved < 0.5 or "g of other foods moved" in offer.also


def test_what_was_not_changed_is_as_it_was_written(evening_run: Plan) -> None:
    one = evening_run.days[0].meals[0]
    done = api.swap(evening_run, one.number, sorted(names(one))[0], seconds=60)
    told = {change.number for change in done.changes}
    assert all(
        meal(done.plan, other.number) == other for other in evening_run.days[0].meals if other.number not in told
    )
    assert one.number in told
    for change in done.changes:
        assert len(change.before) == len(change.after)


def test_a_session_without_its_food_is_told(vegan_run: Plan) -> None:
    """What was to be eaten in a long run is dropped: that is said with what suits it, its sheet goes, and a replan does
    not bring it back."""
    (fuel,) = [one for one in vegan_run.days[0].meals if one.slot == "during"]
    done = api.swap(vegan_run, None, drop=[fuel.number], seconds=3, fresh=True)
    assert any("Session 1" in words and "g of carbohydrate suit it" in words for words in done.told)
    assert done.day.sessions[0].fuel is None
    assert api.recheck(done.plan) == []
    again = api.replan(done.plan, "08:30", seconds=5).plan
    assert all(one.slot != "during" for one in again.days[0].meals)


@pytest.fixture(scope="module")
def vegan_run() -> Plan:
    """The Skerry test athlete's tuesday with a long run in the morning, vegan."""
    return cases.planned({**cases.RUN, "start": "09:00", "minutes": 120}, gap=0.3, diet="vegan")
