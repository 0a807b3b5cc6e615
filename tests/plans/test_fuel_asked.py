"""What may be asked for, whose wishes count, and what is said beside the plan."""

from __future__ import annotations

from typing import Any

import pytest

from mealopt import api
from mealopt.errors import BadInput, Refused
from mealopt.menu.dishes import shipped_menu
from mealopt.people.case import Case
from mealopt.recheck.facts import Facts
from mealopt.recheck.foods import forbidden
from tests.plans import cases
from tests.plans.fuel_cases import RIDE, with_athlete


@pytest.mark.parametrize(
    "kitchen",
    [
        {"diet": "vegan"},
        {"gluten_free": True},
        {"avoid_allergens": ["gluten", "sulphites", "milk", "soybeans"]},
        {"never": ["sugar", "jelly sweets", "salt"]},
    ],
)
def test_wishes_hold_in_sessions_too(kitchen: dict[str, Any]) -> None:
    case = cases.case({**RIDE, "minutes": 240}, **kitchen)
    plan = api.fuel(case)[0]
    facts = Facts.model_validate(case.model_dump(mode="json", by_alias=True))
    foods = shipped_menu().pantry.foods
    assert plan.foods
    for food in plan.foods:
        assert list(forbidden(foods[food.food], facts.kitchen)) == []
        assert food.food not in kitchen.get("never", ())


@pytest.mark.parametrize("caution", ["diabetes", "heart", "liver", "medication"])
def test_no_fuel_plan_with_illness(caution: str) -> None:
    case = with_athlete(cases.case(RIDE), cautions=[caution])
    with pytest.raises(Refused, match="doctor or registered dietitian"):
        api.fuel(case)


def test_asking_for_what_is_not_fuelled() -> None:
    case = cases.case(RIDE, cases.RUN)
    assert [plan.session for plan in api.fuel(case)] == [1]
    with pytest.raises(BadInput, match="session: read 2, the run of 60 min"):
        api.fuel(case, day="tue", session=2)
    with pytest.raises(BadInput, match="1 to 2 of the week"):
        api.fuel(case, session=3)
    with pytest.raises(BadInput, match="day: read 'noday'"):
        api.fuel(case, day="noday")
    with pytest.raises(BadInput, match="no race"):
        api.event_sheet(case)


def test_caffeine_only_where_it_is_asked_for_and_allowed() -> None:
    def before(case: Case) -> str:
        return " ".join(api.fuel(case)[0].before)

    plain = cases.case({**RIDE, "effort": "hard"})
    asked = plain.model_copy(update={"fuel": plain.fuel.model_copy(update={"caffeine": True})})
    late = cases.case({**RIDE, "effort": "hard", "start": "17:00"})
    late = late.model_copy(update={"fuel": late.fuel.model_copy(update={"caffeine": True})})
    assert "caffeine" not in before(plain)
    assert "at most 200 mg at 07:30" in before(asked)
    assert "within 8 h of sleep" in before(late)
    assert "ask a doctor first" in before(with_athlete(asked, cautions=["bone_stress_injury"]))


def test_the_gut_is_trained_in_weekly_steps() -> None:
    case = with_athlete(cases.case(RIDE), carbohydrate_used_to_g_per_h=50.0)
    wished = {"event_weeks": 3, "event_minutes": 300}
    notes = " ".join(api.fuel(case.model_copy(update={"fuel": case.fuel.model_copy(update=wished)}))[0].notes)
    assert "60, 70, 80 g/h" in notes
    assert "90 g/h cannot be reached" in notes
