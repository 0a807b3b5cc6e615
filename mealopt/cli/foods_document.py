"""What the commands about foods know, as plain data for JSON."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from mealopt.api import CompositionRow, Dish, Finding, Found, Shown


def found_document(words: str, foods: Sequence[Found], dishes: Sequence[Dish]) -> dict[str, Any]:
    """All that a search found, rows of the table in full number."""
    return {
        "schema": "mealopt/found-1",
        "words": words,
        "foods": [{"name": found.name, "row": _row(found.row)} for found in foods if found.food is not None],
        "dishes": [{"id": dish.id, "name": dish.name, "slots": list(dish.slots)} for dish in dishes],
        "rows": [_row(found.row) for found in foods if found.food is None],
    }


def food_document(shown: Shown) -> dict[str, Any]:
    """All that is known of one food; `food` is null where only the table knows it."""
    return {
        "schema": "mealopt/food-1",
        "food": shown.food.model_dump(mode="json") if shown.food else None,
        "row": _row(shown.row),
        "bought": _row(shown.bought) if shown.bought else None,
        "used_by": list(shown.used_by),
    }


def dish_document(dish: Dish) -> dict[str, Any]:
    """All that is known of one dish."""
    return {"schema": "mealopt/dish-1", "dish": dish.model_dump(mode="json")}


def checks_document(findings: Sequence[Finding]) -> dict[str, Any]:
    """What the checks of the food files found."""
    counts = Counter(finding.severity for finding in findings)
    return {
        "schema": "mealopt/checks-1",
        "faults": counts["fault"],
        "facts": counts["fact"],
        **({"notes": counts["note"]} if counts["note"] else {}),
        "findings": [asdict(finding) for finding in findings],
    }


def import_document(rows: int, sha256: str, written: str | None) -> dict[str, Any]:
    """What an import made; written: the file, None where it was only tried."""
    return {"schema": "mealopt/import-1", "rows": rows, "sha256": sha256, "written": written}


def _row(row: CompositionRow) -> dict[str, Any]:
    """A row of the table; a nutrient that it leaves blank is absent."""
    return {
        "source": row.source,
        "name": row.name,
        "per_100g": dict(row.per_100g),
        "weights": [{"grams": grams, "words": words} for grams, words in row.weights],
        "refuse_percent": row.refuse_percent,
    }
