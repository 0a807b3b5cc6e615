"""The one object that a page knows: how typing, opening and planning change it."""

from __future__ import annotations

import json

import pytest

from mealopt import api
from mealopt.errors import BadInput
from mealopt.ui import desk
from mealopt.ui.files import from_text
from mealopt.ui.inputs import concerns, spot
from mealopt.ui.pages.training import added, removed
from mealopt.ui.state import State, opened, same_case, typed, with_plan


@pytest.fixture
def state() -> State:
    return desk.first_state()


def test_the_example_that_ships_is_planned_checked_and_of_today(state: State) -> None:
    """Where this fails: `python -m mealopt.ui.example`."""
    plan = state.week
    assert plan is not None
    assert same_case(plan.case, api.read_case())
    assert api.recheck(plan) == []
    week = api.week_targets(api.read_case())
    for entry in plan.days:
        assert entry.targets["energy_kcal"].aim == pytest.approx(week.days[entry.day].bands["energy_kcal"].aim)


def test_typing_makes_another_state_and_leaves_the_first_alone(state: State) -> None:
    other = typed(state, ("athlete", "mass_kg"), 70)
    assert (state.case.athlete.mass_kg, other.case.athlete.mass_kg) == (68, 70)
    assert other.complaint == ""
    assert not other.current("sat")
    assert typed(other, ("athlete", "mass_kg"), 68).current("sat"), "back again, the plan is current again"


def test_what_cannot_be_read_leaves_the_case_as_it_was(state: State) -> None:
    bad = typed(state, ("athlete", "mass_kg"), 9)
    assert bad.case == state.case
    assert bad.complaint.startswith("[athlete] mass_kg: read 9;")
    assert bad.draft["athlete"]["mass_kg"] == 9
    assert typed(bad, ("athlete", "mass_kg"), None).complaint.startswith("[athlete]: read no mass_kg")
    assert typed(bad, ("athlete", "mass_kg"), 68).complaint == ""


def test_a_key_is_taken_out_and_a_table_made(state: State) -> None:
    without = typed(state, ("athlete", "body_fat_percent"), None)
    assert "body_fat_percent" not in without.draft["athlete"]
    assert without.case.athlete.body_fat_percent is None
    bare = opened(api.case_from_data({**api.case_data(state.case), "goal": {}}))
    del bare.draft["goal"]
    assert typed(bare, ("goal", "protein_g_per_kg"), 2.0).case.goal.protein_g_per_kg == 2.0


@pytest.mark.parametrize(
    ("path", "words"),
    [
        (("athlete", "mass_kg"), "[athlete] mass_kg"),
        (("session", 2, "start"), "[[session]] 3 start"),
        (("kitchen", "day", 0, "wake"), "[[kitchen.day]] 1 wake"),
    ],
)
def test_a_place_is_named_as_complaints_name_it(path: tuple[str | int, ...], words: str) -> None:
    assert spot(path) == words
    assert concerns(f"{words}: read 9", path)
    assert concerns(f"{words}, entry 1: read 9", path)
    assert not concerns(f"{words}_more: read 9", path)


def test_a_session_that_is_added_finds_a_free_hour(state: State) -> None:
    one = added(state, "tue")
    assert one.complaint == ""
    assert len(one.case.session) == len(state.case.session) + 1
    assert one.opened == state.opened + 1
    place = next(at for at, each in enumerate(one.draft["session"]) if (each["day"], each["start"]) == ("tue", "12:00"))
    assert removed(one, place).case.session == state.case.session


def test_what_is_saved_is_opened_again(state: State) -> None:
    case = from_text(state, api.case_text(state.case), "case.toml")
    assert case.case == state.case
    assert case.plans == {}
    assert case.opened == state.opened + 1
    plan = state.plans["sat"]
    again = from_text(state, api.plan_text(plan), "plan.json")
    assert again.plans["sat"] == plan
    assert again.current("sat")


@pytest.mark.parametrize(
    ("name", "text", "says"),
    [
        ("case.toml", "schema = ", "case.toml, last line: read broken TOML"),
        ("case.toml", "", "case.toml: read an empty file"),
        ("plan.json", "{", "plan.json, line 1"),
        ("plan.json", json.dumps({"schema": "mealopt/plan-9"}), "another version of the plan document"),
    ],
)
def test_a_broken_file_is_the_command_s_sentence(state: State, name: str, text: str, says: str) -> None:
    with pytest.raises(BadInput) as raised:
        from_text(state, text, name)
    assert says in str(raised.value)


def test_a_day_planned_alone_takes_that_day_out_of_the_week(state: State) -> None:
    week = state.week
    assert week is not None
    alone = week.model_copy(update={"kind": "day", "days": (week.days[0],)})
    other = with_plan(state, alone)
    assert other.week is None
    assert other.plans["mon"] is alone
    assert other.plans["tue"] is week
