"""Reading and writing the plan document: round trips, and one clear sentence for what cannot be used."""

from __future__ import annotations

import json
from typing import Any

import pytest

from mealopt.documents.plan import Plan
from mealopt.documents.reading import plan_from_text, plan_to_text
from mealopt.errors import BadInput


def put(document: dict[str, Any], path: str, value: Any) -> None:
    """Set the value at a path like days.0.meals.0.time; DROP takes the key away."""
    *around, last = path.split(".")
    node: Any = document
    for part in around:
        node = node[int(part)] if part.isdigit() else node[part]
    if value == "DROP":
        del node[last]
    else:
        node[int(last) if last.isdigit() else last] = value


def refused(text: str) -> str:
    with pytest.raises(BadInput) as caught:
        plan_from_text(text, "plan.json")
    says = str(caught.value)
    assert says.startswith("plan.json")
    assert "\n" not in says
    assert len(says) < 1200
    return says


def test_the_form_of_the_design_is_read(document: dict[str, Any]) -> None:
    plan = plan_from_text(json.dumps(document), "plan.json")
    assert plan.days[0].meals[0].items[0].grams == 35.0
    assert plan.groceries[0].price == 1.2
    assert plan.days[0].targets["protein_g"].aim is None


def test_what_is_written_is_read_again_as_the_same(document: dict[str, Any]) -> None:
    plan = Plan.model_validate(document)
    text = plan_to_text(plan)
    assert plan_from_text(text, "plan.json") == plan
    assert plan_to_text(plan_from_text(text, "plan.json")) == text
    assert text.startswith('{\n  "schema": "mealopt/plan-1",\n  "kind"')
    assert text.endswith("}\n")


def test_nutrients_are_written_in_one_order(document: dict[str, Any]) -> None:
    text = plan_to_text(Plan.model_validate(document))
    totals = document["days"][0]["meals"][0]["totals"]
    document["days"][0]["meals"][0]["totals"] = dict(reversed(totals.items()))
    assert plan_to_text(Plan.model_validate(document)) == text


def test_letters_stay_letters(document: dict[str, Any]) -> None:
    document["days"][0]["meals"][0]["dish"] = "crème fraîche, jalapeño"
    assert "crème fraîche, jalapeño" in plan_to_text(Plan.model_validate(document))


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_nan_is_refused_at_both_doors(document: dict[str, Any], value: float) -> None:
    document["case"]["mass_kg"] = value
    with pytest.raises(BadInput, match="finite"):
        plan_to_text(Plan.model_validate(document))
    assert "finite number" in refused(json.dumps(document))
    del document["case"]["mass_kg"]
    document["days"][0]["totals"]["energy_kcal"] = value
    assert "finite number" in refused(json.dumps(document))
    assert "1e999" not in json.dumps(document)
    text = json.dumps(document).replace("NaN", "1e999").replace("Infinity", "1e999")
    assert "days 1, totals, energy_kcal" in refused(text)


def test_every_cut_of_a_plan_is_said_to_be_cut(document: dict[str, Any]) -> None:
    text = plan_to_text(Plan.model_validate(document))
    for length in range(1, len(text) - 2):
        assert "it was cut off" in refused(text[:length]), text[:length][-30:]


def test_broken_json_names_line_and_column(document: dict[str, Any]) -> None:
    lines = plan_to_text(Plan.model_validate(document)).splitlines()
    at = next(number for number, line in enumerate(lines) if '"dish_id"' in line)
    lines[at] = '          "dish_id": porridge,'
    says = refused("\n".join(lines))
    assert f"line {at + 1}, column " in says
    assert "not JSON" in says
    assert "cut off" not in says


@pytest.mark.parametrize("text", ["", "  \n ", "[]", "3", '"plan"', "null", "hello", '{"schema"}', "{'schema': 1}"])
def test_what_is_no_document(text: str) -> None:
    refused(text)


def test_hostile_texts() -> None:
    assert "too deep" in refused('{"schema": ' + "[" * 200_000)
    assert "thousands of digits" in refused('{"schema": ' + "9" * 10_000 + "}")
    assert "characters" in refused(" " * 20_000_001)
    assert '"kind" twice' in refused('{"schema": "mealopt/plan-1", "kind": "day", "kind": "week"}')


@pytest.mark.parametrize(
    ("schema", "says"),
    [("mealopt/plan-2", "another version"), ("mealopt/case-1", "a case, not a plan"), ("x", 'read "x"'), (1, "read 1"),
     (None, "read null"), ("DROP", 'no "schema"')],
)  # fmt: skip
def test_another_schema(document: dict[str, Any], schema: Any, says: str) -> None:
    put(document, "schema", schema)
    found = refused(json.dumps(document))
    assert says in found
    assert "mealopt/plan-1" in found


@pytest.mark.parametrize(
    ("path", "value", "says"),
    [
        ("days.0.meals.0.tiem", "07:00", 'days 1, meals 1, tiem: read a key that does not exist; did you mean "time"?'),
        ("days.0.meals.0.items.0.gram", 3, 'items 1, gram: read a key that does not exist; did you mean "grams"?'),
        ("days.0.targets.energy_kcal.goal", 3, "allowed here: least, aim, most"),
        ("solvent", {}, 'did you mean "solve"?'),
        ("days.0.meals.0.totals.fiber_g", 3.0, "such as fibre_g"),
        ("days.0.meals.0.totals.energy_kcal", -1.0, "0 or more is expected"),
        ("days.0.meals.0.items.0.grams", "35", 'read "35"; a number is expected, without quotation marks'),
        ("days.0.meals.0.items.0.grams", True, "read true; a number is expected"),
        ("days.0.meals.0.items.0.grams", 0, "above 0 is expected"),
        ("days.0.meals.0.items.0.grams", None, "read null; a number is expected"),
        ("days.0.meals.0.items.0.grams", "DROP", 'days 1, meals 1, items 1: read no "grams"; it is expected'),
        ("days.0.meals.0.items.0.source", "08120", "the five digits of a row"),
        ("days.0.meals.0.items", {}, "items: read an object; a list is expected"),
        ("days.0.meals.0.number", 1.5, "whole number"),
        ("days.0.meals.0.time", "7:05", 'a time like "07:30"'),
        ("days.0.meals.0.time", "48:05", "is not a time"),
        ("days.0.meals.0.slot", "tea", '"breakfast"'),
        ("days.0.meals.0.limits", None, "limits: read null; an object {...} is expected"),
        ("days.0.meals", "DROP", 'days 1: read no "meals"'),
        ("days.0.date", "2027-03-10", "the day of 2027-03-10 is wed"),
        ("days.0.date", 20270309, "a date in quotation marks"),
        ("days.0.date", "soon", "a date is expected"),
        ("days.0.targets.energy_kcal", {"least": 3000, "aim": 2740, "most": None}, "least <= aim <= most"),
        ("days", [], "one to seven days"),
        ("kind", "month", 'read "month"; "day" or "week" is expected'),
        ("table.sha256", "AB", "64 hexadecimal digits"),
        ("week.checks.0.met", "yes", "true or false"),
        ("solve", None, "solve: read null; an object {...} is expected"),
    ],
)
def test_one_sentence_for_each_mistake(document: dict[str, Any], path: str, value: Any, says: str) -> None:
    put(document, path, value)
    assert says in refused(json.dumps(document))


def test_days_are_days_of_one_week(document: dict[str, Any]) -> None:
    document["days"] *= 2
    assert "one day is expected" in refused(json.dumps(document))
    document["kind"] = "week"
    assert "each day once" in refused(json.dumps(document))
