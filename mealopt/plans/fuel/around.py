"""Before and after a session: what to eat and drink around it."""

from __future__ import annotations

from mealopt.core.clock import DAY_MINUTES, DAYS
from mealopt.people.case import Case, Session
from mealopt.plans.fuel.caffeine import caffeine_words
from mealopt.plans.fuel.need import Need
from mealopt.targets.fluid import fluid_after_l, fluid_before_ml
from mealopt.targets.fuelling import after_g, before_g_per_kg
from mealopt.targets.session_coefficients import FLUID_AFTER

#: Hours over which the fluid before is spread; who is awake for less drinks less of it.
SPREAD = 240

#: Two races this near to each other, minutes, are one weekend.
TWO_RACES = 36 * 60


def before_words(need: Need) -> tuple[str, ...]:
    """What to eat and drink before the session, in sentences."""
    case, session, mass = need.case, need.session, need.case.athlete.mass_kg
    awake = session.start_minute - case.kitchen_on(need.day).wake
    lead = max(0, min(awake - 20, SPREAD))
    least, most = before_g_per_kg(lead, awake, session.minutes)
    words = []
    if most > 0 and least > 0:
        words.append(
            f"{least * mass:.0f}-{most * mass:.0f} g carbohydrate (1-{most:.1f} g/kg) in the {lead // 60} h "
            f"{lead % 60:02d} min before, little fibre and fat; the day's meals see to it"
        )
    elif most > 0:
        words.append(
            f"up to {most * mass:.0f} g carbohydrate (0-0.5 g/kg) after waking, for there is no time for more; the "
            "evening before carries the rest"
        )
    if need.fluid is not None:
        low, high = fluid_before_ml(mass, min(1.0, max(awake, 0) / SPREAD))
        if high >= 50:
            short = ", less because the time is short" if awake < SPREAD else ""
            words.append(f"{low}-{high} ml of fluid (5-10 ml/kg over 2 to 4 h{short}), and none by force")
    if session.effort == "race":
        words.append("at the start line: a mouthful of water, and nothing that you have not tried in training")
    words += caffeine_words(need)
    return tuple(words)


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
            f"the next session follows in {gap // 60} h {gap % 60:02d} min: {again[0]:.0f}-{again[1]:.0f} g "
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
