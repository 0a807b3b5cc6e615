"""The JSON Schema beside the models."""

from __future__ import annotations

import json
from typing import Any

from mealopt.documents.parts import LISTED
from mealopt.documents.plan import Plan
from mealopt.documents.schema import SCHEMA_FILE, plan_schema, schema_text


def test_the_schema_file_is_up_to_date() -> None:
    """Written again by `python -m mealopt.documents.schema`."""
    assert SCHEMA_FILE.read_text(encoding="utf-8") == schema_text()


def test_nothing_unknown_is_allowed_anywhere() -> None:
    schema = plan_schema()
    for name, node in {"Plan": schema, **schema["$defs"]}.items():
        if node["type"] == "object":
            assert node["additionalProperties"] is False, name


def test_tables_of_nutrients_are_keyed_by_their_keys() -> None:
    schema = plan_schema()
    assert schema["$defs"]["NutrientKey"]["enum"] == list(LISTED)
    for name, node in (("Meal", "totals"), ("Meal", "limits"), ("PlanDay", "targets"), ("PlanDay", "coverage")):
        assert schema["$defs"][name]["properties"][node]["propertyNames"] == {"$ref": "#/$defs/NutrientKey"}


def test_what_was_there_from_the_first_day_stays(document: dict[str, Any]) -> None:
    """The document's keys, which others rely on: each is still there, and none more is needed."""
    schema = plan_schema()

    def followed(node: dict[str, Any], data: Any) -> None:
        for choice in node.get("anyOf", []):
            node = choice if choice.get("type") != "null" else node
        node = schema["$defs"][node["$ref"].rpartition("/")[2]] if "$ref" in node else node
        if isinstance(data, list):
            followed(node["items"], data[0]) if data else None
        elif isinstance(data, dict) and "properties" in node:
            assert set(data) <= set(node["properties"])
            assert set(node.get("required", [])) <= set(data)
            for key, value in data.items():
                followed(node["properties"][key], value)

    followed(schema, document)
    assert json.loads(Plan.model_validate(document).model_dump_json(by_alias=True))["schema"] == "mealopt/plan-1"
