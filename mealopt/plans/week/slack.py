"""How far below its best each day's bound may stay, so that all of them together prove the week's gap."""

from __future__ import annotations

from mealopt.plans.week.state import WeekState
from mealopt.rules import weights

#: Share of what the week's gap allows that is kept for what its rules and pots cost.
RESERVE = 0.3

#: No proof is asked for closer than this, points; no first proof closer than this share of a day's part.
CLOSEST, FIRST = 0.15, 0.35


def allowed(week: WeekState, gap: float) -> float:
    """Points between value and bound that the gap allows."""
    return gap * max(week.value, week.floor)


def slack(week: WeekState, day: str, gap: float) -> float:
    """Points that the first proof of a day may leave open: its part, by its best, of what the others leave."""
    points = allowed(week, gap)
    left = (1.0 - RESERVE) * points - sum(to_win(week, name) for name in week.days if name in week.alone)
    open_days = {day, *(name for name in week.days if name not in week.alone)}
    share = best(week, day) / max(1e-9, sum(best(week, name) for name in open_days))
    return max(FIRST * points / len(week.days), left * share)


def to_win(week: WeekState, day: str) -> float:
    """Points that a day's bound can rise by at most."""
    most = min(best(week, day), week.ceiling.get(day, float("inf")), week.bases.get(day, float("inf")))
    return max(0.0, most - week.alone.get(day, 0.0))


def narrower(week: WeekState, day: str, gap: float) -> float:
    """Points that a further proof of a day may leave open: half at most, or less where it alone can close the gap."""
    here = to_win(week, day)
    return max(CLOSEST, min(here / 2, here - 1.05 * missing(week, gap)))


def missing(week: WeekState, gap: float) -> float:
    """Points by which value and bound lie further apart than the gap allows."""
    return max(0.0, week.value - week.bound - allowed(week, gap))


def as_gap(points: float, value: float) -> float:
    """These points as a day's gap."""
    return points / max(abs(value), weights.FLOOR)


def best(week: WeekState, day: str) -> float:
    """The least value that the day has with its own minutes, or as it stands."""
    own = min((answer.value for answer in week.pool[day] if not week.over(answer)), default=float("inf"))
    return min(own, week.stands[day].value)


def cost_of_rules(week: WeekState) -> float:
    """Points that the week's rules cost: what they charge, and by how much days stand above their own best."""
    return week.charge + sum(max(0.0, week.stands[day].value - best(week, day)) for day in week.days)
