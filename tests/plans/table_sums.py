"""A plan's food added up from foods/composition.csv with `source` and `grams` alone: no line of the program is used."""

from __future__ import annotations

import csv
import json
from collections import defaultdict
from functools import cache
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]


@cache
def table() -> dict[str, dict[str, str]]:
    """Number of a row -> the row's cells as they are written."""
    with (ROOT / "foods" / "composition.csv").open(newline="", encoding="utf-8") as file:
        return {row["ndb"]: row for row in csv.DictReader(file)}


@cache
def pantry() -> dict[str, dict[str, str]]:
    """Name of a food -> its cells in pantry.csv: what counts as fruit or vegetable is written there only."""
    with (ROOT / "foods" / "pantry.csv").open(newline="", encoding="utf-8") as file:
        return {row["name"]: row for row in csv.DictReader(file)}


def held(items: list[dict[str, Any]], key: str) -> float:
    """How much of a nutrient these items hold; a blank adds nothing."""
    cells = ((item["grams"], table()[item["source"].removeprefix("USDA-SR28:")][key]) for item in items)
    return sum(grams * float(cell) / 100 for grams, cell in cells if cell)


def unknown(items: list[dict[str, Any]], key: str) -> list[str]:
    """Foods whose amount of this nutrient the table leaves blank."""
    return [item["food"] for item in items if not table()[item["source"].removeprefix("USDA-SR28:")][key]]


def fruit_and_vegetables(items: list[dict[str, Any]]) -> float:
    """Grams of fruit and vegetables; juice as one portion of 150 ml at most [common practice, no source]."""
    grams: defaultdict[str, float] = defaultdict(float)
    for item in items:
        counts = pantry()[item["food"]]["counts"].split(";")
        kind = "juice" if "juice" in counts else "whole" if {"fruit", "vegetable"} & set(counts) else ""
        grams[kind] += item["grams"]
    return grams["whole"] + min(150.0, grams["juice"])


def minutes(time: str) -> int:
    """Minutes after midnight."""
    return 60 * int(time[:2]) + int(time[3:])


def broken_windows(day: dict[str, Any], sessions: list[dict[str, Any]]) -> list[str]:
    """Meals over the fibre or fat that the project allows before a session, or with a food of unknown fibre.

    2 / 4 / 6 / 8 g fibre and 5 / 10 / 15 / 20 g fat where 0-1 / 1-2 / 2-3 / 3-4 h are left; all four steps for runs,
    hard work and races, the first two for other work, none for easy work under 45 min. sessions: as in the case, with
    `begins` in minutes of this day, the next day's counted on.
    """
    found = []
    for meal in day["meals"]:
        for session in sessions:
            if session["effort"] == "easy" and session["minutes"] < 45:
                continue
            hours = 4 if session["kind"] == "run" or session["effort"] in ("hard", "race") else 2
            lead = session["begins"] - minutes(meal["ends"])
            if meal["slot"] == "during" or not 0 <= lead < 60 * hours:
                continue
            step = 1 + lead // 60
            place = f"{meal['slot']} at {meal['time']}, {lead} min before the {session['kind']}"
            for key, most in (("fibre_g", 2.0 * step), ("fat_g", 5.0 * step)):
                if held(meal["items"], key) > most + 0.005:
                    found.append(f"{place}: {held(meal['items'], key):.2f} of {key}, at most {most:g}")
                if unknown(meal["items"], key):
                    found.append(f"{place}: {unknown(meal['items'], key)} of unknown {key}")
    return found


def sessions_ahead(case: dict[str, Any], day: str) -> list[dict[str, Any]]:
    """The day's sessions and the next day's, with `begins` in minutes of this day."""
    names = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
    following = names[(names.index(day) + 1) % 7]
    later = {day: 0, following: 24 * 60}
    return [
        {**session, "begins": minutes(session["start"]) + later[session["day"]]}
        for session in case.get("session", ())
        if session["day"] in later
    ]


def document(plan: Any) -> dict[str, Any]:
    """A plan as the JSON that anybody else would read."""
    from mealopt import api

    data: dict[str, Any] = json.loads(api.plan_text(plan))
    return data
