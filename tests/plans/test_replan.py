"""A day planned anew: what is past stays, what was eaten counts, the rest is planned or the shortfall is said."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from mealopt import api
from mealopt.core.clock import minutes_of
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FAT, FIBRE, PROTEIN
from mealopt.documents.plan import Meal, Plan
from mealopt.errors import BadInput
from mealopt.milp.answer import Answer
from mealopt.milp.effort import SLOWEST
from mealopt.milp.highs import Highs
from mealopt.milp.model import Model
from mealopt.people.reading import case_from_dict
from mealopt.plans.day.pose import pose_day
from mealopt.plans.held.standing import standing_day
from mealopt.plans.replan import near, replan, search
from tests.plans import cases
from tests.plans.random_events import Happening, broken, content, happening

CAKE = "18096=250g"


def anew(plan: Plan, now: str, **keys: Any) -> Any:
    """The day planned anew, with all that should hold of it held."""
    found = api.replan(plan, now, seconds=6, **keys)
    assert broken(plan, found, Happening(now, keys)) == []
    return found


def meals(plan: Plan) -> tuple[Meal, ...]:
    return plan.days[0].meals


def first_after(plan: Plan, time: str) -> Meal:
    return next(meal for meal in meals(plan) if minutes_of(meal.time) >= minutes_of(time))


def test_a_day_in_which_nothing_happened_stays_as_it_is(evening_run: Plan) -> None:
    found = anew(evening_run, "14:30")
    assert [content(meal) for meal in meals(found.plan)] == [content(meal) for meal in meals(evening_run)]
    assert not any(pair.changed for pair in found.meals)
    assert (found.short, found.over, found.words, found.lines) == ({}, {}, (), ())
    assert [meal.eaten for meal in meals(found.plan)] == [meal.time < "14:30" for meal in meals(evening_run)]
    assert found.plan.days[0].now == "14:30"


def test_what_was_eaten_counts_to_the_gram_and_says_which_row_it_is(evening_run: Plan) -> None:
    found = anew(evening_run, "14:30", ate=["pizza=200g"])
    beside = next(meal for meal in meals(found.plan) if meal.dish_id is None)
    row = api.show_food(beside.items[0].source.partition(":")[2]).row
    assert "izza" in row.name
    assert beside.totals[ENERGY] == pytest.approx(2 * row.per_100g[ENERGY], rel=1e-3)
    assert any(row.ndb in words for words in found.words)


def test_a_cake_is_not_paid_for(evening_run: Plan) -> None:
    found = anew(evening_run, "14:30", ate=[CAKE, "a party=1500kcal"])
    coming = [pair for pair in found.meals if pair.after is not None and not pair.after.eaten]
    planned = [meal for meal in meals(evening_run) if meal.time >= "14:30"]
    assert [pair.after.time for pair in coming] == [meal.time for meal in planned], "no meal is left out"
    for pair, meal in zip(coming, planned, strict=True):
        assert pair.after.totals[ENERGY] >= 0.749 * meal.totals[ENERGY]
        assert pair.after.totals[PROTEIN] >= 0.995 * meal.totals[PROTEIN] - 0.1
    assert found.over[ENERGY] > 500
    assert ENERGY in found.plan.days[0].missed
    assert found.lines == (), "a surplus is not carried over"


def test_a_meal_keeps_three_quarters_however_often_the_day_is_planned_anew(evening_run: Plan) -> None:
    dinner = meals(evening_run)[-1]
    once = anew(evening_run, "16:00", ate=["lunch out=1500kcal"])
    again = api.replan(once.plan, "17:00", ate=["more of it=800kcal"], seconds=30)
    assert api.recheck(again.plan) == []
    last = meals(again.plan)[-1]
    assert last.time == dinner.time
    assert last.totals[ENERGY] >= 0.749 * dinner.totals[ENERGY]
    assert sum(not meal.items for meal in meals(again.plan)) == 2, "what was eaten before is there still"


def test_what_was_skipped_is_spread_over_the_rest_or_said_and_offered_to_tomorrow(evening_run: Plan) -> None:
    now = "19:10"
    skipped = [meal.number for meal in meals(evening_run) if meal.time < now and meal.slot != "during"]
    found = anew(evening_run, now, skipped=skipped)
    day = found.plan.days[0]
    assert {one.time for one in day.skipped} == {meal.time for meal in meals(evening_run) if meal.number in skipped}
    rest = sum(meal.totals[ENERGY] for meal in meals(evening_run) if meal.time >= now)
    assert day.totals[ENERGY] > 1.1 * rest, "the meals that remain grow"
    missing = (day.targets[ENERGY].least or 0.0) - day.totals[ENERGY]
    assert found.short[ENERGY] == pytest.approx(missing, abs=0.2)
    assert any(f"{missing:,.0f} kcal short" in words for words in found.words)
    assert found.lines[0].startswith('[[goal.move]]\nfrom = "tue"\nto = "wed"')
    data = {**found.plan.case, "goal": {"move": [{"from": "tue", "to": "wed", "kcal": min(500, round(missing))}]}}
    case_from_dict(data, "the case with the move")


def test_a_session_that_is_off_leaves_the_day_its_baseline() -> None:
    losing = {"mass_change_percent_per_week": -0.5}
    athlete = {**cases.ATHLETE, "body_fat_percent": 30.0}
    data = {"schema": "mealopt/case-1", "athlete": athlete, "goal": losing, "session": [{**cases.RUN, "minutes": 90}]}
    plan = api.plan_day(case_from_dict(data, "losing"), "tue", gap=0.3, seconds=60)
    before = api.day_targets(case_from_dict(plan.case, "losing"), "tue")
    found = anew(plan, "14:30", session_off=[1])
    aim, planned = found.plan.days[0].targets[ENERGY].aim, plan.days[0].targets[ENERGY].aim
    assert aim is not None
    assert planned is not None
    assert aim < planned
    assert aim >= min(before.baseline_kcal, planned) - 1
    assert found.plan.days[0].sessions == ()


def test_a_new_session_brings_its_window_its_energy_and_what_is_eaten_in_it(evening_run: Plan) -> None:
    found = anew(evening_run, "09:00", session=["13:00 120 ride hard"])
    day, new = found.plan.days[0], found.plan.days[0].sessions[0]
    assert (new.start, new.kind, new.minutes) == ("13:00", "ride", 120)
    assert new.replaced_kcal is not None
    grown = (day.targets[ENERGY].aim or 0) - (evening_run.days[0].targets[ENERGY].aim or 0)
    assert grown == pytest.approx(new.replaced_kcal, rel=0.02)
    assert any(meal.slot == "during" and meal.time == "13:00" for meal in day.meals)
    ahead = [meal for meal in day.meals if not meal.eaten and 0 <= minutes_of("13:00") - minutes_of(meal.ends) < 120]
    for meal in ahead:
        assert meal.totals.get(FIBRE, 0) <= meal.limits[FIBRE] + 0.01
        assert meal.totals.get(FAT, 0) <= meal.limits[FAT] + 0.01
    assert day.totals[CARBOHYDRATE] > evening_run.days[0].totals[CARBOHYDRATE]


def test_with_a_past_eating_disorder_what_was_eaten_changes_nothing_else(evening_run: Plan) -> None:
    athlete = {**evening_run.case["athlete"], "cautions": ["past_eating_disorder"]}
    guarded = api.plan_day(case_from_dict({**evening_run.case, "athlete": athlete}, "guarded"), "tue", gap=0.3)
    number = meals(guarded)[0].number
    found = anew(guarded, "14:30", ate=["pizza=500g", "ice cream=200g"], skipped=[number])
    for meal in meals(guarded):
        if meal.time >= "14:30":
            same = next(one for one in meals(found.plan) if one.time == meal.time)
            assert content(same) == content(meal)
    assert not any("short" in words or "over its most" in words for words in found.words), "nothing is held up"
    assert found.lines == ()


@pytest.mark.parametrize("seed", [0, 1])
def test_random_things_in_a_run_s_day(evening_run: Plan, seed: int) -> None:
    happened = happening(seed, evening_run)
    anew(evening_run, happened.now, **happened.keys)


@pytest.mark.parametrize("seed", [3, 4])
def test_random_things_in_a_vegan_s_day(vegan_day: Plan, seed: int) -> None:
    happened = happening(seed, vegan_day)
    anew(vegan_day, happened.now, **happened.keys)


BAD = {
    "a time that is none": ("25.30", {}, "--now: read '25.30'"),
    "before waking": ("03:00", {}, "after midnight write 27:00"),
    "a meal that is not there": ("14:30", {"skipped": [30]}, "--skipped: read 30"),
    "a meal to come": ("07:00", {"skipped": [3]}, "can have been skipped"),
    "no such session": ("14:30", {"session_off": [2]}, "--session-off: read 2"),
    "no amount": ("14:30", {"ate": ["pizza"]}, "a food and its grams are expected"),
    "an amount too large": ("14:30", {"ate": ["pizza=99999g"]}, "1 to 3000 g"),
    "a food that is misspelt": ("14:30", {"ate": ["piza=100g"]}, "Pizza"),
    "a food that is none": ("14:30", {"ate": ["qqxxzz=100g"]}, "no food of the pantry or the table"),
    "a time of eating to come": ("14:30", {"ate": ["pizza=100g at 15:00"]}, "before 14:30"),
    "words for a session": ("14:30", {"session": ["a run at five"]}, "like \"17:00 60 run hard\""),
    "a kind that is none": ("14:30", {"session": ["19:30 60 jog hard"]}, "one of run, ride"),
    "a session in another": ("14:30", {"session": ["17:45 30 ride easy"]}, "while the run"),
    "a session at night": ("14:30", {"session": ["22:20 60 run easy"]}, "sleeping hours"),
    "another day": ("14:30", {"day": "wed"}, "it holds tue"),
}  # fmt: skip


@pytest.mark.parametrize("name", BAD)
def test_one_clear_sentence_for(name: str, evening_run: Plan) -> None:
    now, keys, says = BAD[name]
    with pytest.raises(BadInput) as refused:
        api.replan(evening_run, now, **keys)
    assert says in str(refused.value)
    assert "\n" not in str(refused.value)


def test_a_plan_that_was_changed_by_hand_is_refused(evening_run: Plan) -> None:
    day = evening_run.days[0]
    first = day.meals[0].model_copy(update={"items": day.meals[0].items[1:]})
    changed = evening_run.model_copy(update={"days": (day.model_copy(update={"meals": (first, *day.meals[1:])}),)})
    with pytest.raises(BadInput, match="does not hold what it says"):
        api.replan(changed, "14:30")


def test_an_earlier_now_than_the_last_is_refused(evening_run: Plan) -> None:
    found = api.replan(evening_run, "14:30")
    with pytest.raises(BadInput, match="planned anew at 14:30 already"):
        api.replan(found.plan, "12:00")


def test_no_solve_is_given_more_than_the_time_that_is_left(evening_run: Plan, monkeypatch: pytest.MonkeyPatch) -> None:
    """The work jumps 9.1 s at each look: reading the plan counts, and a second is kept for an engine that ends late,
    so that of the 10 s nothing is left but a blink a solve."""
    now, given = [0.0], []
    solve = near.solve_in_stages

    def clock() -> float:
        now[0] += 9.1
        return now[0]

    def watched(
        model: Model, groups: list[list[int]], gap: float, floor: float, seconds: float, stop: Any = None
    ) -> Answer:
        given.append(seconds / SLOWEST)
        return solve(model, groups, gap, floor, 20.0)

    monkeypatch.setattr(near, "solve_in_stages", watched)
    monkeypatch.setattr(search, "spent", clock)
    monkeypatch.setattr(replan, "spent", clock)
    api.replan(evening_run, "16:00", ate=["walnuts=60g at 15:00"])
    assert given
    assert given == pytest.approx([0.1] * len(given))


def test_bands_of_one_s_own_for_a_meal_hold_after_its_number_changed() -> None:
    """A bite beside the plan gives later meals other numbers; the case speaks of the first ones. So small a bite that
    no limit has to give."""
    first = cases.case(cases.RUN)
    plan = api.plan_day(first, "tue", gap=0.3)
    number = meals(plan)[-1].number
    held = meals(plan)[-1].totals[CARBOHYDRATE]
    band = {"nutrient": CARBOHYDRATE, "meal": number, "day": "tue", "least": round(held + 8.0, 1)}
    own = api.plan_day(cases.case(cases.RUN, goal={"band": [band]}), "tue", gap=0.3)
    found = api.replan(own, "14:30", ate=["cucumber=104g at 10:00"], seconds=30)
    last = meals(found.plan)[-1]
    assert (last.number, last.case_number) == (number + 1, number)
    assert last.totals[CARBOHYDRATE] >= held + 7.9
    changed = swapped_food(found.plan, last)
    after = meals(changed)[-1]
    assert after.case_number == number
    assert after.totals[CARBOHYDRATE] >= held + 7.9
    assert [meal for meal in meals(changed) if meal.eaten] == [meal for meal in meals(found.plan) if meal.eaten]
    assert api.recheck(changed) == []
    tighter = {**changed.case, "goal": {"band": [{**band, "least": 900.0}]}}
    says = api.recheck(changed.model_copy(update={"case": tighter}))
    assert any("of your own" in one and f"meal {after.number}" in one for one in says), says


def swapped_food(plan: Plan, meal: Meal) -> Plan:
    """The plan with a food of this meal swapped."""
    food = next(item.food for item in meal.items if item.food != "salt")
    return api.swap(plan, meal.number, food, seconds=30).plan


def test_a_swap_in_a_day_planned_anew_keeps_what_the_kitchen_asks_for(evening_run: Plan) -> None:
    """Money, minutes, kinds of fruit and vegetables and the shares of whole foods and sugar get no worse than they
    stand."""
    anew_day = api.replan(evening_run, "10:00", ate=["ice cream=150g"], seconds=10).plan
    standing = standing_day(anew_day)
    plain = pose_day(standing.posed.case, "tue").wishes
    wishes = standing.posed.wishes
    assert 0.4 < wishes.whole_food_share <= plain.whole_food_share
    assert plain.added_sugar_share <= wishes.added_sugar_share < 0.3
    assert wishes.produce_kinds == plain.produce_kinds, "the day has as many kinds as it asks for"
    held = standing.problem([[meal.held()] for meal in standing.meals])
    assert Highs(held.model).solve().status.solved, "what stands keeps what it is held to"
    dear = replace(wishes, whole_food_share=wishes.whole_food_share + 0.02)
    tighter = replace(standing, posed=replace(standing.posed, wishes=dear))
    if wishes.whole_food_share < plain.whole_food_share:
        assert not Highs(tighter.problem([[meal.held()] for meal in standing.meals]).model).solve().status.solved


def test_where_the_time_ends_first_that_is_said(evening_run: Plan) -> None:
    """A blink of work gives a day that holds what it promises, and does not call it the nearest."""
    found = api.replan(evening_run, "12:00", ate=["a party=1800kcal"], seconds=0.05)
    assert api.recheck(found.plan) == []
    assert any("The time ended" in words for words in found.words)
    longer = api.replan(evening_run, "18:35", ate=["a party=1800kcal"], seconds=20)
    assert any("as near as it can" in words for words in longer.words)


def test_what_stands_in_a_day_planned_anew_keeps_its_rows_and_costs_about_what_it_did(evening_run: Plan) -> None:
    """To the gram, though totals are written rounded; no dish that stands is charged for its place on a card."""
    plan = api.replan(evening_run, "12:00", ate=["a party=1200kcal"], seconds=4).plan
    standing = standing_day(plan)
    problem = standing.problem([[meal.held()] for meal in standing.meals])
    answer = Highs(problem.model).solve()
    assert answer.status.solved
    written = sum(points for term, points in plan.days[0].penalty.items() if term != "dishes of other days")
    assert problem.shares(answer.values).get("dishes of other days", 0.0) == 0.0
    assert sum(problem.shares(answer.values).values()) == pytest.approx(written, rel=0.01)
