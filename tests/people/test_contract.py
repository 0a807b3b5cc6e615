"""What other rooms and the outside rely on: the words, the table of keys, the sample of the design, the examples."""

from __future__ import annotations

from pathlib import Path
from typing import get_args

import pytest
from pydantic import BaseModel, ValidationError

from mealopt.core.clock import DAYS
from mealopt.core.filters import ALLERGENS, DIETS
from mealopt.core.slots import KINDS
from mealopt.errors import BadInput
from mealopt.people.case import Athlete, Case, Session
from mealopt.people.checks import DAILY_MOST, HOURLY_MOST
from mealopt.people.fields import DayName
from mealopt.people.goal import SlotKind
from mealopt.people.kitchen import Allergen, Diet
from mealopt.people.reading import case_from_dict, case_from_text, case_to_dict, read_case
from mealopt.people.reference import case_reference, table_of

EXAMPLES = Path(__file__).parents[2] / "examples"

#: The form of the case file that is relied on from outside, every table and every key of it.
SAMPLE = """
schema  = "mealopt/case-1"
week_of = 2027-03-08

[athlete]
name = "Skerry demo athlete"
sex = "female"
age = 31
mass_kg = 68.0
height_cm = 171.0
body_fat_percent = 24.0
steps_per_day = 8000
lifting_hours_per_week = 4.0
carbohydrate_used_to_g_per_h = 40
cautions = []

[goal]
mass_change_percent_per_week = 0.0
protein_g_per_kg = 1.8
fat_g_per_kg = 0.8
energy_replaced = 0.85
spread = "by_day"
baseline_kcal = 2450
resting_equation = "auto"
[[goal.move]]
from = "sat"
to = "sun"
kcal = 400

[kitchen]
diet = "omnivore"
gluten_free = false
avoid_allergens = ["peanuts"]
never = []
prefer = []
less = []
wake = "06:00"
sleep = "22:30"
meals_per_day = 4
cook_minutes = 60
budget_per_day = 14.0
[[kitchen.day]]
day = "wed"
wake = "04:45"
cook_minutes = 15
away = "microwave"
away_from = "08:00"
away_to = "17:00"
[[kitchen.fixed]]
day = "fri"
time = "19:30"
what = "dinner out"
energy_kcal = 900

[[session]]
day = "tue"
start = "07:30"
minutes = 75
kind = "run"
effort = "hard"
active_kcal = 640
energy_is = "active"
energy_from = "wrist"
distance_km = 12.0

[[goal.band]]
nutrient = "fibre_g"
least = 20
day = "sat"
"""


def test_the_form_that_is_relied_on() -> None:
    case = case_from_text(SAMPLE, "sample")
    assert case.schema_name == "mealopt/case-1"
    assert case.goal.move[0].from_day == "sat"
    assert case.goal.move[0].to_day == "sun"
    assert case.goal.band[0].nutrient == "fibre_g"
    assert case.sessions_on("tue")[0].active_kcal == 640
    assert case.kitchen_on("wed").wake == 285
    assert case.kitchen_on("fri").fixed[0].energy_kcal == 900
    assert case_from_dict(case_to_dict(case), "plan.json") == case


def test_words_are_those_of_core() -> None:
    assert get_args(Allergen) == ALLERGENS
    assert get_args(Diet) == DIETS
    assert get_args(DayName) == DAYS
    assert get_args(SlotKind) == KINDS


def test_allergens_are_the_fourteen_of_the_regulation() -> None:
    """Regulation (EU) No 1169/2011, Annex II: fourteen entries, in its order."""
    assert len(get_args(Allergen)) == 14
    assert get_args(Allergen)[:7] == ("gluten", "crustaceans", "eggs", "fish", "peanuts", "soybeans", "milk")


def test_the_hardest_work_ever_measured_is_let_through() -> None:
    """Herrmann et al. 2024, Compendium, code 12135: running 14 mph, 23.0 MET, at 1 kcal/kg/h each; 26 does not pass."""
    text = SAMPLE.replace("minutes = 75", "minutes = 60").replace("distance_km = 12.0", "")
    assert case_from_text(text.replace("= 640", f"= {23.0 * 68}"), "case").session[0].active_kcal == 23.0 * 68
    assert HOURLY_MOST > 23.0
    with pytest.raises(BadInput, match="no body of 68 kg burns over 1700 kcal"):
        case_from_text(text.replace("= 640", f"= {26 * 68}"), "case")


def test_a_hundred_miles_in_a_day_are_let_through() -> None:
    """ACSM level running, 1 kcal/kg/km net (standards section 2.3): 160.9 km; a wall of 8,000 kcal would refuse it."""
    race = {"day": "sat", "start": "04:00", "minutes": 1380, "kind": "run", "effort": "race", "active_kcal": 160.9 * 68}
    athlete = {"name": "a", "sex": "male", "age": 40, "mass_kg": 68, "height_cm": 180}
    sunday = {"day": [{"day": "sun", "wake": "08:00"}]}
    data = {"schema": "mealopt/case-1", "athlete": athlete, "kitchen": sunday, "session": [race]}
    assert case_from_dict(data, "case").session[0].active_kcal == pytest.approx(10941, abs=1)
    assert DAILY_MOST > 160.9


@pytest.mark.parametrize("age", [10, 17])
def test_minors_can_be_read_so_that_the_refusal_is_about_safety(age: int) -> None:
    assert case_from_text(SAMPLE.replace("age = 31", f"age = {age}"), "case").athlete.age == age


def test_a_case_does_not_change() -> None:
    case = case_from_text(SAMPLE, "case")
    with pytest.raises(ValidationError, match="frozen"):
        case.athlete.mass_kg = 70.0  # type: ignore[misc]


def test_names_of_attributes_are_not_keys() -> None:
    with pytest.raises(BadInput, match="key that does not exist"):
        case_from_text(SAMPLE.replace("from =", "from_day ="), "case")


def every_key(model: type[BaseModel]) -> int:
    count = 0
    for info in model.model_fields.values():
        below, _ = table_of(info)
        count += 1 if below is None else every_key(below)
    return count


def test_the_table_of_keys_names_every_key_once() -> None:
    rows = case_reference()
    assert len(rows) == every_key(Case)
    assert len({row[0] for row in rows}) == len(rows)
    for key, kind, allowed, default, meaning in rows:
        assert key
        assert kind
        assert default
        assert meaning.endswith("."), key
        assert allowed or kind in ("true or false", "list of times"), key


@pytest.mark.parametrize(
    "row",
    [
        ("schema", "word", "mealopt/case-1", "required"),
        ("week_of", "date", "a Monday", "-"),
        ("[athlete] mass_kg", "number", "30 to 250 kg", "required"),
        ("[athlete] steps_per_day", "whole number", "0 to 40000 steps", "7000"),
        ("[goal] mass_change_percent_per_week", "number", "-1 to 0.5 % of body mass a week", "0"),
        ("[[goal.move]] from", "word", "mon, tue, wed, thu, fri, sat, sun", "required"),
        ("[[goal.band]] most", "number", "0 to 200000", "-"),
        ("[kitchen] gluten_free", "true or false", "", "false"),
        ("[kitchen] never", "list of texts", "1 to 200 characters, at most 500 entries", "[]"),
        ("[kitchen] wake", "time", "00:00 to 47:59", '"06:30"'),
        ("[kitchen] can_cook", "list of times", "end after start, at most 12 entries", "-"),
        ("[[kitchen.fixed]] foods", "list of foods and grams", "1 to 2000 g, at most 30 entries", "-"),
        ("[[session]] minutes", "whole number", "5 to 1440 minutes", "required"),
    ],
)
def test_rows_of_the_table(row: tuple[str, ...]) -> None:
    assert row in [line[:4] for line in case_reference()]


def test_ranges_of_the_table_are_those_that_hold() -> None:
    """Each end of a printed range can be read, and a little beyond it cannot (models, not the whole case)."""
    for model, data in (
        (Athlete, {"name": "a", "sex": "male", "age": 40, "mass_kg": 80, "height_cm": 180}),
        (Session, {"day": "mon", "start": "09:00", "minutes": 60, "kind": "other", "effort": "easy"}),
    ):
        table = f"[{model.__name__.lower()}] " if model is Athlete else "[[session]] "
        numbers = [row for row in case_reference() if row[0].startswith(table) and "number" in row[1]]
        assert len(numbers) >= 5
        for key, kind, allowed, *_ in numbers:
            name = key.removeprefix(table)
            ends = [float(word) for word in allowed.split(" ")[:3:2]]
            beyond = [ends[0] - 1, ends[1] + 1]
            cast = int if kind == "whole number" else float
            for value in beyond:
                with pytest.raises(ValidationError, match=r"greater than or equal|less than or equal"):
                    model.model_validate({**data, name: cast(value)})
            if name not in ("mass_kg", "height_cm"):
                for value in ends:
                    assert getattr(model.model_validate({**data, name: cast(value)}), name) == value


@pytest.mark.parametrize("file", sorted(EXAMPLES.glob("*.toml")), ids=lambda file: file.stem)
def test_examples_can_be_read(file: Path) -> None:
    case = read_case(file)
    assert case.athlete.name.startswith("Skerry")
    assert case.athlete.cautions is not None
    assert len(case.session) >= 4
    assert case_from_dict(case_to_dict(case), "plan.json") == case


def test_examples_are_the_weeks_that_they_say() -> None:
    cases = {file.stem: read_case(file) for file in EXAMPLES.glob("*.toml")}
    heavy = cases["heavy"]
    assert heavy.athlete.name == "Skerry demo athlete"
    assert [(one.start, one.minutes, one.kind, one.hard) for one in heavy.sessions_on("tue")] == [
        ("07:30", 75, "run", True),
        ("17:30", 60, "lift", True),
    ]
    assert any(one.kind == "ride" and 210 <= one.minutes <= 240 for one in heavy.sessions_on("sat"))
    assert (cases["vegan_runner"].kitchen.diet, cases["vegan_runner"].athlete.mass_kg) == ("vegan", 52)
    assert (cases["rower_cutting"].athlete.mass_kg, cases["rower_cutting"].goal.mass_change_percent_per_week) == (
        105, -0.5,
    )  # fmt: skip
    first, second = cases["double_day"].sessions_on("tue")
    assert first.endurance
    assert second.endurance
    assert second.start_minute - first.end_minute < 8 * 60
    assert cases["night_shift"].kitchen_on("tue").sleep > 1440
    assert cases["gluten_free"].kitchen.gluten_free
    assert all(one.effort == "easy" for one in cases["rest_week"].session)
    assert cases["no_milk_gain"].kitchen.avoid_allergens == ("milk",)
    assert cases["no_milk_gain"].goal.mass_change_percent_per_week == 0.25
