"""Days that nothing fits: what clashes is said, and with the lines that are offered the day is planned."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from typing import Any

import pytest

from mealopt import api
from mealopt.core.bands import Band
from mealopt.core.nutrients import PROTEIN
from mealopt.errors import Unplannable
from mealopt.menu.dishes import shipped_menu
from mealopt.milp.highs import Highs
from mealopt.people.case import Case
from mealopt.plans.day.changes import CAUTION
from mealopt.plans.day.kept_out import unserved
from mealopt.plans.day.least import all_plates, hopeless, posed_problem
from mealopt.plans.day.pose import pose_day
from tests.plans.cases import RUN, case, posed
from tests.plans.remedies import with_lines

VEGAN: dict[str, Any] = {"diet": "vegan", "avoid_allergens": ["soybeans"], "gluten_free": True, "meals_per_day": 3}
BREAKFAST = {"nutrient": "protein_g", "least": 120, "slot": "breakfast"}

#: Jam is no whole food, whatever dishes there are: with it settled, a day of whole foods alone cannot be.
JAM = {"time": "10:00", "what": "bread and jam", "foods": ["bread, white=58g", "jam=40g"]}
WHOLE = {"nutrient": "whole_food_percent", "least": 100}


#: Case as text -> why its tuesday cannot be planned: several tests read the same reasons.
REFUSED: dict[str, Unplannable] = {}


def refusal(of: Case) -> Unplannable:
    """Why this case's tuesday cannot be planned."""
    text = of.model_dump_json()
    if text not in REFUSED:
        with pytest.raises(Unplannable) as raised:
            api.plan_day(of, "tue", gap=1.0, seconds=60)
        REFUSED[text] = raised.value
    return REFUSED[text]


def bands(remedies: tuple[str, ...]) -> list[dict[str, Any]]:
    """Every band that is offered."""
    return [band for text in remedies for band in tomllib.loads(text).get("goal", {}).get("band", [])]


@pytest.mark.parametrize(
    ("changed", "offered", "clashes"),
    [
        (case(cook_minutes=3, meals_per_day=3), {"kitchen_minutes"}, "at most 3 minutes in the kitchen"),
        (case(goal={"band": [BREAKFAST]}, meals_per_day=3), {"protein_g"}, "at least 120 g protein"),
        (case(RUN, fixed=[JAM], goal={"band": [WHOLE]}), {"whole_food_percent"}, "100%"),
    ],
    ids=["minutes", "a band for breakfast", "whole foods only"],
)
def test_with_the_lines_offered_the_day_is_planned(changed: Case, offered: set[str], clashes: str) -> None:
    error = refusal(changed)
    assert clashes in str(error)
    assert any(clashes in clash for clash in error.clashes)
    assert offered <= {band["nutrient"] for band in bands(error.remedies)}
    assert all(band.get("day", "tue") == "tue" for band in bands(error.remedies))
    plan = api.plan_day(with_lines(changed, error.remedies), "tue", gap=1.0, seconds=60)
    assert api.recheck(plan) == []


def test_no_more_is_given_than_a_breakfast_needs() -> None:
    """The most protein that a breakfast holds, found by itself without the rest of the day: the offer lies just under
    it."""
    asked = case(goal={"band": [BREAKFAST]}, meals_per_day=3)
    day = posed(meals_per_day=3)
    breakfast = next(slot for slot in day.slots if slot.kind == "breakfast")
    wishes = replace(day.wishes, whole_food_share=0.0, produce_kinds=0, warm_main=False)
    alone = replace(day, slots=(replace(breakfast, index=0),), bands={}, wishes=wishes)
    problem = posed_problem(alone, (all_plates(day)[breakfast.index],))
    model = problem.model
    model.maximise = True
    model.cost[:] = [0.0] * len(model.cost)
    model.cost[problem.sum_of(alone.slots[0], PROTEIN)[0]] = 1.0
    most = Highs(model).solve(1e-3, 60.0)
    (band,) = (band for band in bands(refusal(asked).remedies) if band.get("slot") == "breakfast")
    assert 0.85 * most.objective - 2.0 <= band["least"] <= most.bound


def test_what_a_vegan_without_soya_and_gluten_is_offered_is_enough_and_hardly_more() -> None:
    """With less protein the day has no snack: the offer lies under the most that its three meals hold by the linear
    program, and not far. What a wish about food costs is said with its caution."""
    asked = case(goal={"protein_g_per_kg": 2.4}, **VEGAN)
    error = refusal(asked)
    assert any("protein: at least" in clash for clash in error.clashes)
    (band,) = bands(error.remedies)
    assert band["nutrient"] == PROTEIN
    assert band["day"] == "tue"
    eased = with_lines(asked, error.remedies)
    assert api.recheck(api.plan_day(eased, "tue", gap=1.0, seconds=60)) == []

    day = pose_day(eased, "tue")
    assert len(day.slots) < len(pose_day(asked, "tue").slots)
    problem = posed_problem(replace(day, bands=day.bands | {PROTEIN: Band()}), all_plates(day))
    model = problem.model
    model.cost[:] = [0.0] * len(model.cost)
    for slot in day.slots:
        model.cost[problem.sum_of(slot, PROTEIN)[0]] = -1.0
    most = -Highs(model).relax().objective
    assert 0.75 * most <= band["least"] <= most

    freed = [clash for clash in error.clashes if clash in ("no soybeans", "gluten-free", "vegan only")]
    assert freed, "one of the wishes stands in the way, and is named"
    assert ("allow" in str(error)) == (CAUTION in str(error))
    assert all("avoid_allergens" not in text and "gluten" not in text for text in error.remedies)


def test_a_meal_without_a_dish_says_what_kept_each_out() -> None:
    """No dish for lunch is left: every dish is counted once, and the line that helps is no band and says so."""
    never = [dish.id for dish in shipped_menu().dishes.values() if "lunch" in dish.slots]
    error = refusal(case(never=never))
    assert "no dish fits the lunch at" in str(error)
    assert "never to be planned" in str(error)
    (text,) = error.remedies
    assert "no band helps" in text
    assert CAUTION in text
    assert tomllib.loads(text) == {"kitchen": {"never": []}}
    api.plan_day(with_lines(case(never=never), error.remedies), "tue", gap=1.0, seconds=60)


def test_reasons_count_every_dish_of_the_meal() -> None:
    day = posed(diet="vegan", never=["oats, rolled"], cook_minutes=5, can_cook=["03:00-03:30"],
                avoid_allergens=["soybeans", "nuts", "gluten", "sesame", "mustard", "celery", "sulphites"])  # fmt: skip
    for kept in unserved(day):
        assert sum(kept.by.values()) + kept.plates == len(shipped_menu().by_slot(kept.slot.kind))


def test_a_day_that_its_meals_cannot_hold_says_so_without_a_line_that_would_not_help() -> None:
    """Eleven hours on the road leave two meals for 7,000 kcal: no band, wish or minute changes that."""
    ride = {"day": "tue", "start": "06:30", "minutes": 700, "kind": "ride", "effort": "easy", "active_kcal": 5000}
    long = case(ride | {"energy_from": "power"}, wake="06:00", sleep="19:00", meals_per_day=2)
    error = refusal(long)
    assert "meals hold at most" in str(error)
    assert "kcal or more are asked for" in str(error) or "kcal are asked for" in str(error)
    assert error.remedies == ()
    assert error.clashes


def test_the_linear_program_alone_proves_some_days_hopeless() -> None:
    assert hopeless(posed(goal={"band": [BREAKFAST]}, meals_per_day=3))
    assert not hopeless(posed(meals_per_day=3))
