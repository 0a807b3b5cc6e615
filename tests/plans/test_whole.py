"""A plan is held against its own case and table before anything is made of it; what is legitimate is never refused."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from mealopt import api
from mealopt.core.nutrients import ENERGY, FIBRE, PROTEIN
from mealopt.documents.parts import TargetBand
from mealopt.documents.plan import Plan, PlanDay
from mealopt.errors import BadInput
from mealopt.people.case import Case
from mealopt.people.reading import case_from_dict, case_to_dict
from mealopt.plans.day.document import session_entry, target_band
from mealopt.plans.day.pose import pose_day
from mealopt.plans.held.whole import case_of, check_whole
from tests.plans import cases, random_cases


def with_day(plan: Plan, **keys: Any) -> Plan:
    """The plan with other keys of its day."""
    return plan.model_copy(update={"days": (plan.days[0].model_copy(update=keys),)})


def refused(plan: Plan) -> str:
    """The one sentence with which a plan is refused, the same for whoever asks."""
    with pytest.raises(BadInput) as raised:
        check_whole(plan, None, "plan.json")
    says = str(raised.value)
    food = next(item.food for item in plan.days[0].meals[0].items if item.food != "salt")
    asks: list[Any] = [
        lambda: api.swap(plan, 1, food, where="plan.json"),
        lambda: api.offers(plan, 1, food, where="plan.json"),
        lambda: api.replan(plan, "14:30", where="plan.json"),
        lambda: api.why(plan, where="plan.json"),
        lambda: api.why_not(plan, "salmon", where="plan.json"),
    ]
    for ask in asks:
        with pytest.raises(BadInput) as also:
            ask()
        assert str(also.value) == says
    assert says.startswith("plan.json")
    assert "\n" not in says
    return says


@pytest.mark.parametrize("side", ["least", "aim", "most"])
@pytest.mark.parametrize("key", [ENERGY, FIBRE])
def test_a_target_that_was_edited(evening_run: Plan, key: str, side: str) -> None:
    """An edge that is opened by hand, so that the day's own totals still lie within it."""
    band = evening_run.days[0].targets[key]
    value = getattr(band, side)
    edited = {"least": 0.5, "aim": 0.9, "most": 2.0}[side] * (value or 100.0)
    if side == "aim" and key == ENERGY:
        edited = (value or 0.0) + 1.0
    targets = {**evening_run.days[0].targets, key: band.model_copy(update={side: edited})}
    assert "its case gives" in refused(with_day(evening_run, targets=targets))


def test_a_target_that_is_one_too_many(evening_run: Plan) -> None:
    targets = {**evening_run.days[0].targets, "iron_mg": TargetBand(least=1.0, aim=None, most=None)}
    assert "iron" in refused(with_day(evening_run, targets=targets))


def test_the_case_of_another_athlete(evening_run: Plan) -> None:
    athlete = {**evening_run.case["athlete"], "mass_kg": 90.0}
    assert "its case gives" in refused(
        evening_run.model_copy(update={"case": {**evening_run.case, "athlete": athlete}})
    )


def test_a_session_that_was_edited(evening_run: Plan) -> None:
    (session,) = evening_run.days[0].sessions
    assert "sessions" in refused(with_day(evening_run, sessions=(session.model_copy(update={"net_kcal": 1900.0}),)))


@pytest.mark.parametrize("kind", random_cases.KINDS)
def test_what_the_case_gives_is_found_again_for_every_diet(kind: str) -> None:
    """A case written into a document and read again gives the sessions and the targets that a plan writes down."""
    assert_found(case_from_dict(random_cases.make(0, kind), kind), "tue")


def test_days_with_moves_and_eves_are_found_again() -> None:
    """Energy moved from one day to another, and the eve of a long race, whose targets are other than usual."""
    move = {"from": "tue", "to": "wed", "kcal": 200.0}
    race = {"day": "sun", "start": "08:00", "minutes": 240, "kind": "run", "effort": "race"}
    case = cases.case(cases.RUN, race, goal={"move": [move]})
    assert pose_day(case, "sat").targets.eve
    for day in ("tue", "wed", "sat", "sun"):
        assert_found(case, day)


def assert_found(case: Case, day: str) -> None:
    """The day, posed and written down, is that of the case."""
    posed = pose_day(case, day)
    entry = PlanDay(
        day=day,
        date=None,
        sessions=tuple(session_entry(one, n) for n, one in enumerate(posed.targets.sessions, start=1)),
        targets={key: target_band(band) for key, band in posed.bands.items()},
        meals=(),
        totals={},
        coverage={},
        missed=(),
        cautions=(),
    )
    plan = SimpleNamespace(case=case_to_dict(case), sessions_before=())
    assert case_of(plan, entry, None, day).sessions_on(day) == case.sessions_on(day)  # type: ignore[arg-type]


def test_a_day_whose_session_is_off_stands_and_may_be_changed_again(evening_run: Plan) -> None:
    """The day is not taken below its baseline, so its targets are not the engine's for a day of rest: they stand."""
    athlete = {**cases.ATHLETE, "body_fat_percent": 30.0}
    data = {
        "schema": "mealopt/case-1",
        "athlete": athlete,
        "goal": {"mass_change_percent_per_week": -0.5},
        "session": [{**cases.RUN, "minutes": 90}],
    }
    plan = api.plan_day(case_from_dict(data, "losing"), "tue", gap=0.3, seconds=60)
    off = api.replan(plan, "17:20", session_off=[1], seconds=4).plan
    assert off.sessions_before == ((plan.case["session"][0],),)
    check_whole(off, None, "plan.json")
    again = api.replan(off, "17:25", session=["21:00 30 walk easy"], seconds=4).plan
    assert len(again.sessions_before) == 2
    check_whole(again, None, "plan.json")
    band = off.days[0].targets[PROTEIN]
    targets = {**off.days[0].targets, PROTEIN: band.model_copy(update={"most": (band.most or 0.0) + 40.0})}
    with pytest.raises(BadInput, match="its case gives"):
        check_whole(with_day(off, targets=targets), None, "plan.json")
