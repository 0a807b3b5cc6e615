"""What is eaten and drunk in sessions, found again: sums, caps, ceilings and clock, by arithmetic of its own.

Caps: 60 g/h of glucose and 90 g/h in all (Jeukendrup 2013), 10 g/h over what the gut is used to (project's assumption),
fibre 2 and fat 3 g/h (project's assumption); fluid at most the lower of a test's rate and 1.0 L/h, without one 0.8 L/h
(ACSM/AND/DC 2016 [memory]); sodium at most 1,150 mg for each litre drunk [memory].
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from mealopt.core.clock import minutes_of
from mealopt.core.nutrients import CARBOHYDRATE, FAT, FIBRE, SODIUM
from mealopt.documents.fuel import FuelFood, FuelPlan
from mealopt.documents.plan import Item, Meal, PlanDay
from mealopt.errors import BrokenPlan
from mealopt.recheck.facts import Facts, read_facts
from mealopt.recheck.foods import forbidden
from mealopt.recheck.fuel_clock import broken_clock
from mealopt.recheck.fuel_drink import broken_drink
from mealopt.recheck.sums import Books
from mealopt.recheck.tolerances import same, slack
from mealopt.table.composition import shipped_composition
from mealopt.table.extra import shipped_extra
from mealopt.table.pantry import Pantry

#: g/h: of glucose, of everything from mixed sugars, over what the gut is used to; fibre and fat.
GLUCOSE_MOST, ALL_MOST, OVER_USED_TO = 60.0, 90.0, 10.0
FIBRE_MOST, FAT_MOST = 2.0, 3.0
#: Written rates are rounded to a tenth.
TENTH = 0.06


def assert_fuel(
    plans: Iterable[FuelPlan], case: Mapping[str, Any], pantry: Pantry, own: Mapping[str, Mapping[str, float]]
) -> None:
    """Raise BrokenPlan with every broken promise of some sessions' plans, where there is one."""
    facts = read_facts(dict(case))
    if isinstance(facts, str):
        raise BrokenPlan(facts)
    books = Books(shipped_composition(), pantry, facts, own)
    broken = [says for plan in plans for says in broken_fuel_plan(plan, books)]
    if broken:
        raise BrokenPlan("this fuel plan does not keep what it promises:\n" + "\n".join(f"- {says}" for says in broken))


def broken_fuel(day: PlanDay, books: Books) -> Iterator[str]:
    """Each session's fuel by itself, and against the one meal of the day that holds its food."""
    for session in day.sessions:
        plan = session.fuel
        if plan is None:
            continue
        yield from broken_fuel_plan(plan, books)
        if (plan.day, plan.session, plan.minutes) != (day.day, session.number, session.minutes):
            yield f"{_place(plan)}: it stands at session {session.number} of {day.day}"
        meals = [meal for meal in day.meals if meal.slot == "during" and meal.time == session.start]
        skipped = any(meal.slot == "during" and meal.time == session.start for meal in day.skipped)
        if not skipped:
            yield from _once(plan, meals)


def _once(plan: FuelPlan, meals: list[Meal]) -> Iterator[str]:
    """The session's food is in the day once: in one meal, with the same grams."""
    if len(meals) != (1 if plan.foods else 0):
        yield f"{_place(plan)}: its food stands in {len(meals)} meals of the day, not in {1 if plan.foods else 0}"
        return
    eaten = _added((item.food, item.grams) for meal in meals for item in meal.items)
    packed = _added((food.food, food.grams) for food in plan.foods)
    for food in dict.fromkeys((*packed, *eaten)):
        if abs(eaten.get(food, 0.0) - packed.get(food, 0.0)) > 0.05:
            yield f"{_place(plan)}: {packed.get(food, 0.0):g} g of {food} packed, {eaten.get(food, 0.0):g} g in the day"


def broken_fuel_plan(plan: FuelPlan, books: Books) -> Iterator[str]:
    """Every promise of one session's plan."""
    place = _place(plan)
    if books.facts is None or books.pantry is None:
        return
    session = next(
        (one for number, one in enumerate(books.facts.sessions_on(plan.day), 1) if number == plan.session), None
    )
    if session is None or (session.begins, session.minutes, session.kind) != (
        minutes_of(plan.start), plan.minutes, plan.kind,
    ):  # fmt: skip
        yield f"{place}: the case has no such session"
    unknown = [food.food for food in plan.foods if food.food not in books.pantry.foods]
    if unknown:
        yield f"{place}: the pantry has no {', '.join(unknown)}"
        return
    yield from (f"{place}: {says}" for says in _packed(plan))
    totals = _sums(plan.foods, books)
    for key, written in plan.totals.items():
        if not same(written, totals.get(key, 0.0)):
            yield f"{place}: its totals say {written:g} of {key}, its foods hold {totals.get(key, 0.0):.5g}"
    yield from (f"{place}: {says}" for says in _caps(plan, totals, books))
    used = books.facts.athlete.carbohydrate_used_to_g_per_h
    cap = min(ALL_MOST, GLUCOSE_MOST if used is None else used + OVER_USED_TO)
    bottled = [_sums(bottle.holds, books).get(CARBOHYDRATE, 0.0) for bottle in plan.bottles]
    yield from (f"{place}: {says}" for says in broken_clock(plan, totals.get(CARBOHYDRATE, 0.0), bottled, cap))
    water = _sums((food for thing in plan.carried for food in thing.holds for _ in range(thing.count)), books)
    yield from (f"{place}: {says}" for says in broken_drink(plan, totals.get(SODIUM, 0.0), water, books.facts))
    yield from (f"{place}: {says}" for says in _wishes(plan, books.facts, books.pantry))


def _packed(plan: FuelPlan) -> Iterator[str]:
    """What is in bottles and pockets is what is packed in all."""
    held = _added(
        [(food.food, bottle.count * food.grams) for bottle in plan.bottles for food in bottle.holds]
        + [(food.food, thing.count * food.grams) for thing in plan.carried for food in thing.holds]
    )
    packed = _added((food.food, food.grams) for food in plan.foods)
    for food in dict.fromkeys((*held, *packed)):
        if abs(held.get(food, 0.0) - packed.get(food, 0.0)) > 0.02 * (1 + len(plan.bottles) + len(plan.carried)):
            yield f"{held.get(food, 0.0):g} g of {food} in bottles and pockets, {packed.get(food, 0.0):g} g in all"


def _caps(plan: FuelPlan, totals: Mapping[str, float], books: Books) -> Iterator[str]:
    assert books.facts is not None
    hours = plan.minutes / 60.0
    rate = totals.get(CARBOHYDRATE, 0.0) / hours
    if abs(rate - plan.gives_g_per_h) > TENTH:
        yield f"{plan.gives_g_per_h:g} g/h of carbohydrate are said, {rate:.1f} g/h are packed"
    used = books.facts.athlete.carbohydrate_used_to_g_per_h
    most = min(ALL_MOST, GLUCOSE_MOST if used is None else used + OVER_USED_TO)
    asked = plan.carbohydrate_g_per_h.most
    for cap, says in ((most, "gut and transport take"), (most if asked is None else asked + TENTH, "are promised")):
        if rate > cap + slack(cap):
            yield f"{rate:.1f} g/h of carbohydrate, {cap:g} g/h at most {says}"
    fructose = math.fsum(_fructose(food, books) for food in plan.foods) / hours
    fibre = totals.get(FIBRE, 0.0) / hours
    if rate - fibre - fructose > GLUCOSE_MOST + slack(GLUCOSE_MOST):
        yield f"{rate - fibre - fructose:.1f} g/h end as glucose, {GLUCOSE_MOST:g} at most are taken up"
    for key, limit in ((FIBRE, FIBRE_MOST), (FAT, FAT_MOST)):
        if totals.get(key, 0.0) > limit * hours + slack(limit * hours):
            yield f"{totals[key]:.1f} g of {key}, at most {limit * hours:g} in {hours:.3g} h"


def _fructose(food: FuelFood, books: Books) -> float:
    """Grams of fructose that a food ends as: its sugars times the share that the extra file gives."""
    entry = shipped_extra().get(food.food)
    per_100g = books.per_100g(_item(food, books)) or {}
    if entry is None or entry.fructose is None or "sugars_g" not in per_100g:
        return 0.0
    digested = max(0.0, per_100g.get(CARBOHYDRATE, 0.0) - per_100g.get(FIBRE, 0.0))
    return food.grams / 100.0 * min(digested, per_100g["sugars_g"]) * entry.fructose


def _wishes(plan: FuelPlan, facts: Facts, pantry: Pantry) -> Iterator[str]:
    for food in plan.foods:
        if food.food in facts.kitchen.never:
            yield f"{food.food} is never to be planned"
        yield from (f"{food.food} {why}" for why in forbidden(pantry.foods[food.food], facts.kitchen))


def _sums(foods: Iterable[FuelFood], books: Books) -> dict[str, float]:
    parts: dict[str, list[float]] = defaultdict(list)
    for food in foods:
        for key, per_100g in (books.per_100g(_item(food, books)) or {}).items():
            parts[key].append(food.grams * per_100g / 100.0)
    return {key: math.fsum(values) for key, values in parts.items()}


def _item(food: FuelFood, books: Books) -> Item:
    """The food as an item of a meal, with the source that the pantry gives it."""
    assert books.pantry is not None
    entry = books.pantry.foods[food.food]
    source = entry.ndb if entry.ndb.startswith("own:") else f"USDA-SR28:{entry.ndb}"
    return Item(
        food=food.food, source=source, grams=food.grams, measure=food.measure, state=entry.state, as_bought_g=0.0
    )


def _added(amounts: Iterable[tuple[str, float]]) -> dict[str, float]:
    found: dict[str, float] = {}
    for food, grams in amounts:
        found[food] = found.get(food, 0.0) + grams
    return found


def _place(plan: FuelPlan) -> str:
    return f"{plan.day}, fuel of session {plan.session} ({plan.kind} at {plan.start})"
