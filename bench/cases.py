"""The twenty days that every figure is measured on.

They are fixed: who eats, what is trained, what is left out, and (by the athlete's name and the week) the order in which
the day's dishes come. A change of one makes older figures of no use, so `digest()` stands in every report. All people
are of the invented Skerry Harbour strength-and-endurance club.
"""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from hashlib import sha256
from typing import Any

#: The day that is planned; a session tomorrow shapes its evening.
DAY, TOMORROW = "tue", "wed"
WEEK_OF = "2027-03-08"

#: start, minutes, kind, effort
Trained = tuple[str, int, str, str]


@dataclass(frozen=True, slots=True)
class BenchCase:
    """One day of one athlete.

    body: sex, age in years, mass in kg, height in cm. trained, tomorrow: (start, minutes, kind, effort). kitchen, goal:
    keys of the case file that are not left at their defaults.
    """

    name: str
    body: tuple[str, int, float, float]
    diet: str
    trained: tuple[Trained, ...] = ()
    tomorrow: tuple[Trained, ...] = ()
    kitchen: dict[str, Any] = field(default_factory=dict)
    goal: dict[str, Any] = field(default_factory=dict)

    def data(self) -> dict[str, Any]:
        """The case as a case file would hold it."""
        sex, age, mass, height = self.body
        days = ((DAY, self.trained), (TOMORROW, self.tomorrow))
        return {
            "schema": "mealopt/case-1",
            "week_of": WEEK_OF,
            "athlete": {
                "name": f"Skerry bench {self.name}",
                "sex": sex,
                "age": age,
                "mass_kg": mass,
                "height_cm": height,
                "steps_per_day": 8000,
                "cautions": [],
            },
            "goal": {"protein_g_per_kg": 1.8, **self.goal},
            "kitchen": {"diet": self.diet, "wake": "06:00", "sleep": "22:30", "cook_minutes": 75, **self.kitchen},
            "session": [
                {"day": day, "start": start, "minutes": minutes, "kind": kind, "effort": effort}
                for day, sessions in days
                for start, minutes, kind, effort in sessions
            ],
        }


CASES: tuple[BenchCase, ...] = (
    BenchCase("evening run", ("male", 35, 78.0, 180.0), "omnivore", (("18:00", 60, "run", "steady"),)),
    BenchCase("small rest day", ("female", 45, 50.0, 158.0), "omnivore"),
    BenchCase("vegan long run", ("female", 27, 56.0, 166.0), "vegan", (("09:00", 120, "run", "steady"),)),
    BenchCase(
        "vegetarian run and lift",
        ("female", 33, 63.0, 169.0),
        "vegetarian",
        (("07:15", 50, "run", "easy"), ("17:30", 60, "lift", "hard")),
    ),
    BenchCase(
        "gluten-free double row",
        ("male", 30, 84.0, 187.0),
        "omnivore",
        (("07:00", 70, "row", "steady"), ("17:00", 50, "row", "easy")),
        kitchen={"gluten_free": True},
    ),
    BenchCase("large rest day", ("male", 24, 105.0, 192.0), "omnivore"),
    BenchCase(
        "swim, ride and run",
        ("male", 29, 74.0, 182.0),
        "omnivore",
        (("06:30", 50, "swim", "steady"), ("12:00", 90, "ride", "steady"), ("18:00", 50, "run", "easy")),
        kitchen={"wake": "05:00", "sleep": "22:00", "meals_per_day": 5},
    ),
    BenchCase(
        "five-hour ride",
        ("male", 27, 86.0, 185.0),
        "omnivore",
        (("09:00", 300, "ride", "steady"),),
        kitchen={"meals_per_day": 5, "cook_minutes": 90},
        goal={"energy_replaced": 0.9},
    ),
    BenchCase("fish at an early run", ("female", 52, 61.0, 164.0), "pescatarian", (("06:30", 60, "run", "steady"),)),
    BenchCase(
        "fish, ride and lift",
        ("male", 41, 82.0, 179.0),
        "pescatarian",
        (("12:15", 45, "lift", "steady"), ("18:00", 90, "ride", "hard")),
    ),
    BenchCase(
        "fish without milk, at rest",
        ("female", 38, 70.0, 172.0),
        "pescatarian",
        kitchen={"avoid_allergens": ["milk"]},
    ),
    BenchCase("vegetarian late lift", ("male", 22, 75.0, 176.0), "vegetarian", (("20:00", 75, "lift", "hard"),)),
    BenchCase(
        "vegetarian triple",
        ("female", 26, 59.0, 167.0),
        "vegetarian",
        (("06:45", 45, "swim", "steady"), ("12:30", 40, "run", "easy"), ("17:45", 75, "ride", "steady")),
        kitchen={"wake": "05:30", "meals_per_day": 5},
    ),
    BenchCase(
        "vegetarian, gluten-free, at rest",
        ("female", 60, 66.0, 165.0),
        "vegetarian",
        kitchen={"gluten_free": True},
    ),
    BenchCase(
        "vegan without soy, at rest",
        ("male", 36, 80.0, 181.0),
        "vegan",
        tomorrow=(("08:00", 60, "run", "steady"),),
        kitchen={"avoid_allergens": ["soybeans"]},
    ),
    BenchCase(
        "vegan long ride",
        ("male", 31, 72.0, 178.0),
        "vegan",
        (("09:00", 210, "ride", "steady"),),
        kitchen={"meals_per_day": 5, "cook_minutes": 90},
    ),
    BenchCase(
        "vegan, gluten-free, evening swim",
        ("female", 29, 60.0, 168.0),
        "vegan",
        (("18:30", 60, "swim", "steady"),),
        kitchen={"gluten_free": True},
    ),
    BenchCase(
        "gaining without milk and nuts",
        ("male", 21, 79.0, 188.0),
        "omnivore",
        (("17:00", 75, "lift", "hard"),),
        kitchen={"avoid_allergens": ["milk", "nuts", "peanuts"], "meals_per_day": 5},
        goal={"mass_change_percent_per_week": 0.25},
    ),
    BenchCase(
        "losing without eggs and soy",
        ("male", 44, 98.0, 183.0),
        "omnivore",
        (("18:00", 60, "ride", "steady"),),
        kitchen={"avoid_allergens": ["eggs", "soybeans"]},
        goal={"mass_change_percent_per_week": -0.5, "protein_g_per_kg": 2.0},
    ),
    BenchCase(
        "early shift, ski",
        ("female", 48, 72.0, 175.0),
        "omnivore",
        (("16:00", 100, "ski", "steady"),),
        tomorrow=(("16:00", 60, "lift", "steady"),),
        kitchen={"wake": "04:30", "sleep": "21:00", "cook_minutes": 45, "avoid_allergens": ["mustard", "celery"]},
    ),
)


def digest() -> str:
    """Twelve letters that change with any of the cases."""
    text = json.dumps([case.data() for case in CASES], sort_keys=True)
    return sha256(text.encode()).hexdigest()[:12]
