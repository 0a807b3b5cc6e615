"""Caffeine in words: coffee or tea before hard work, where the case asks for it and nothing forbids it."""

from __future__ import annotations

from mealopt.core.clock import clock
from mealopt.plans.fuel.need import Need
from mealopt.table.extra import shipped_extra
from mealopt.targets.caffeine import caffeine_for

#: What a cup of each holds, ml [common practice, no source].
CUPS = {"coffee": 200, "tea": 220}


def caffeine_words(need: Need) -> list[str]:
    """The dose before the session with its source, or why there is none; nothing where the case does not ask."""
    case, session = need.case, need.session
    found = caffeine_for(case, session, case.kitchen_on(need.day).sleep, _earlier_mg(need))
    if found is None:
        return []
    if found.why_not:
        return [found.why_not]
    extra = shipped_extra()
    brews = []
    for name, ml in CUPS.items():
        held = extra[name].caffeine if name in extra else None
        if held is not None and name not in case.kitchen.never:
            brews.append(f"{ml} ml of {name} about {held[0] * ml / 100:.0f}-{held[1] * ml / 100:.0f} mg")
    if not brews:
        return []
    return [
        f"caffeine, because you ask for it: at most {found.most_mg:.0f} mg at {clock(found.minute)} (3 mg/kg, 200 mg "
        f"at once, 400 mg a day from all sources; {', '.join(brews)}, EFSA 2015 [memory]; the food table does not know "
        "it). Rehearse it first; without the habit leave it"
    ]


def _earlier_mg(need: Need) -> float:
    """What earlier sessions of the day were given."""
    case = need.case
    taken = 0.0
    for session in case.sessions_on(need.day):
        if session.start_minute >= need.session.start_minute:
            break
        dose = caffeine_for(case, session, case.kitchen_on(need.day).sleep, taken)
        if dose is not None and session.minutes > 60 and session.endurance:
            taken += dose.most_mg
    return taken
