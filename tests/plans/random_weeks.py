"""Random weeks, drawn by a fixed seed: the athletes and kitchens of `random_cases`, with sessions on all days.

`python -m tests.plans.random_weeks 0 20` plans twenty and counts how they end, and why not where they do not.
"""

from __future__ import annotations

import random
import sys
import time
from collections import Counter
from typing import Any

from mealopt.core.clock import DAYS
from tests.plans.random_cases import KINDS, LEAN_EQUATIONS, _athlete, _goal, _kitchen, _sessions

#: Shares of the hardest day's work that the days of a week have.
REST = 0.3


def make_week(seed: int, kind: str) -> dict[str, Any]:
    """The data of a case file with none to two sessions on each day. kind: one of `random_cases.KINDS`."""
    draw = random.Random(f"week {seed} {kind}")
    athlete = _athlete(draw, seed)
    goal = _goal(draw)
    if goal["resting_equation"] in LEAN_EQUATIONS or draw.random() < 0.4:
        fat = draw.randint(14, 32) if athlete["sex"] == "female" else draw.randint(8, 27)
        athlete["body_fat_percent"] = float(fat)
    kitchen = _kitchen(draw, kind)
    sessions = []
    for day in DAYS:
        if draw.random() < REST:
            continue
        drawn = [session for session in _sessions(draw, athlete["mass_kg"] * 0.6, kitchen) if session["day"] == "tue"]
        sessions += [{**session, "day": day} for session in drawn[:2]]
    week_of = "2027-03-08"
    data = {"schema": "mealopt/case-1", "week_of": week_of, "athlete": athlete, "goal": goal, "kitchen": kitchen}
    return {**data, "session": sessions}


def _ends(seed: int, kind: str) -> str:
    """Plan one week; how it ended, in a word, and more on standard output where it is worth a look."""
    from mealopt import api, errors
    from mealopt.people.reading import case_from_dict

    try:
        case, start = case_from_dict(make_week(seed, kind), "random"), time.perf_counter()
        plan = api.plan_week(case, seconds=120.0)
    except errors.MealoptError as error:
        print(f"{kind} {seed}: {type(error).__name__}: {error}", flush=True)
        return type(error).__name__
    unmet = [check.rule for check in plan.week.checks if not check.met]
    took = time.perf_counter() - start
    print(f"{kind} {seed}: {plan.solve.status}, {took:.0f} s, gap {plan.solve.gap}, not met: {unmet}", flush=True)
    return plan.solve.status


if __name__ == "__main__":
    seeds = range(int(sys.argv[1]), int(sys.argv[2]))
    print(dict(Counter(_ends(seed, KINDS[seed % len(KINDS)]) for seed in seeds)), flush=True)
