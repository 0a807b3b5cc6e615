"""Random things that happen in a planned day, drawn by a fixed seed, and what must hold of the day planned anew."""

from __future__ import annotations

import random
from dataclasses import dataclass, field
from typing import Any

from mealopt import api
from mealopt.core.bands import Band
from mealopt.core.clock import clock, minutes_of
from mealopt.core.nutrients import ENERGY, PROTEIN
from mealopt.documents.plan import Meal, Plan, PlanDay

#: Foods that people eat beside a plan: of the pantry, of the table by its words or its number, and by energy alone.
ATE = (
    "pizza=350g", "18131=120g", "banana=120g", "ice cream=150g", "dinner out=900kcal", "cake at the office=450kcal",
    "croissant=60g", "beer=330g", "lentil soup=300g", "32012=200g", "olive oil=15g", "a very big lunch=1800kcal",
)  # fmt: skip
KINDS = ("run", "ride", "swim", "lift", "row", "circuit", "walk")


@dataclass
class Happening:
    """What happened by a minute of a day: the arguments of api.replan."""

    now: str
    keys: dict[str, Any] = field(default_factory=dict)


def hours(plan: Plan) -> tuple[int, int]:
    """Waking and sleeping of the day as the case writes them."""
    kitchen = plan.case["kitchen"]
    wake, sleep = minutes_of(kitchen["wake"]), minutes_of(kitchen["sleep"])
    return wake, sleep + (1440 if sleep < wake else 0)


def happening(seed: int, plan: Plan) -> Happening:
    """A random minute of the day, and one to three random things."""
    draw = random.Random(f"{seed} events")
    entry = plan.days[0]
    wake, sleep = hours(plan)
    now = draw.randrange(wake + 10, sleep - 20, 5)
    keys: dict[str, Any] = {}
    past = [meal.number for meal in entry.meals if minutes_of(meal.time) < now]
    for kind in draw.sample(("ate", "skipped", "off", "session"), draw.choice((1, 1, 2, 3))):
        if kind == "ate":
            keys["ate"] = draw.sample(ATE, draw.choice((1, 1, 2)))
        elif kind == "skipped" and past:
            keys["skipped"] = draw.sample(past, draw.choice((1, 1, min(2, len(past)))))
        elif kind == "off" and entry.sessions:
            keys["session_off"] = [draw.choice(entry.sessions).number]
        elif kind == "session":
            keys["session"] = _session(draw, entry, now, sleep)
    return Happening(clock(now), {key: value for key, value in keys.items() if value})


def _session(draw: random.Random, entry: PlanDay, now: int, sleep: int) -> list[str]:
    minutes = draw.choice((30, 45, 60, 75, 90, 120))
    busy = [(minutes_of(one.start), minutes_of(one.ends)) for one in entry.sessions]
    starts = [
        start for start in range(now + 5, sleep - minutes - 30, 15)
        if all(start >= end or start + minutes <= begin for begin, end in busy)
    ]  # fmt: skip
    if not starts:
        return []
    effort = draw.choice(("easy", "steady", "hard"))
    return [f"{clock(draw.choice(starts))} {minutes} {draw.choice(KINDS)} {effort}"]


def content(meal: Meal) -> tuple[Any, ...]:
    """What a meal is, its number and the marks of now aside."""
    return meal.time, meal.ends, meal.dish, tuple((one.food, one.source, one.grams) for one in meal.items)


def broken(before: Plan, after: Any, happened: Happening, folder: Any = None) -> list[str]:
    """What should hold of a day planned anew and does not, as sentences."""
    old, new = before.days[0], after.plan.days[0]
    now, wrong = minutes_of(happened.now), list(api.recheck(after.plan, folder))
    skipped = set(happened.keys.get("skipped", ()))
    gone = {entry.start for entry in old.sessions if entry.number in happened.keys.get("session_off", ())}
    off = [meal.number for meal in old.meals if meal.slot == "during" and meal.time in gone]
    past = [meal for meal in old.meals if minutes_of(meal.time) < now and meal.number not in {*skipped, *off}]
    eaten = [meal for meal in new.meals if meal.eaten]
    beside = [meal for meal in eaten if meal.dish_id is None and meal.slot != "during"]
    if [content(meal) for meal in past] != [content(meal) for meal in eaten if meal not in beside]:
        wrong.append("what was eaten as planned is not what was planned")
    grams = sum(float(text.split("=")[1][:-1]) for text in happened.keys.get("ate", ()) if text.endswith("g"))
    if abs(grams - sum(item.grams for meal in beside for item in meal.items)) > 0.01:
        wrong.append("what was eaten beside the plan is not there to the gram")
    kcal = sum(float(text.split("=")[1][:-4]) for text in happened.keys.get("ate", ()) if text.endswith("kcal"))
    known = sum(meal.totals[ENERGY] for meal in beside if not meal.items)
    if abs(kcal - known) > 0.01 * max(1.0, kcal):
        wrong.append("energy eaten beside the plan is not there")
    wrong += [f"{meal.time} lies before now and is not eaten" for meal in new.meals
              if minutes_of(meal.time) < now and not meal.eaten]  # fmt: skip
    return [*wrong, *_kept(after), *_said(after, new)]


def _kept(after: Any) -> list[str]:
    """Meals that remain keep their protein and three quarters of their energy, where their windows are as they were."""
    wrong = []
    for change in after.meals:
        one, other = change.before, change.after
        if one is None or one.slot == "during" or one.eaten or (other is not None and other.eaten):
            continue
        if other is None:
            if minutes_of(one.time) >= minutes_of(after.plan.days[0].now):
                wrong.append(f"the meal at {one.time} is gone")
            continue
        if one.limits != other.limits:
            continue
        if other.totals[ENERGY] < 0.749 * one.totals[ENERGY]:
            wrong.append(f"{one.time}: {other.totals[ENERGY]:.0f} of {one.totals[ENERGY]:.0f} kcal")
        if other.totals[PROTEIN] < 0.995 * one.totals[PROTEIN] - 0.1:
            wrong.append(f"{one.time}: {other.totals[PROTEIN]:.1f} of {one.totals[PROTEIN]:.1f} g protein")
    return wrong


def _said(after: Any, new: PlanDay) -> list[str]:
    """Every number is met, or said to the gram."""
    wrong = []
    for key, target in new.targets.items():
        band = Band(target.least, target.aim, target.most)
        value = new.totals.get(key, 0.0)
        short = max(0.0, (band.least or 0.0) - value)
        over = max(0.0, value - band.most) if band.most is not None else 0.0
        if abs(short - after.short.get(key, 0.0)) > 0.06 + 5e-4 * value or (
            abs(over - after.over.get(key, 0.0)) > 0.06 + 5e-4 * value
        ):
            wrong.append(f"{key}: {short:.1f} short, {over:.1f} over, and {after.short} {after.over} are said")
        if max(short, over) > 0.06 + 1e-3 * value and key not in new.missed:
            wrong.append(f"{key} is missed and not listed")
    return wrong
