"""Random cases, drawn by a fixed seed: everybody and every day that the program says that it plans for.

Both sexes, 18 to 70 years, 45 to 115 kg; endurance work from 0 to 45 kcal per kg and day; none to three sessions in
waking hours; early, usual and late shifts; every resting equation; by day and even; each diet, gluten-free, and one or
two of the 14 allergens left out. `python -m tests.plans.random_cases vegan 0 40` plans forty and counts how they end;
`--processor` gives each so many seconds of the processor, `--lines` plans once more with what is offered where nothing
fits.
"""

from __future__ import annotations

import random
import time
from argparse import ArgumentParser
from collections import Counter
from dataclasses import dataclass, field
from typing import Any, get_args

from mealopt import api, errors
from mealopt.core.clock import clock, minutes_of
from mealopt.core.filters import ALLERGENS
from mealopt.documents.plan import Plan
from mealopt.people.case import Case
from mealopt.people.goal import RestingEquation
from mealopt.people.reading import case_from_dict
from tests.plans.remedies import with_lines

KINDS = ("omnivore", "vegetarian", "pescatarian", "vegan", "gluten_free", "allergens")
EQUATIONS: tuple[str, ...] = get_args(RestingEquation)
LEAN_EQUATIONS = tuple(name for name in EQUATIONS if "cunningham" in name or "lean" in name)
ENDURANCE = ("run", "ride", "swim", "row", "walk", "ski", "other")
LIFTING = ("lift", "circuit")

#: (waking, sleeping): an early shift, usual days, a late one.
SHIFTS = (("04:30", "21:00"), ("06:00", "22:30"), ("06:30", "22:30"), ("07:00", "23:00"), ("11:00", "02:30"))
MOST_KCAL_PER_KG = 45.0


@dataclass
class _Day:
    """One day while its sessions are laid. left: kcal of endurance work still to do; free: the first free minute."""

    draw: random.Random
    mass_kg: float
    free: int
    sleep: int
    left: float
    sessions: list[dict[str, Any]] = field(default_factory=list)

    def add(self, kind: str, still: int) -> None:
        """One more session, if there is time for it; still: endurance sessions that are to come, this one included."""
        room = self.sleep - 45 - self.free
        kcal: float | None = None
        if kind in LIFTING:
            minutes = self.draw.choice((45, 60, 75))
        else:
            hourly = self.draw.uniform(7.0, 13.0) * self.mass_kg
            kcal = self.left if still == 1 else self.left * self.draw.uniform(0.3, 0.7)
            minutes = max(25, min(round(60 * kcal / hourly), room - 150 * (still - 1)))
            kcal = min(kcal, 14.0 * self.mass_kg * minutes / 60.0)
        if minutes > room:
            return
        effort = self.draw.choice(("easy", "steady", "steady", "hard"))
        session: dict[str, Any] = {"day": "tue", "start": clock(self.free), "minutes": minutes, "kind": kind}
        session["effort"] = effort
        if kcal is not None and kcal >= 25:
            source = self.draw.choice(("wrist", "power"))
            session |= {"active_kcal": round(kcal), "energy_is": "active", "energy_from": source}
            self.left -= kcal
        self.sessions.append(session)
        self.free += minutes + self.draw.choice((60, 120, 200, 300))


def make(seed: int, kind: str) -> dict[str, Any]:
    """The data of a case file with sessions on tuesday and perhaps on wednesday. kind: one of `KINDS`."""
    draw = random.Random(f"{seed} {kind}")
    athlete = _athlete(draw, seed)
    goal = _goal(draw)
    if goal["resting_equation"] in LEAN_EQUATIONS or draw.random() < 0.4:
        fat = draw.randint(14, 32) if athlete["sex"] == "female" else draw.randint(8, 27)
        athlete["body_fat_percent"] = float(fat)
    kitchen = _kitchen(draw, kind)
    sessions = _sessions(draw, athlete["mass_kg"], kitchen)
    return {"schema": "mealopt/case-1", "athlete": athlete, "goal": goal, "kitchen": kitchen, "session": sessions}


def _athlete(draw: random.Random, seed: int) -> dict[str, Any]:
    mass_kg = round(draw.uniform(45, 115), 1)
    height = (mass_kg / draw.uniform(19.0, 29.0)) ** 0.5 * 100
    return {
        "name": f"case {seed}",
        "sex": draw.choice(("female", "male")),
        "age": draw.randint(18, 70),
        "mass_kg": mass_kg,
        "height_cm": float(round(min(205, max(145, height)))),
        "steps_per_day": draw.randint(1000, 15000),
        "lifting_hours_per_week": float(draw.choice((0, 2, 4, 6))),
        "carbohydrate_used_to_g_per_h": float(draw.choice((30, 60, 90))),
        "cautions": [],
    }


def _goal(draw: random.Random) -> dict[str, Any]:
    goal: dict[str, Any] = {
        "mass_change_percent_per_week": draw.choice((0.0, 0.0, 0.0, -1.0, -0.5, -0.25, 0.25, 0.5)),
        "protein_g_per_kg": round(draw.uniform(1.2, 2.4), 2),
        "resting_equation": draw.choice(EQUATIONS),
        "spread": draw.choice(("by_day", "even")),
    }
    if draw.random() < 0.3:
        goal["fat_g_per_kg"] = round(draw.uniform(0.5, 1.5), 2)
    if draw.random() < 0.3:
        goal["energy_replaced"] = round(draw.uniform(0.7, 1.0), 2)
    return goal


def _kitchen(draw: random.Random, kind: str) -> dict[str, Any]:
    shift = draw.random()
    wake, sleep = SHIFTS[0] if shift < 0.15 else SHIFTS[-1] if shift < 0.3 else draw.choice(SHIFTS[1:-1])
    kitchen: dict[str, Any] = {
        "wake": wake,
        "sleep": sleep,
        "diet": kind if kind in ("vegetarian", "pescatarian", "vegan") else "omnivore",
        "cook_minutes": draw.choice((45, 60, 60, 90)),
        "meals_per_day": draw.choice((3, 4, 4, 5)),
    }
    if kind == "gluten_free":
        kitchen["gluten_free"] = True
    if kind == "allergens":
        kitchen["avoid_allergens"] = draw.sample(ALLERGENS, draw.choice((1, 2)))
    return kitchen


def _sessions(draw: random.Random, mass_kg: float, kitchen: dict[str, Any]) -> list[dict[str, Any]]:
    wake, sleep = minutes_of(kitchen["wake"]), minutes_of(kitchen["sleep"])
    sleep += 24 * 60 if sleep < wake else 0
    count = draw.choice((0, 1, 1, 1, 2, 2, 3))
    kinds = [draw.choice(ENDURANCE if draw.random() < 0.75 else LIFTING) for _ in range(count)]
    first = wake + draw.choice((20, 45, 90, 150, 240, 480))
    day = _Day(draw, mass_kg, first, sleep, draw.uniform(0, MOST_KCAL_PER_KG) * mass_kg)
    for place, one in enumerate(kinds):
        day.add(one, sum(later not in LIFTING for later in kinds[place:]))
    if draw.random() < 0.4:
        start = clock(wake + draw.choice((30, 60, 90)))
        next_kind, effort = draw.choice(("run", "ride", "swim")), draw.choice(("steady", "hard"))
        day.sessions.append({"day": "wed", "start": start, "minutes": 60, "kind": next_kind, "effort": effort})
    return day.sessions


@dataclass(frozen=True)
class _Asked:
    """How each case is planned. processor: seconds of it, whatever the clock says; lines: whether what is offered where
    nothing fits is written into the case and planned."""

    gap: float
    processor: float
    lines: bool

    def plan(self, case: Case) -> Plan:
        """The tuesday of the case."""
        start = time.process_time()

        def spent() -> bool:
            return time.process_time() - start > self.processor

        return api.plan_day(case, "tue", gap=self.gap, seconds=20 * self.processor, stop=spent)


def _ends(seed: int, kind: str, asked: _Asked) -> str:
    """Plan one case; how it ended, in a word, and more on standard output where it is worth a look."""
    case, start = case_from_dict(make(seed, kind), "random"), time.process_time()
    try:
        plan = asked.plan(case)
    except errors.Refused:
        return "Refused"
    except KeyboardInterrupt:
        print(f"{kind} {seed}: no plan in {asked.processor:g} s of the processor", flush=True)
        return "OutOfTime"
    except errors.MealoptError as error:
        print(f"{kind} {seed}: {type(error).__name__}: {error}", flush=True)
        helped = _helps(case, error, asked) if asked.lines and isinstance(error, errors.Unplannable) else ""
        return type(error).__name__ + helped
    took = time.process_time() - start
    if broken := api.recheck(plan):
        print(f"{kind} {seed}: {broken}", flush=True)
    if took > 3 or plan.solve.status == "limit":
        kcal = plan.days[0].totals["energy_kcal"]
        print(f"{kind} {seed}: {plan.solve.status}, {took:.1f} s, {kcal:.0f} kcal, gap {plan.solve.gap}", flush=True)
    return plan.solve.status


def _helps(case: Case, error: errors.Unplannable, asked: _Asked) -> str:
    """Whether the day is planned with the lines that are offered, in words."""
    if not error.remedies:
        return " without lines"
    try:
        asked.plan(with_lines(case, error.remedies))
    except (errors.MealoptError, KeyboardInterrupt) as still:
        print(f"    with {error.remedies}: {type(still).__name__}: {still}", flush=True)
        return ", lines do not help"
    return ", lines help"


def _main() -> None:
    parser = ArgumentParser(description="Plan random cases and count how they end.")
    parser.add_argument("kinds", help=f"of {', '.join(KINDS)}, with commas between, or all")
    parser.add_argument("first", type=int)
    parser.add_argument("last", type=int, help="the first seed that is not planned any more")
    parser.add_argument("--gap", type=float, default=0.01)
    parser.add_argument("--processor", type=float, default=20.0, help="seconds of the processor a case")
    parser.add_argument("--lines", action="store_true", help="plan with the lines that are offered, too")
    given = parser.parse_args()
    asked = _Asked(given.gap, given.processor, given.lines)
    for kind in KINDS if given.kinds == "all" else given.kinds.split(","):
        ends = Counter(_ends(number, kind, asked) for number in range(given.first, given.last))
        print(kind, dict(ends), flush=True)


if __name__ == "__main__":
    _main()
