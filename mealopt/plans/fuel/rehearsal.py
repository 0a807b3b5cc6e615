"""Gut training in words: from what the athlete takes now to what the event needs, a step a week."""

from __future__ import annotations

from mealopt.plans.fuel.need import Need
from mealopt.targets.coefficients import USED_TO_ROOM
from mealopt.targets.fuelling import aim_in, step_of
from mealopt.targets.gut_training import event_needs, gut_steps
from mealopt.targets.session_coefficients import GUT_STEP

#: A session of so many minutes can rehearse a race [common practice, no source].
LONG_ENOUGH = 90


def rehearsal_words(need: Need) -> list[str]:
    """What a session has to say of training the gut: in a race what was missing, before an event its rehearsal."""
    case, session = need.case, need.session
    used = case.athlete.carbohydrate_used_to_g_per_h
    if session.effort == "race":
        words = ["nothing new on race day: what is packed here was rehearsed in training, or is left at home"]
        wished = aim_in(session, case.athlete, step_of(session, case.athlete, case.fuel.rate).most, case.fuel.rate)
        # Where the work itself holds the most lower, a trained gut would change nothing.
        gut_binds = used is not None and need.most > used + USED_TO_ROOM - 0.5
        if used is not None and gut_binds and wished > used + USED_TO_ROOM + 0.5:
            steps = ", ".join(f"{rate:.0f}" for rate in gut_steps(used, wished))
            words.append(
                f"gut training: this race could take {wished:.0f} g/h, and the gut is used to {used:.0f}; for the next "
                f"one practise {steps} g/h, a step a week in the long session, with these same foods"
            )
        return words
    if case.fuel.event_weeks is None or session.minutes < LONG_ENOUGH:
        return []
    wished = event_needs(case.fuel.event_minutes or 180)
    if used is None:
        return ["gut training: say in carbohydrate_used_to_g_per_h what you take now, then the weekly steps follow"]
    steps_left = gut_steps(used, wished, case.fuel.event_weeks)
    if not steps_left:
        return [f"gut training: the gut is used to what the event needs ({wished:.0f} g/h); rehearse these foods"]
    ladder = ", ".join(f"{rate:.0f}" for rate in steps_left)
    short = "" if steps_left[-1] >= wished - 1e-9 else f"; {wished:.0f} g/h cannot be reached in that time"
    return [
        f"gut training: {ladder} g/h, one step of at most {GUT_STEP:g} g/h a week over the long sessions of "
        f"{_weeks(case.fuel.event_weeks)}{short}; rehearse with the foods that the race will use, and repeat a week "
        "that did not sit well"
    ]


def _weeks(count: int) -> str:
    return "this week" if count == 1 else f"{count} weeks"
