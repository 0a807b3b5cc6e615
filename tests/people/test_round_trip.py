"""A case goes to plain data, to JSON and to TOML, and comes back equal."""

from __future__ import annotations

import json
from typing import Any, get_args

from hypothesis import given
from hypothesis import strategies as st

from mealopt.core.clock import DAYS, clock
from mealopt.people.athlete import Caution, Sex
from mealopt.people.case import Case
from mealopt.people.goal import BAND_KEYS, RestingEquation, SlotKind, Spread
from mealopt.people.kitchen import Allergen, Diet
from mealopt.people.reading import case_from_dict, case_from_text, case_to_dict
from mealopt.people.session import Effort, EnergyFrom, EnergyIs, Kind
from mealopt.people.writing import case_to_text


def one_of(words: Any) -> st.SearchStrategy[str]:
    return st.sampled_from(get_args(words))


def number(least: float, most: float) -> st.SearchStrategy[float]:
    return st.floats(least, most, allow_nan=False)


days = st.sampled_from(DAYS)
names = st.text(st.characters(exclude_categories=["C", "Zl", "Zp"]), min_size=1, max_size=12)
spans = st.tuples(st.integers(0, 1400), st.integers(1, 1000)).map(
    lambda pair: f"{clock(pair[0])}-{clock(pair[0] + pair[1])}"
)


@st.composite
def athletes(draw: st.DrawFn) -> dict[str, Any]:
    height = draw(number(140, 210))
    fixed = {
        "name": names, "sex": one_of(Sex), "age": st.integers(10, 100),
        "mass_kg": number(15 * (height / 100) ** 2 + 1, 45 * (height / 100) ** 2), "height_cm": st.just(height),
    }  # fmt: skip
    free = {
        "body_fat_percent": number(3, 60), "steps_per_day": st.integers(0, 40000),
        "lifting_hours_per_week": number(0, 30), "carbohydrate_used_to_g_per_h": number(0, 120),
        "cautions": st.lists(one_of(Caution), max_size=3),
    }  # fmt: skip
    return draw(st.fixed_dictionaries(fixed, optional=free))


@st.composite
def bands(draw: st.DrawFn) -> dict[str, Any]:
    keys = draw(st.lists(st.sampled_from(["least", "aim", "most"]), min_size=1, unique=True))
    values = sorted(draw(number(0, 5000)) for _ in keys)
    limits = dict(zip(sorted(keys, key=["least", "aim", "most"].index), values, strict=True))
    where = draw(st.sampled_from([{}, {"slot": draw(one_of(SlotKind))}, {"meal": draw(st.integers(1, 20))}]))
    day = draw(st.sampled_from([{}, {"day": draw(days)}]))
    return {"nutrient": draw(st.sampled_from(BAND_KEYS)), **limits, **where, **day}


goals = st.fixed_dictionaries(
    {},
    optional={
        "mass_change_percent_per_week": number(-1, 0.5),
        "protein_g_per_kg": number(1.2, 2.4),
        "fat_g_per_kg": number(0.5, 1.5),
        "energy_replaced": number(0.7, 1),
        "spread": one_of(Spread),
        "baseline_kcal": number(800, 6000),
        "resting_equation": one_of(RestingEquation),
        "move": st.permutations(DAYS).map(lambda two: [{"from": two[0], "to": two[1], "kcal": 400.5}]),
        "band": st.lists(bands(), max_size=1),
    },
)
kitchens = st.fixed_dictionaries(
    {},
    optional={
        "diet": one_of(Diet),
        "gluten_free": st.booleans(),
        "avoid_allergens": st.lists(one_of(Allergen), max_size=3),
        "never": st.lists(names, max_size=3),
        "prefer": st.lists(names, max_size=3),
        "wake": st.integers(3 * 60, 7 * 60).map(clock),
        "sleep": st.sampled_from(["22:00", "23:59", "00:30", "25:00"]),
        "meals_per_day": st.integers(2, 8),
        "cook_minutes": st.integers(0, 300),
        "budget_per_day": number(0.1, 100000),
        "can_cook": st.lists(spans, max_size=2),
        "same_breakfast": st.booleans(),
        "people_at_table": st.integers(1, 12),
        "own_foods": names,
        "day": days.map(lambda day: [{"day": day, "away": "can_buy", "away_from": "09:00", "away_to": "17:00"}]),
        "fixed": days.map(lambda day: [{"day": day, "time": "20:30", "what": "out", "foods": ["oats, rolled=80g"]}]),
    },
)


@st.composite
def weeks(draw: st.DrawFn) -> list[dict[str, Any]]:
    """Up to two sessions a day, in the morning and in the evening, in any order."""
    week = []
    for day in draw(st.lists(days, unique=True)):
        for start in draw(st.lists(st.sampled_from(["08:00", "17:15"]), unique=True)):
            fixed = {
                "day": st.just(day), "start": st.just(start), "minutes": st.integers(30, 180), "kind": one_of(Kind),
                "effort": one_of(Effort),
            }  # fmt: skip
            free = {
                "active_kcal": number(20, 300), "energy_is": one_of(EnergyIs), "energy_from": one_of(EnergyFrom),
                "distance_km": number(0.05, 3), "climb_m": number(0, 20000), "mean_power_w": number(20, 700),
            }  # fmt: skip
            week.append(draw(st.fixed_dictionaries(fixed, optional=free)))
    return draw(st.permutations(week))


cases = st.fixed_dictionaries(
    {"schema": st.just("mealopt/case-1"), "athlete": athletes()},
    optional={"week_of": st.just("2027-03-08"), "goal": goals, "kitchen": kitchens, "session": weeks()},
)


def when(session: dict[str, Any]) -> tuple[int, str]:
    return DAYS.index(session["day"]), session["start"]


def toml(value: Any) -> str:
    """A value as inline TOML; text without control characters is written alike in JSON."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key} = {toml(inner)}" for key, inner in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(toml, value)) + "]"
    return json.dumps(value, ensure_ascii=False)


@given(cases)
def test_a_case_comes_back_equal(data: dict[str, Any]) -> None:
    case = case_from_dict(data, "case")
    plain = case_to_dict(case)
    again = case_from_dict(json.loads(json.dumps(plain)), "plan.json")
    assert again == case
    assert again.model_fields_set == case.model_fields_set
    assert case_to_dict(again) == plain
    text = "\n".join(f"{key} = {toml(value)}" for key, value in plain.items())
    assert case_from_text(text, "case.toml") == case


@given(cases)
def test_a_case_file_is_written_that_reads_equal(data: dict[str, Any]) -> None:
    case = case_from_dict(data, "case")
    again = case_from_text(case_to_text(case), "case.toml")
    assert again == case
    assert case_to_dict(again) == case_to_dict(case)


@given(cases)
def test_what_was_written_is_kept(data: dict[str, Any]) -> None:
    """Nothing is lost or added on the way, but for the order of sessions."""
    plain = case_to_dict(case_from_dict(data, "case"))
    assert plain["athlete"] == data["athlete"]
    for table in ("goal", "kitchen"):
        assert plain.get(table) == data.get(table)
    written = data.get("session", [])
    assert sorted(plain.get("session", []), key=when) == sorted(written, key=when)


@given(cases)
def test_every_day_can_be_asked(data: dict[str, Any]) -> None:
    case = case_from_dict(data, "case")
    assert [one for day in DAYS for one in case.sessions_on(day)] == list(case.session)
    assert [case.kitchen_on(day).next_wake - 1440 for day in DAYS] == [
        case.kitchen_on(day).wake for day in (*DAYS[1:], DAYS[0])
    ]


def test_null_is_the_same_as_not_written() -> None:
    athlete = {"name": "a", "sex": "male", "age": 40, "mass_kg": 80, "height_cm": 180, "cautions": None}
    case = case_from_dict({"schema": "mealopt/case-1", "athlete": athlete, "week_of": None}, "plan.json")
    assert case.athlete.cautions is None
    assert case == case_from_dict(case_to_dict(case), "plan.json")


def test_asked_and_none_is_not_the_same_as_not_asked() -> None:
    athlete = {"name": "a", "sex": "male", "age": 40, "mass_kg": 80, "height_cm": 180}
    asked = case_from_dict({"schema": "mealopt/case-1", "athlete": {**athlete, "cautions": []}}, "case")
    missing = case_from_dict({"schema": "mealopt/case-1", "athlete": athlete}, "case")
    assert case_to_dict(asked)["athlete"]["cautions"] == []
    assert "cautions" not in case_to_dict(missing)["athlete"]
    assert asked != missing
    assert isinstance(asked, Case)
