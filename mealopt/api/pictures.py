"""What pictures of the numbers and of a day need: the steps to a day's energy, and when its meals must be light."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from mealopt.core.nutrients import ENERGY, FAT, FIBRE

if TYPE_CHECKING:
    from mealopt.people.case import Case
    from mealopt.targets.model import DayTargets, Step, WeekTargets


@dataclass(frozen=True, slots=True)
class EnergyStep:
    """One step on the way to a day's energy. kcal: added, or reached where it is a stop on the way."""

    name: str
    kcal: float
    reached: bool
    how: str
    source: str


@dataclass(frozen=True, slots=True)
class LightSpan:
    """When a meal that ends then holds little fibre and fat. start, end: minutes of the plan day; most: in grams.

    session: number of the day's session ahead, None where it is the next day's.
    """

    start: int
    end: int
    fibre_most_g: float
    fat_most_g: float
    session: int | None


#: Of the week's steps, those that the baseline adds up from, in order.
_PARTS = ("walking", "lifting")


def energy_steps(week: WeekTargets, day: str) -> tuple[EnergyStep, ...]:
    """From resting energy to the day's aim; what is added sums to the aim, to rounding."""
    entry = week.days[day]
    found = {step.name: step for step in week.steps}
    steps = [_reached("resting energy", week.resting_kcal, found.get("resting energy"))]
    whole_day = found.get("day without exercise")
    if whole_day is not None:
        added = whole_day.value - week.resting_kcal
        steps.append(EnergyStep("the day's rest, without exercise", added, False, whole_day.how, whole_day.source))
    for name in _PARTS:
        if name in found:
            steps.append(EnergyStep(name, found[name].value, False, found[name].how, found[name].source))
    baseline = found.get("baseline") or found.get("measured baseline")
    apart = entry.baseline_kcal - sum(step.kcal for step in steps)
    if abs(apart) > 0.5:
        how, source = (baseline.how, baseline.source) if baseline else ("", "")
        steps.append(EnergyStep("to the baseline that holds", apart, False, how, source))
    steps.append(_reached("baseline", entry.baseline_kcal, baseline))
    steps += _of_the_day(entry)
    aim = entry.bands[ENERGY].aim or 0.0
    apart = aim - sum(step.kcal for step in steps if not step.reached) - week.resting_kcal
    if abs(apart) > 0.5:
        steps.append(EnergyStep("a band of your own", apart, False, "as the case sets it", "the case"))
    steps.append(_reached("energy of the day", aim, next((one for one in entry.steps if one.name == "energy"), None)))
    return tuple(steps)


def _reached(name: str, kcal: float, step: Step | None) -> EnergyStep:
    return EnergyStep(name, kcal, True, step.how if step else "", step.source if step else "")


def _of_the_day(entry: DayTargets) -> list[EnergyStep]:
    """What the day adds to the baseline: its steps between baseline and energy, energy of sessions as it is eaten."""
    spent = {f"session {number}, {one.session.kind}" for number, one in enumerate(entry.sessions, 1)}
    added = []
    for step in entry.steps:
        if step.name == "energy":
            break
        if step.unit == "kcal" and step.name != "baseline" and step.name not in spent:
            added.append(EnergyStep(step.name, step.value, False, step.how, step.source))
    return added


def light_spans(case: Case, day: str) -> tuple[LightSpan, ...]:
    """Spans of the day in which a meal must be light because a session is ahead, in order of time. Raises Refused."""
    from mealopt.plans.day.shape import day_shape
    from mealopt.targets.day import day_targets
    from mealopt.targets.windows import window_at

    targets = day_targets(case, day)
    if targets.maintenance_only:
        return ()
    shape = day_shape(case, day, targets)
    sessions = (*shape.sessions, *shape.ahead)
    spans: list[LightSpan] = []
    for minute in range(shape.wake, shape.sleep, 5):
        if any(one.start <= minute < one.end for one in shape.sessions):
            continue
        window = window_at(minute, sessions)
        if window.session is None or FIBRE not in window.limits:
            continue
        number = None if window.session.next_day else window.session.number
        found = LightSpan(minute, minute + 5, window.limits[FIBRE], window.limits[FAT], number)
        last = spans[-1] if spans else None
        if last and last.end == minute and (last.fibre_most_g, last.session) == (found.fibre_most_g, number):
            spans[-1] = LightSpan(last.start, found.end, last.fibre_most_g, last.fat_most_g, number)
        else:
            spans.append(found)
    return tuple(spans)
