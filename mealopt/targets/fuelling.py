"""Carbohydrate before, during and after sessions, and the published class of a day."""

from __future__ import annotations

from dataclasses import dataclass, replace

from mealopt.people.case import Athlete, Session
from mealopt.targets.coefficients import (
    AFTER_HOURS,
    AFTER_LEAST,
    AFTER_MOST,
    AFTER_WITHIN,
    BEFORE_FROM,
    BEFORE_LEAST_HOURS,
    BEFORE_MOST_HOURS,
    CARBOHYDRATE_KCAL,
    DAY_CLASSES,
    DURING_OF_DAY,
    JUST_AWAKE_MOST,
    LADDER,
    MIXED_SUGAR_MOST,
    ONE_SUGAR_MOST,
    PER_KG_FROM,
    PER_KG_RATE,
    USED_TO_ROOM,
)
from mealopt.targets.model import SessionEnergy, percent
from mealopt.targets.session_coefficients import EASY_AIM, EASY_FROM, LITTLE_AIM

#: The least of a band is never above this share of its most, so that whole portions fit between: [project].
LEAST_OF_MOST = 2 / 3
#: So much may be eaten by anybody just after waking, g: a banana.
JUST_AWAKE_ROOM = 27.0
#: Nor nearer to it than so many g/h, for a gut that is used to little: half a banana is 13 g [project].
BAND_AT_LEAST = 10.0
#: What a minute of easy walking counts towards the day's class: [project].
EASY_WALK_SHARE = 0.5


@dataclass(frozen=True, slots=True)
class Rung:
    """Carbohydrate in a session, g/h: least, the ladder's own figure, and most."""

    least: float
    rung: float
    most: float


def ladder(minutes: float) -> Rung:
    """The published ladder by duration, for steady work and above: nothing, little, 30, 60, up to 90 g/h."""
    row = next(row for row in reversed(LADDER) if minutes >= row[0])
    return Rung(*row[1:])


def common_practice_g_per_h(mass_kg: float, minutes: float) -> float:
    """0.75 g/kg/h from 60 minutes, never over what mixed sugars allow [common practice, no source]."""
    return min(PER_KG_RATE * mass_kg, float(MIXED_SUGAR_MOST)) if minutes >= PER_KG_FROM else 0.0


def capped_g_per_h(g_per_h: float, *, mixed: bool, used_to_g_per_h: float | None) -> float:
    """A rate under its limits: 60 g/h from one sugar, 90 g/h mixed, 10 g/h over what the gut is used to."""
    limits = [g_per_h, float(MIXED_SUGAR_MOST if mixed else ONE_SUGAR_MOST)]
    if used_to_g_per_h is not None:
        limits.append(used_to_g_per_h + USED_TO_ROOM)
    return min(limits)


def before_g_per_kg(minutes_before: float, minutes_awake: float, session_minutes: float) -> tuple[float, float]:
    """Carbohydrate of a meal that ends so long before an endurance session, g/kg: 1-4 over the 1-4 h before.

    Nothing is asked where the session is 60 min or less. Awake less than an hour: 0-0.5, the rest the evening before.
    """
    if session_minutes <= BEFORE_FROM:
        return 0.0, 0.0
    if minutes_awake < 60 or minutes_before < 60 * BEFORE_LEAST_HOURS:
        return 0.0, float(JUST_AWAKE_MOST)
    return 1.0, min(minutes_before / 60, float(BEFORE_MOST_HOURS))


def just_awake_g(mass_kg: float) -> float:
    """The most carbohydrate of a bite between waking and a session that starts within the hour, g: 0.5 g/kg.

    A banana, 27 g, is allowed to anybody, so that some food can be found for it [project].
    """
    return max(float(JUST_AWAKE_MOST) * mass_kg, JUST_AWAKE_ROOM)


def after_g(gap_minutes: float, mass_kg: float) -> tuple[float, float] | None:
    """Carbohydrate after a session where the next is under 8 h away, g in all: least and most.

    1.0-1.2 g/kg/h for up to 4 h, or until the next session. None where the next meal is enough.
    """
    if gap_minutes >= AFTER_WITHIN:
        return None
    hours = min(float(AFTER_HOURS), max(0.0, gap_minutes) / 60)
    return AFTER_LEAST * mass_kg * hours, AFTER_MOST * mass_kg * hours


def class_minutes(sessions: tuple[Session, ...]) -> float:
    """Endurance minutes of a day as its class counts them: easy walking half, for classes speak of moderate work."""
    return sum(
        entry.minutes * (EASY_WALK_SHARE if entry.kind in ("walk", "other") and entry.effort == "easy" else 1.0)
        for entry in sessions
        if entry.endurance
    )


def day_class(minutes: float) -> tuple[float, float, str]:
    """The published carbohydrate class of a day with so many minutes of endurance work: least, most g/kg, words."""
    _, least, most, words = next(row for row in reversed(DAY_CLASSES) if minutes >= row[0])
    return least, most, f"{least:g}-{most:g} g/kg ({words})"


def step_of(session: Session, athlete: Athlete, rate: str = "ladder") -> Rung:
    """The rung that a session stands on: by the published ladder, or 0.75 g/kg/h where the case chooses it."""
    step = ladder(session.minutes)
    wished = common_practice_g_per_h(athlete.mass_kg, session.minutes) if rate == "per_kg" else 0.0
    return Rung(LEAST_OF_MOST * wished, wished, wished) if wished else step


def aim_in(session: Session, athlete: Athlete, most: float, rate: str = "ladder") -> float:
    """Carbohydrate that a plan for the session aims at, g/h, never above the most that holds for it.

    The rung of the ladder, for hard work half of the way from there to the most; in easy work, where it is optional,
    30 g/h from 90 min on; 20 g/h in hard work of less than 75 min.
    """
    step = step_of(session, athlete, rate)
    if session.effort == "easy":
        return min(most, float(EASY_AIM), step.most) if session.minutes >= EASY_FROM else 0.0
    if step.rung == 0:
        return min(most, float(LITTLE_AIM)) if session.hard and step.most > 0 else 0.0
    return min(most, (step.rung + step.most) / 2 if session.hard else step.rung)


def rate_in(session: Session, athlete: Athlete, rate: str = "ladder") -> tuple[tuple[float, float], tuple[str, ...]]:
    """Carbohydrate during one session, g/h (least, most), and notes. Easy work asks for nothing, and may have some."""
    if not session.endurance:
        return (0.0, 0.0), ()
    step = step_of(session, athlete, rate)
    used = athlete.carbohydrate_used_to_g_per_h
    mixed = step.rung > ONE_SUGAR_MOST and used is not None
    most = capped_g_per_h(step.most, mixed=mixed, used_to_g_per_h=used)
    least = 0.0 if session.effort == "easy" else min(step.least, LEAST_OF_MOST * most, max(0.0, most - BAND_AT_LEAST))
    notes = []
    if used is None and step.most > ONE_SUGAR_MOST:
        notes.append(
            f"the case does not say what your gut is used to in a session, so at most {ONE_SUGAR_MOST:g} g/h; up to "
            f"{MIXED_SUGAR_MOST:g} g/h of mixed sugars once carbohydrate_used_to_g_per_h says that it is used to them"
        )
    elif most < step.most:
        notes.append(f"carbohydrate in it is held to {most:.0f} g/h, {USED_TO_ROOM:g} more than your gut is used to")
    return (least, most), tuple(notes)


def fuelled(
    sessions: tuple[SessionEnergy, ...],
    athlete: Athlete,
    carbohydrate_g: float,
    *,
    maintenance_only: bool,
    rate: str = "ladder",
) -> tuple[tuple[SessionEnergy, ...], tuple[str, ...]]:
    """The day's sessions with what is eaten in them. carbohydrate_g: the day's aim, of which they take 60 % at most."""
    if maintenance_only:
        return sessions, ()
    found, notes = [], []
    for number, entry in enumerate(sessions, 1):
        (least, most), said = rate_in(entry.session, athlete, rate)
        hours = entry.session.minutes / 60
        burnt = entry.net_kcal / CARBOHYDRATE_KCAL
        total = min(most * hours, burnt)
        if total < most * hours - 0.5:
            said = (*said, f"at most {total:.0f} g of carbohydrate in it, because it burns no more than that holds")
        found.append((entry, min(least * hours, LEAST_OF_MOST * total), total))
        notes += [f"Session {number}: {text}" for text in said]
    asked = sum(total for _, _, total in found)
    scale = min(1.0, DURING_OF_DAY * carbohydrate_g / asked) if asked else 1.0
    if scale < 1:
        notes.append(f"Sessions take at most {percent(DURING_OF_DAY)} of the day's carbohydrate")
    return tuple(_with_fuel(entry, scale * least, scale * most) for entry, least, most in found), tuple(notes)


def _with_fuel(entry: SessionEnergy, least_g: float, most_g: float) -> SessionEnergy:
    hours = entry.session.minutes / 60
    return replace(entry, during_g=(least_g, most_g), carbohydrate_g_per_h=(least_g / hours, most_g / hours))
