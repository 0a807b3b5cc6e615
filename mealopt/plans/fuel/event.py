"""The sheet for the day of an event: the two days before, the morning, the start, the race by the clock, the hours
after. Plain text of one page, 80 characters wide."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from datetime import timedelta

from mealopt.core.clock import DAY_MINUTES, DAYS, minutes_of
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FIBRE
from mealopt.core.words import duration
from mealopt.documents.fuel import FuelPlan, FuelStep
from mealopt.documents.plan import Plan
from mealopt.errors import BadInput
from mealopt.people.case import Case, Session
from mealopt.people.reading import case_to_dict
from mealopt.targets.coefficients import EVE_EVENT_OVER
from mealopt.targets.day import week_targets
from mealopt.targets.model import WeekTargets
from mealopt.targets.session_coefficients import SHORT_EVENT_DAY

WIDE, PAGE = 80, 66
NAMES = dict(zip(DAYS, ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"), strict=True))

#: Races with more steps than this are told by the hour, so that they stay on the page.
STEPS_MOST = 22

#: A race of so many hours at most has room for the times of what is eaten in each.
TIMES_TO = 6

SHORT_CAUTION = (
    "Drink to thirst, never more than you sweat: headache, nausea, swelling, confusion or a rise on the scale: stop "
    "drinking and get help. Planning help for healthy adults, not medical advice: with a condition a doctor or "
    "registered dietitian decides. Read each label."
)


def races_of(case: Case) -> list[tuple[str, int, Session]]:
    """Day, number in it and session of each endurance race of the week, in order of time."""
    return [
        (day, number, one)
        for day in DAYS
        for number, one in enumerate(case.sessions_on(day), start=1)
        if one.effort == "race" and one.endurance
    ]


def check_plan_of(case: Case, plan: Plan, where: str) -> None:
    """Raise BadInput where the plan is not of this case: its athlete, week or sessions are others."""
    given, read = case_to_dict(case), dict(plan.case)
    named = {"athlete": "another athlete", "week_of": "another week", "session": "other sessions"}
    for key, says in named.items():
        if given.get(key) != read.get(key):
            raise BadInput(f"{where}: read a plan of {says} than the case has; a plan of this case is expected")


def event_sheets(case: Case, fuel: tuple[FuelPlan, ...], plan: Plan | None = None) -> tuple[str, ...]:
    """One sheet for each race of the case. fuel: of its sessions; plan: its meals are named where it is given.

    Raises BadInput where the case has no race.
    """
    races = races_of(case)
    if not races:
        raise BadInput('read no race; a session with effort = "race" is expected for its sheet')
    targets = week_targets(case)
    by_place: dict[tuple[str, int], FuelPlan] = {(one.day, one.session): one for one in fuel}
    pages = []
    for day, number, session in races:
        plan_of = by_place.get((day, number))
        lines = list(_sheet(case, day, session, targets, plan_of, plan, STEPS_MOST))
        if len(lines) > PAGE:
            lines = list(_sheet(case, day, session, targets, plan_of, plan, 0))
        pages.append("\n".join(lines))
    return tuple(pages)


def _sheet(
    case: Case, day: str, session: Session, targets: WeekTargets, fuel: FuelPlan | None, plan: Plan | None, steps: int
) -> Iterator[str]:
    far = "" if session.distance_km is None else f", {session.distance_km:g} km"
    title = f"{case.athlete.name}: {session.kind} race of {duration(session.minutes)}{far}"
    yield from _wrapped(f"{title}, {_date(case, day)} at {session.start}", 0)
    yield "=" * WIDE
    yield from _days_before(case, day, session, targets, plan)
    yield from _head("The morning" if session.start_minute < 12 * 60 else "The day until the start")
    yield from _meals(plan, day, session.start_minute)
    if fuel is None:
        yield from _wrapped(
            f"{session.minutes} min: nothing needs to be eaten on the way; a little to drink, to thirst"
        )
    else:
        yield from (line for words in fuel.before for line in _wrapped(words))
        yield from _head("To pack")
        yield from _pack(fuel)
        yield from _head("The race")
        yield from _race(fuel, steps)
        yield from _head("After")
        yield from (line for words in fuel.after for line in _wrapped(words))
    yield ""
    yield from _wrapped(SHORT_CAUTION, 0)


def _days_before(case: Case, day: str, session: Session, targets: WeekTargets, plan: Plan | None) -> Iterator[str]:
    place = DAYS.index(day)
    mass = case.athlete.mass_kg
    before = [name for name in DAYS[max(0, place - 2) : place] if targets.days[name].eve]
    yield from _head("The days before")
    for name in before:
        bands = targets.days[name].bands
        grams = bands[CARBOHYDRATE].least or 0.0
        yield from _wrapped(
            f"{_date(case, name)}: at least {grams:.0f} g carbohydrate ({grams / mass:.1f} g/kg), fibre at most "
            f"{bands[FIBRE].most or 15:.0f} g, {bands[ENERGY].aim or 0:,.0f} kcal: familiar foods only, white bread, "
            "rice, pasta, juice; fat and protein make room; the scale may rise by 1-2 kg"
        )
        yield from _meals(plan, name, 2 * DAY_MINUTES)
    if not before and session.minutes <= EVE_EVENT_OVER:
        least, most = (per_kg * mass for per_kg in SHORT_EVENT_DAY)
        yield from _wrapped(
            f"the 24 h before: {least:.0f}-{most:.0f} g carbohydrate (7-12 g/kg) is what a race of up to 90 min asks "
            "for; familiar foods, little fibre from the evening on"
        )
    elif not before:
        yield from _wrapped("the days before lie outside this week, or hold a race: 10-12 g/kg, fibre at most 10-15 g")


def _meals(plan: Plan | None, day: str, until: int) -> Iterator[str]:
    """The day's planned meals up to a minute, as one paragraph."""
    for entry in plan.days if plan is not None else ():
        meals = [meal for meal in entry.meals if minutes_of(meal.time) < until and meal.slot != "during"]
        if entry.day == day and meals:
            named = (f"{meal.time} {meal.dish} ({meal.totals.get(CARBOHYDRATE, 0.0):.0f} g)" for meal in meals)
            yield from _wrapped(f"planned, with their carbohydrate: {'; '.join(named)}")


def _pack(fuel: FuelPlan) -> Iterator[str]:
    for bottle in fuel.bottles:
        yield from _wrapped(f"{bottle.count} x {bottle.ml} ml {bottle.name}: {bottle.says}")
    for thing in fuel.carried:
        yield from _wrapped(f"{thing.name} ({thing.grams:.0f} g each)")
    yield from _wrapped(
        f"{fuel.start_weight_g / 1000:.1f} kg at the start; {fuel.gives_g_per_h:.0f} g carbohydrate an hour"
        + (
            f"; {fuel.fluid.planned_l_per_h:.2f} L an hour, at most {fuel.fluid.ceiling_l_per_h:.2f}"
            if fuel.fluid
            else ""
        )
        + (f"; sodium {fuel.sodium.planned_mg_per_l:.0f} mg/L" if fuel.sodium and fuel.sodium.asked else "")
    )


def _race(fuel: FuelPlan, most: int) -> Iterator[str]:
    if len(fuel.steps) <= most:
        for step in fuel.steps:
            yield from _wrapped(f"{_at(step)}  {step.says}", hang=15)
        return
    told = len(fuel.by_hour_g) <= TIMES_TO
    for hour in range(len(fuel.by_hour_g)):
        inside = [step for step in fuel.steps if hour * 60 <= step.minute < hour * 60 + 60]
        if inside:
            yield from _wrapped(f"{_at(inside[0])}  {'; '.join(_in_short(inside, told))}", hang=15)


def _in_short(steps: list[FuelStep], told: bool) -> Iterator[str]:
    """An hour in a line: refills, bottles, and what is eaten, counted, or with its time where there is room."""
    eaten: dict[str, int] = {}
    for step in steps:
        if step.kind == "eat" and told:
            yield f"{step.time} {step.says}"
        elif step.kind == "eat":
            eaten[step.says] = eaten.get(step.says, 0) + 1
        else:
            yield step.says.split(": ")[0]
    if eaten:
        yield ", ".join(f"{count} x {says}" if count > 1 else says for says, count in eaten.items())


def _at(step: FuelStep) -> str:
    far = "" if step.km is None else f"{step.km:5.1f} km"
    return f"{step.time} {far}".ljust(14)


def _head(words: str) -> Iterator[str]:
    yield ""
    yield words


def _wrapped(words: str, indent: int = 2, hang: int | None = None) -> Iterator[str]:
    deeper = " " * (indent + (2 if hang is None else hang) if indent else 0)
    yield from textwrap.wrap(words, WIDE, initial_indent=" " * indent, subsequent_indent=deeper)


def _date(case: Case, day: str) -> str:
    if case.week_of is None:
        return NAMES[day]
    date = case.week_of + timedelta(days=DAYS.index(day))
    return f"{NAMES[day]} {date.day} {date:%B %Y}"
