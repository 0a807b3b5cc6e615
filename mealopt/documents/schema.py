"""The JSON Schema of the plan document, generated from the models.

The file beside this one is written again by `python -m mealopt.documents.schema`; a test fails where it is out of date.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from mealopt.documents.parts import KEYED, LISTED
from mealopt.documents.plan import SCHEMA, Plan

SCHEMA_FILE = Path(__file__).with_name("plan-1.schema.json")


def plan_schema() -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of `mealopt/plan-1`."""
    schema = _keyed(Plan.model_json_schema())
    schema["$defs"]["NutrientKey"] = {"type": "string", "enum": list(LISTED)}
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "$id": SCHEMA, **schema}


def _keyed(node: Any) -> Any:
    """The schema with the list of nutrient keys referred to where tables are keyed by nutrient."""
    if isinstance(node, list):
        return [_keyed(entry) for entry in node]
    if not isinstance(node, dict):
        return node
    found = {name: _keyed(entry) for name, entry in node.items()}
    return found | {"propertyNames": {"$ref": "#/$defs/NutrientKey"}} if KEYED.items() <= found.items() else found


def schema_text() -> str:
    """The text of the schema's file."""
    return json.dumps(plan_schema(), indent=2, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    SCHEMA_FILE.write_text(schema_text(), encoding="utf-8")
