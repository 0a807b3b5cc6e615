"""Lines of an explanation written into a case, as a person would: new tables added, marked ones put in place."""

from __future__ import annotations

import tomllib
from typing import Any

from mealopt.people.case import Case
from mealopt.people.reading import case_from_dict, case_to_dict

TARGET = ("nutrient", "day", "slot", "meal")


def with_lines(case: Case, remedies: tuple[str, ...]) -> Case:
    """The case with every remedy in it, read again by the case file's own reader."""
    data = case_to_dict(case)
    for text in remedies:
        _write(data, text)
    return case_from_dict(data, "the case with the lines that were offered")


def _write(data: dict[str, Any], text: str) -> None:
    tables = tomllib.loads(text)
    goal, kitchen = tables.pop("goal", {}), tables.pop("kitchen", {})
    assert not tables, "lines are offered for the goal and the kitchen only"
    old = data.setdefault("goal", {})
    for band in goal.pop("band", []):
        before = [one for one in old.get("band", []) if _target(one) == _target(band)]
        assert bool(before) == ("in place of your band" in text), "a band that takes another's place says so"
        old["band"] = [one for one in old.get("band", []) if one not in before] + [band]
    old["move"] = [*old.get("move", []), *goal.pop("move", [])]
    for day in kitchen.pop("day", []):
        next(entry for entry in data["kitchen"]["day"] if entry["day"] == day["day"]).update(day)
    assert not (goal or kitchen) or "change these keys" in text, "what is no new table says so"
    old.update(goal)
    data.setdefault("kitchen", {}).update(kitchen)


def _target(band: dict[str, Any]) -> tuple[Any, ...]:
    return tuple(band.get(key) for key in TARGET)
