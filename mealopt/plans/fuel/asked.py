"""The fuel plans that somebody asks for: of a week, a day or one session, rechecked before they are shown."""

from __future__ import annotations

from mealopt.core.clock import DAYS
from mealopt.documents.fuel import FuelPlan
from mealopt.errors import BadInput, Refused
from mealopt.people.case import Case, Session
from mealopt.people.reading import case_to_dict
from mealopt.plans.day.pose import food_filter
from mealopt.plans.fuel.need import is_fuelled
from mealopt.plans.fuel.plan import fuelled_day
from mealopt.plans.own import case_menu, own_table
from mealopt.recheck.fuel import assert_fuel
from mealopt.targets.day import week_targets


def fuel_asked(case: Case, day: str | None, session: int | None, seconds: float) -> tuple[FuelPlan, ...]:
    """The plans in order of time. Raises as `api.fuel` does."""
    if day is not None and day not in DAYS:
        raise BadInput(f"day: read {day!r}; one of {', '.join(DAYS)} is allowed")
    asked = _asked(case, day, session)
    targets = week_targets(case)
    if targets.maintenance_only:
        raise Refused(
            "No fuel plan is made with diabetes, heart or liver disease or medicines: a doctor or registered dietitian "
            "decides what and when to eat and drink around training."
        )
    menu = case_menu(case)
    found = []
    for name in dict.fromkeys(one for one, _ in asked):
        plans = fuelled_day(case, name, targets.days[name], menu, food_filter(case), seconds)
        found += [plans[number].plan for one, number in asked if one == name and number in plans]
    assert_fuel(tuple(found), case_to_dict(case), menu.pantry, own_table(menu))
    return tuple(found)


def _asked(case: Case, day: str | None, session: int | None) -> list[tuple[str, int]]:
    """Day and number in it of each session that is asked for."""
    placed = [(name, number, one) for name in DAYS for number, one in enumerate(case.sessions_on(name), start=1)]
    within = [entry for entry in placed if day in (None, entry[0])]
    if session is None:
        return [(name, number) for name, number, one in within if is_fuelled(one)]
    where = "of the week" if day is None else f"on {day}"
    if not 1 <= session <= len(within):
        known = f"1 to {len(within)} {where} can be asked for" if within else f"there is none {where}"
        raise BadInput(f"session: read {session}; {known}")
    name, number, one = within[session - 1]
    if not is_fuelled(one):
        ready = [str(place) for place, entry in enumerate(within, start=1) if is_fuelled(entry[2])]
        raise BadInput(
            f"session: read {session}, {_words(one)}; endurance of more than 60 min is fuelled"
            + (f": {', '.join(ready)} {where}" if ready else f", and there is none {where}")
        )
    return [(name, number)]


def _words(one: Session) -> str:
    return f"the {one.kind} of {one.minutes} min on {one.day}"
