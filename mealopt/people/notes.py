"""What a reader of the case should hear though nothing is refused, and the foods that a case names."""

from __future__ import annotations

from mealopt.core.clock import DAYS, clock
from mealopt.people.case import Case
from mealopt.people.days import sleep_on, wake_on
from mealopt.people.reference import key_words
from mealopt.people.session import Session

#: Keys whose defaults change the plan of somebody who did not know of them, and the words for what is then taken.
_TOLD: dict[tuple[str, str], str] = {
    ("athlete", "steps_per_day"): "{} steps a day",
    ("athlete", "lifting_hours_per_week"): "{} hours of lifting a week",
    ("goal", "mass_change_percent_per_week"): "no change of body mass",
    ("goal", "protein_g_per_kg"): "{} g of protein per kg",
    ("kitchen", "diet"): "an {} diet",
    ("kitchen", "avoid_allergens"): "no allergens to avoid",
    ("kitchen", "wake"): "waking at {}",
    ("kitchen", "sleep"): "sleep at {}",
    ("kitchen", "meals_per_day"): "{} meals a day",
    ("kitchen", "cook_minutes"): "{} minutes of cooking a day",
}


def case_notes(case: Case) -> list[str]:
    """Sentences on what was assumed, was not asked or is doubted. None of them stops a plan."""
    notes = []
    if case.athlete.cautions is None:
        notes.append("cautions: not asked; write cautions = [] in [athlete] when there are none")
    notes.append("The published equations know only two sexes, female and male")
    if taken := _taken(case):
        notes.append(f"The case does not say otherwise, so the plan assumes {joined(taken)}")
    if case.kitchen.can_cook is None:
        without = [day for day in DAYS if case.kitchen.stove(day) is None]
        on = "" if len(without) == len(DAYS) else f" on {', '.join(without)}"
        away = " but where you are away" if any(entry.away for entry in case.kitchen.day) else ""
        notes.append(f"A stove is taken to be at hand all day{on}{away}; if it is not, write can_cook in the case")
    notes.extend(_allergens(case))
    notes.extend(_table(case))
    notes.extend(_stretched(case))
    for session in case.session:
        notes.extend(_session_notes(session))
    return notes


def peanuts_left_out(case: Case) -> bool:
    """Whether peanuts go with the nuts that the case avoids: the case asks for no food or meal with them."""
    avoided = case.kitchen.avoid_allergens
    asked = " ".join([*case.kitchen.prefer, *(food for meal in case.kitchen.fixed for food, _ in meal.portions)])
    return "nuts" in avoided and "peanuts" not in avoided and "peanut" not in asked


def _allergens(case: Case) -> list[str]:
    """What the EU list counts apart and somebody may take for one."""
    avoided = case.kitchen.avoid_allergens
    notes = []
    if peanuts_left_out(case):
        notes.append(
            'The EU list counts peanuts apart from nuts: they are left out too; to have them, name one under "prefer"'
        )
    if "peanuts" in avoided and "lupin" not in avoided:
        notes.append("Lupin can harm people with a peanut allergy; the EU list counts it apart: avoid lupin too if so")
    return notes


def joined(words: list[str]) -> str:
    """ "a, b and c"."""
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def named_foods(case: Case) -> list[tuple[str, str]]:
    """Foods and dishes that the case names, each as (key, name), for checking against the pantry."""
    kitchen = case.kitchen
    lists = (("never", kitchen.never), ("prefer", kitchen.prefer), ("less", kitchen.less))
    named = [(f"[kitchen] {key}, entry {place}", name) for key, names in lists for place, name in enumerate(names, 1)]
    for place, meal in enumerate(kitchen.fixed, 1):
        if meal.dish is not None:
            named.append((f"[[kitchen.fixed]] {place} dish", meal.dish))
        for at, (food, _) in enumerate(meal.portions, 1):
            named.append((f"[[kitchen.fixed]] {place} foods, entry {at}", food))
    return named


def _taken(case: Case) -> list[str]:
    taken = []
    for (table, key), words in _TOLD.items():
        part = getattr(case, table)
        if key == "lifting_hours_per_week" and any(not session.endurance for session in case.session):
            continue
        if key not in part.model_fields_set:
            default = key_words(type(part).model_fields[key]).default.strip('"')
            taken.append(f"{words.format(default)} ({key})")
    return taken


def _table(case: Case) -> list[str]:
    """How much to cook where others eat too: a plan's amounts are the athlete's own."""
    people, share = case.kitchen.people_at_table, case.kitchen.your_share_percent
    if people == 1:
        return []
    part = f"1 of {people}" if share is None else f"{share:g} % of the dish"
    times = people if share is None else 100.0 / share
    cook = f"for the table cook {times:.3g} times as much of breakfast, lunch, dinner and snacks"
    return [f"Amounts in the plan are your portion, {part}; {cook}"]


def _stretched(case: Case) -> list[str]:
    """Days whose hours a session in sleeping hours moved."""
    notes = []
    for day in DAYS:
        written_wake, written_sleep = case.kitchen.hours(day)
        wake, sleep = wake_on(case.kitchen, case.session, day), sleep_on(case.kitchen, case.session, day)
        if wake != written_wake:
            notes.append(f"{day}: a race begins before {clock(written_wake)}, so waking is taken as {clock(wake)}")
        if sleep > written_sleep:
            notes.append(f"{day}: a session ends after {clock(written_sleep)}, so sleep is taken as {clock(sleep)}")
        if sleep < written_sleep:
            notes.append(f"{day}: a race moves the next waking, so sleep is taken as {clock(sleep)}")
    return notes


def _session_notes(session: Session) -> list[str]:
    what = f"{session.day} {session.start} {session.kind}"
    notes = []
    if session.active_kcal is not None and not session.endurance:
        notes.append(f"{what}: active_kcal adds no energy; lifting stands in the baseline")
    elif session.active_kcal is not None and "energy_from" not in session.model_fields_set:
        notes.append(f"{what}: energy_from not given; the figure is taken as a wrist device's")
    elif session.active_kcal is None and session.energy_from == "wrist":
        notes.append(f'{what}: energy_from = "wrist" names a figure that is not given; its energy is estimated')
    return notes
