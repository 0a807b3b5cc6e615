"""Before and after a session: what to eat and drink around it."""

from __future__ import annotations

from mealopt.core.clock import DAY_MINUTES, DAYS, clock
from mealopt.core.words import duration
from mealopt.people.case import Case, Session
from mealopt.plans.fuel.caffeine import caffeine_words
from mealopt.plans.fuel.need import Need
from mealopt.plans.words import joined
from mealopt.targets.fluid import fluid_after_l, fluid_before_ml
from mealopt.targets.fuelling import after_g, just_awake_g
from mealopt.targets.session_coefficients import FLUID_AFTER
from mealopt.targets.timing import Layout

#: Hours over which the fluid before is spread; who is awake for less drinks less of it.
SPREAD = 240

#: Two races this near to each other, minutes, are one weekend.
TWO_RACES = 36 * 60


def before_words(need: Need, layout: Layout) -> tuple[str, ...]:
    """What to eat and drink before the session, in sentences. layout: of its day, whose meals are spoken of."""
    case, session, mass = need.case, need.session, need.case.athlete.mass_kg
    awake = session.start_minute - case.kitchen_on(need.day).wake
    words = [_carbohydrate_before(need, layout)]
    if need.fluid is not None:
        low, high = fluid_before_ml(mass, min(1.0, max(awake, 0) / SPREAD))
        if high >= 50:
            short = ", less because the time is short" if awake < SPREAD else ""
            words.append(f"{low}-{high} ml of fluid (5-10 ml/kg over 2 to 4 h{short}), and none by force")
    if session.effort == "race":
        words.append("at the start line: a mouthful of water, and nothing that you have not tried in training")
    words += caffeine_words(need)
    return tuple(words)


def _carbohydrate_before(need: Need, layout: Layout) -> str:
    """The grams that the day's own meals are to hold before the session: those that it is planned by."""
    mass = need.case.athlete.mass_kg
    window = next((one for one in layout.refuel if one.before == need.number), None)
    if window is not None:
        times = joined([clock(layout.slots[index].start) for index in window.slots])
        meals, sees = ("meal", "sees") if len(window.slots) == 1 else ("meals", "see")
        per_kg = window.aim / mass
        full = per_kg > 0.95
        grams = f"{window.aim:.0f} g carbohydrate or more" if full else f"about {window.aim:.0f} g carbohydrate"
        short = "" if full else ", but no more fits there"
        return (
            f"{grams} in the 1 to 4 h before ({per_kg:.1f} g/kg; published: 1-4 g/kg{short}), little fibre and fat: "
            f"the {meals} at {times} {sees} to it"
        )
    bite = next((slot for slot in layout.slots if slot.before_session == need.number
                 and slot.carbohydrate_most is not None), None)  # fmt: skip
    if bite is not None:
        return (
            f"up to {bite.carbohydrate_most:.0f} g carbohydrate at {clock(bite.start)}, just after waking, for there "
            "is no time for more; the evening before carries the rest"
        )
    return (
        f"no meal of the day stands in the 4 h before; a bite of up to {just_awake_g(mass):.0f} g carbohydrate is "
        "yours to add, and the meals before that carry the rest"
    )


def after_words(need: Need, short_kg: float | None) -> tuple[str, ...]:
    """What to eat and drink after it. short_kg: body mass lost at the end, where a test says so."""
    case, session = need.case, need.session
    words = []
    if need.fluid is not None:
        if short_kg:
            least, most = fluid_after_l(short_kg)
            words.append(
                f"{least:.1f}-{most:.1f} L over the hours after, with meals that hold salt, for the {short_kg:.1f} kg "
                "that are lost by then (1.25-1.5 L/kg)"
            )
        else:
            low, high = FLUID_AFTER
            words.append(f"drink with meals that hold salt; {low:g}-{high:g} L for each kg that the scale is down")
    gap = minutes_to_next(case, session)
    again = after_g(gap, case.athlete.mass_kg) if gap is not None else None
    if again is not None and gap is not None and gap >= 30:
        words.append(
            f"the next session follows in {duration(gap)}: {again[0]:.0f}-{again[1]:.0f} g "
            "carbohydrate until then (1.0-1.2 g/kg/h for up to 4 h), low in fibre again towards it"
        )
    elif race_within(case, session, TWO_RACES):
        words.append(
            "another race follows within two days: 1.0-1.2 g/kg/h carbohydrate for the first 4 h, then towards 10 g/kg "
            "in all until it starts, low in fibre"
        )
    else:
        words.append("the next meal refills the stores: no hurry, no session follows within 8 h")
    return tuple(words)


def race_within(case: Case, session: Session, minutes: int) -> bool:
    """Whether another race starts so soon after a session."""
    end = DAYS.index(session.day) * DAY_MINUTES + session.end_minute
    starts = (DAYS.index(one.day) * DAY_MINUTES + one.start_minute for one in case.session if one.effort == "race")
    return any(0 <= start - end <= minutes for start in starts)


def minutes_to_next(case: Case, session: Session) -> int | None:
    """From a session's end to the start of the next one, the next day's included; None where it is the last."""

    def at(one: Session) -> int:
        return DAYS.index(one.day) * DAY_MINUTES + one.start_minute

    later = [at(other) for other in case.session if at(other) > at(session)]
    return min(later) - at(session) - session.minutes if later else None
