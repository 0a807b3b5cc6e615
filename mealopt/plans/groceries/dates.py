"""By when food has to be eaten: a place after the plan's first day in the words of a file, and back."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta

from mealopt.core.clock import DAYS
from mealopt.core.words import DAY_NAMES, dated
from mealopt.documents.plan import Plan
from mealopt.plans.groceries.have import AtHome
from mealopt.plans.groceries.left import TRIFLE
from mealopt.plans.groceries.needs import Thing, day_at, place_of
from mealopt.plans.groceries.shopping import Left
from mealopt.plans.groceries.shops import Shops, tenth_down


def last_day_words(plan: Plan, keeps_days: int | None) -> str:
    """The last day on which what keeps so many days after the plan can be eaten: "2027-03-16".

    A plan without dates says the day of the week, where that lies in the week that follows; else "".
    """
    if not keeps_days:
        return ""
    last = plan.days[-1]
    if last.date is not None:
        return (last.date + timedelta(days=keeps_days)).isoformat()
    return day_at(plan, place_of(plan, last.day) + keeps_days) if keeps_days < len(DAYS) else ""


def last_place(plan: Plan, by: str) -> int | None:
    """The place of the last day on which food can be eaten, below 0 where that is past; None where nothing says."""
    first = plan.days[0]
    if by in DAYS:
        return place_of(plan, by)
    if not by or first.date is None:
        return None
    return (date.fromisoformat(by) - first.date).days


def in_time(
    plan: Plan, things: Iterable[Thing], at_home: Mapping[str, AtHome]
) -> tuple[dict[str, float], tuple[str, ...]]:
    """Of what is at home, the grams that can be eaten in time, and sentences on what cannot.

    Food whose last day lies before a meal does not serve that meal.
    """
    needed = {thing.name: thing for thing in things}
    usable: dict[str, float] = {}
    gone: list[str] = []
    for name, there in at_home.items():
        until, thing = last_place(plan, there.by), needed.get(name)
        usable[name] = float(there)
        if until is None:
            continue
        if thing is None:
            usable[name] = float(there) if until >= 0 else 0.0
        else:
            eaten = sum(grams for place, grams in thing.by_day.items() if place <= until)
            after = place_of(plan, plan.days[-1].day) < until
            usable[name] = float(there) if after else min(float(there), tenth_down(eaten))
        lost = float(there) - usable[name]
        if lost > TRIFLE * (thing.pack_g if thing else float(there)):
            gone.append(f"{name} {lost:.0f} g ({_until(plan, until)})")
    words = f"At home, and past its last day before it is needed: {', '.join(gone)}: eat it sooner, or leave it out"
    return usable, (words,) if gone else ()


def days_more(until: int | None, keeps: int, shops: Shops, last: int) -> int | None:
    """Days after the plan that food from home keeps; None where its age is not known, and it may be long."""
    if until is not None:
        return max(0, until - last)
    return None if shops.first + keeps > last else 0


def with_dates(plan: Plan, left: Sequence[Left]) -> tuple[Left, ...]:
    """What is left with the last day for each, as far as it is known."""
    return tuple(replace(one, by=last_day_words(plan, one.keeps_days)) for one in left)


def _until(plan: Plan, until: int) -> str:
    first = plan.days[0]
    on = None if first.date is None else first.date + timedelta(days=until)
    return f"by {dated(on, day_at(plan, until)) if on else DAY_NAMES[day_at(plan, until)]}"
