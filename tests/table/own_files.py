"""Own files for tests, made from entries whose keys a test changes one by one."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from mealopt.core.filters import ALLERGENS
from mealopt.table.own import Shelf, own_shelf

BAR: dict[str, Any] = {
    "name": "harbour oat bar",
    "stands_for": ["cereal bar"],
    "energy_kcal": 408,
    "fat_g": 13.0,
    "saturated_fat_g": 2.4,
    "carbohydrate_g": 59.0,
    "sugars_g": 21.0,
    "fibre_g": 7.5,
    "protein_g": 9.8,
    "salt_g": 0.35,
    "allergens": ["gluten", "nuts"],
    "free_of": [name for name in ALLERGENS if name not in ("gluten", "nuts")],
    "diet": "vegan",
    "measure": "bar",
    "measure_g": 40,
    "pack_g": 240,
}

TABLET: dict[str, Any] = {
    "kind": "supplement",
    "name": "iron tablet",
    "dose": "tablet",
    "dose_g": 1,
    "doses_a_day": 1,
    "energy_kcal": 0,
    "fat_g": 0,
    "carbohydrate_g": 0,
    "protein_g": 0,
    "iron_mg": 14,
    "aisle": "sports",
    "pack_g": 60,
    "keeps_days": 365,
}


def entry(kind: str, keys: dict[str, Any]) -> str:
    """One entry as TOML, of which JSON's numbers, texts and lists are a part."""
    lines = (f"{key} = {json.dumps(value)}" for key, value in keys.items() if value is not None)
    return "\n".join([f"[[{kind}]]", *lines, ""])


def own(*foods: dict[str, Any], dishes: tuple[dict[str, Any], ...] = ()) -> str:
    """An own file's text; a key that is None is left out."""
    tables = [entry("food", keys) for keys in foods] + [entry("dish", keys) for keys in dishes]
    return "\n".join(['schema = "mealopt/own-1"', *tables])


def shelf(*foods: dict[str, Any]) -> Shelf:
    """The foods as read."""
    return own_shelf("own.toml", own(*foods))


def write(folder: Path, text: str, name: str = "own.toml") -> Path:
    """The file in a folder."""
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path
