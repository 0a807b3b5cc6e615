"""Made-up sessions for food and drink: every kind and effort, half an hour to 14 h, 45 to 110 kg, with and without a
sweat test. The same each time."""

from __future__ import annotations

import random
from typing import Any

from mealopt.people.case import Case

KINDS = ("run", "ride", "swim", "row", "walk", "ski", "other")
EFFORTS = ("easy", "steady", "hard", "race")
MINUTES = (30, 45, 61, 65, 75, 80, 90, 105, 120, 135, 150, 170, 180, 200, 240, 270, 300, 360, 420, 480, 540, 600, 720,
           840)  # fmt: skip


def made_up(number: int, any_minutes: bool = False) -> Case:
    """A case with one session, drawn from its number; any_minutes: of whatever length, not of a usual one."""
    draw = random.Random(7919 * number + 13)
    mass = round(draw.uniform(45, 110), 1)
    kitchen: dict[str, Any] = {"wake": "04:30", "sleep": "23:30"}
    if draw.random() < 0.5:
        kitchen["diet"] = draw.choice(("vegetarian", "vegan", "pescatarian"))
    if draw.random() < 0.25:
        kitchen["gluten_free"] = True
    athlete: dict[str, Any] = {
        "name": f"Skerry rider {number}",
        "sex": draw.choice(("female", "male")),
        "age": draw.randint(19, 65),
        "mass_kg": mass,
        "height_cm": min(225.0, round(100 * (mass / draw.uniform(20.5, 25.0)) ** 0.5, 0)),
        "cautions": [],
    }
    if draw.random() < 0.7:
        athlete["carbohydrate_used_to_g_per_h"] = float(draw.choice((0, 20, 40, 60, 75, 90)))
    if draw.random() < 0.5:
        athlete["sweat"] = {
            "salty": draw.random() < 0.2,
            "test": [_test(draw, mass) for _ in range(draw.choice((1, 1, 2)))],
        }
    session: dict[str, Any] = {
        "day": draw.choice(("tue", "sat")),
        "start": draw.choice(("05:30", "06:00", "08:00", "09:15")),
        "minutes": draw.choice(MINUTES),
        "kind": draw.choice(KINDS),
        "effort": draw.choice(EFFORTS),
    }
    if draw.random() < 0.7:
        session["conditions"] = draw.choice(("cold", "mild", "hot"))
    if any_minutes:
        session["minutes"] = random.Random(31 * number + 5).randint(30, 840)
    fuel = {"rate": draw.choice(("ladder", "ladder", "per_kg"))}
    return Case.model_validate(
        {"schema": "mealopt/case-1", "athlete": athlete, "kitchen": kitchen, "fuel": fuel, "session": [session]}
    )


def _test(draw: random.Random, mass: float) -> dict[str, Any]:
    rate, drunk = draw.uniform(0.3, 2.2), draw.choice((0.0, 0.2, 0.3))
    test: dict[str, Any] = {
        "conditions": draw.choice(("cold", "mild", "hot")),
        "effort": draw.choice(("easy", "steady", "hard")),
        "minutes": 60,
        "mass_before_kg": mass,
        "mass_after_kg": round(mass - max(0.05, rate - drunk), 2),
        "drunk_l": drunk,
    }
    if draw.random() < 0.7:
        test["sodium_mg_per_l"] = float(draw.randint(300, 1800))
        test["sodium_from"] = draw.choice(("whole_body", "forearm"))
    return test
