"""Meals that the case settles: their time, their foods, what they leave for the others, and what is said of them."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest

from mealopt import api
from mealopt.core.nutrients import PROTEIN
from mealopt.errors import BadInput, Unplannable
from mealopt.menu.dishes import shipped_menu
from mealopt.plans.day.pose import pose_day
from tests.plans.cases import RUN, at, case, planned, posed

DINNER = {"time": "19:00", "what": "club dinner", "energy_kcal": 900}
PORRIDGE = {"time": "07:00", "what": "usual breakfast", "dish": "oat_porridge"}
LUNCH = {"time": "12:15", "what": "packed lunch", "foods": ["bread, wholemeal=83g", "tuna, tinned in water=61.5g"]}


def slots(*session: dict[str, Any], **keys: Any) -> list[tuple[str, int, int | None]]:
    """Kind, start and settled meal of each slot of the day."""
    return [(slot.kind, slot.start, slot.settled) for slot in posed(*session, **keys).slots]


def test_an_energy_alone_counts_with_the_split_that_is_said() -> None:
    """17 % protein and 48 % carbohydrate at 4 kcal/g, 35 % fat and 10 % saturated at 9 kcal/g
    [common practice, no source]."""
    plan = planned(fixed=[DINNER])
    day, meal = plan.days[0], at(plan, "19:00")
    assert (meal.dish, meal.dish_id, meal.items, meal.minutes, meal.slot) == ("club dinner", None, (), 0, "dinner")
    split = {"energy_kcal": 900, "protein_g": 38.25, "carbohydrate_g": 108, "fat_g": 35, "saturated_fat_g": 10}
    assert meal.totals == pytest.approx({**split, "fruit_vegetable_g": 0.0}, rel=1e-3)
    for key, amount in split.items():
        others = sum(other.totals[key] for other in day.meals if other is not meal)
        assert day.totals[key] == pytest.approx(others + amount, rel=1e-3)
    assert any("17 %" in note and "no source" in note for note in meal.notes)
    assert any("club dinner at 19:00" in note and "not counted" in note for note in day.notes)
    assert day.totals["energy_kcal"] == pytest.approx(day.targets["energy_kcal"].aim, rel=0.02)


def test_foods_stand_to_the_gram() -> None:
    plan = planned(fixed=[LUNCH])
    meal = at(plan, "12:15")
    assert {item.food: item.grams for item in meal.items} == {
        "bread, wholemeal": 83.0,
        "tuna, tinned in water": 61.5,
    }
    assert [item.measure for item in meal.items] == ["83 g", "61.5 g"]
    assert (meal.dish, meal.slot) == ("packed lunch", "lunch")


def test_a_dish_stands_and_its_amounts_are_planned() -> None:
    plan = planned(fixed=[PORRIDGE])
    meal = at(plan, "07:00")
    assert (meal.dish_id, meal.slot) == ("oat_porridge", "breakfast")
    assert meal.items
    assert sum(other.dish_id == "oat_porridge" for other in plan.days[0].meals) == 1


def test_a_food_that_is_written_twice_is_one() -> None:
    plan = planned(fixed=[{**LUNCH, "foods": ["egg=50g", "bread, white=58g", "egg=50g"]}])
    assert {item.food: item.grams for item in at(plan, "12:15").items} == {"egg": 100.0, "bread, white": 58.0}


def test_the_nearest_main_meal_gives_way() -> None:
    free = slots()
    settled = slots(fixed=[DINNER])
    assert [kind for kind, _, _ in settled].count("dinner") == 1
    assert ("dinner", 19 * 60, 0) in settled
    assert {kind for kind, _, _ in free} == {kind for kind, _, _ in settled}


def test_a_meal_far_from_every_main_meal_is_a_snack() -> None:
    found = slots(fixed=[{"time": "16:00", "what": "tea at the harbour", "energy_kcal": 300}])
    assert ("snack", 16 * 60, 0) in found
    assert [kind for kind, _, number in found if number is None].count("dinner") == 1


def test_three_settled_meals_and_nothing_overlaps() -> None:
    early = {"time": "08:50", "what": "second breakfast", "foods": ["yoghurt, plain=125g", "banana=118g"]}
    day = posed(RUN, fixed=[PORRIDGE, early, LUNCH, DINNER])
    assert [slot.settled for slot in day.slots if slot.settled is not None] == [0, 1, 2, 3]
    for first, second in pairwise(day.slots):
        assert first.end <= second.start
    assert [slot.kind for slot in day.slots if slot.settled is not None].count("lunch") == 1


def test_a_meal_just_before_a_session_is_cut_short_and_carries_no_limits() -> None:
    day = posed(RUN, fixed=[{"time": "17:18", "what": "cake", "foods": ["sponge cake=76g"]}])
    slot = next(slot for slot in day.slots if slot.settled == 0)
    assert (slot.end, slot.limits, slot.before_session, slot.lead_minutes) == (17 * 60 + 30, {}, 1, 0)


def test_what_a_planned_meal_would_not_hold_there_is_said() -> None:
    chickpeas = {"time": "16:20", "what": "hummus box", "foods": ["chickpeas=150g", "bread, wholemeal=64g"]}
    plan = planned(RUN, fixed=[chickpeas])
    meal = at(plan, "16:20")
    assert any("fibre" in note and "before a session" in note for note in meal.notes)
    assert meal.limits == {}
    assert api.recheck(plan) == []


def test_what_the_diet_forbids_is_the_athletes_own_choice_and_said() -> None:
    plan = planned(fixed=[LUNCH], diet="vegan", never=["bread, wholemeal"], goal={"protein_g_per_kg": 1.4})
    notes = at(plan, "12:15").notes
    assert "tuna, tinned in water is not vegan: it stands here because you settled this meal" in notes
    assert any("bread, wholemeal is on your list" in note for note in notes)
    others = [item.food for meal in plan.days[0].meals if meal.time != "12:15" for item in meal.items]
    assert "bread, wholemeal" not in others


def test_a_settled_dish_keeps_to_the_diet_where_it_can() -> None:
    day = posed(fixed=[PORRIDGE], diet="vegan", avoid_allergens=["nuts"])
    (plate,) = day.settled_plates.values()
    pantry = day.larder.menu.pantry
    names = {choice.name for part in plate.parts for choice in part.choices}
    assert names
    assert all(pantry.foods[name].diet == "vegan" and "nuts" not in pantry.foods[name].allergens for name in names)


def test_a_settled_dish_goes_beyond_the_diet_where_it_must_but_allergens_last() -> None:
    """An omelette for a vegan who does not eat peanuts: eggs are the athlete's own choice, peanuts are not."""
    eggs = {"time": "07:00", "what": "omelette", "dish": next(iter(_egg_dishes()))}
    day = posed(fixed=[eggs], diet="vegan", avoid_allergens=["peanuts"])
    (plate,) = day.settled_plates.values()
    pantry = day.larder.menu.pantry
    names = {choice.name for part in plate.parts for choice in part.choices}
    assert any(pantry.foods[name].diet != "vegan" for name in names)
    assert not any("peanuts" in pantry.foods[name].allergens for name in names)


def _egg_dishes() -> list[str]:
    """Dishes that cannot be made without egg."""
    eggs = {"egg", "egg, fried", "egg, omelette", "egg, scrambled"}
    return sorted(
        dish.id
        for dish in shipped_menu().dishes.values()
        if any(part.pick[0] > 0 and set(part.foods) <= eggs for part in dish.component)
    )


def test_more_of_a_food_than_a_day_should_hold_is_planned_around() -> None:
    """Four settled meals with bread in them, and more eggs than anybody is planned: nothing of either is added."""
    fixed = [
        {"time": time, "what": "bread and eggs", "foods": ["bread, white=58g", "egg=100g"]}
        for time in ("07:00", "10:00", "13:00", "16:00")
    ]
    day = posed(fixed=fixed, goal={"protein_g_per_kg": 1.2})
    card = day.card()
    card.deal(12)
    rows = {row.name: row for row in day.problem(card).model.rows}
    assert rows["meals_egg"].most == 4
    eggs = sum(coefficient for column, coefficient in rows["day_egg"].terms if column in _settled_columns(day, card))
    assert eggs <= rows["day_egg"].most


def _settled_columns(day: Any, card: Any) -> set[int]:
    problem = day.problem(card)
    return {serving.served for serving in problem.all_servings if serving.slot.settled is not None}


def test_a_meal_of_two_kilos_is_the_athletes_own_matter() -> None:
    melon = {"time": "13:00", "what": "melon day", "foods": ["watermelon=2000g"]}
    assert at(planned(fixed=[melon]), "13:00").items[0].grams == 2000


def test_no_protein_or_window_is_asked_of_it() -> None:
    day = posed(RUN, fixed=[DINNER, LUNCH], goal={"band": [{"nutrient": PROTEIN, "least": 80, "slot": "lunch"}]})
    for slot in day.slots:
        if slot.settled is not None:
            assert (slot.protein_least, slot.limits) == (0.0, {})
    assert day.own == ()


def test_a_day_that_cannot_be_met_around_it_says_why() -> None:
    feast = {"time": "19:00", "what": "club feast", "energy_kcal": 3000}
    with pytest.raises(Unplannable) as raised:
        planned(fixed=[feast], meals_per_day=2)
    assert str(raised.value)


@pytest.mark.parametrize(
    ("entry", "says"),
    [
        ({**PORRIDGE, "dish": "egg"}, "'egg' is a food, no dish"),
        ({**LUNCH, "foods": ["oat_porridge=80g"]}, "'oat_porridge' is a dish, no food"),
        ({**LUNCH, "foods": ["oats, roled=80g"]}, "no food .nearest: oats, rolled"),
        ({**PORRIDGE, "dish": "porridge"}, "no dish .nearest: .*oat_porridge"),
        ({**PORRIDGE, "dish": "oat porrige"}, "nearest: oat_porridge"),
    ],
)
def test_names_that_do_not_fit_are_refused(entry: dict[str, Any], says: str) -> None:
    with pytest.raises(BadInput, match=says):
        posed(fixed=[entry])


def test_all_days_have_the_same_order_of_breakfasts_where_it_is_wished() -> None:
    def breakfasts(day: str, **keys: Any) -> list[str]:
        posed_day = pose_day(case(**keys), day)
        card = posed_day.card()
        card.deal(200)
        first = next(slot.index for slot in posed_day.slots if slot.kind == "breakfast")
        return [plate.dish.id for plate in card.plates[first]]

    assert breakfasts("mon", same_breakfast=True) == breakfasts("thu", same_breakfast=True)
    assert breakfasts("mon") != breakfasts("thu")
