"""Energy of each day of the week: baseline, what is eaten back, the spread, the goal, and energy availability."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from mealopt.core.clock import DAYS
from mealopt.errors import Refused
from mealopt.people.case import Case
from mealopt.targets.availability import energy_availability, intake_for
from mealopt.targets.baseline import Baseline
from mealopt.targets.body import Body
from mealopt.targets.coefficients import COMMON, DAY_AVAILABILITY, LOW_AVAILABILITY, PROJECT, REPLACED_WRIST
from mealopt.targets.model import SessionEnergy, Step
from mealopt.targets.moves import apply_moves
from mealopt.targets.safety import SPORTS_REFERRAL, Standing
from mealopt.targets.weight import goal_change


@dataclass(frozen=True, slots=True)
class DayEnergy:
    """Where one day's energy comes from, kcal: its parts add up to `energy`.

    exercise: all exercise above rest, undiscounted, as energy availability counts it.
    """

    day: str
    baseline: float
    replaced: float
    exercise: float
    evened: float = 0.0
    change: float = 0.0
    raised: float = 0.0
    moved: float = 0.0

    @property
    def energy(self) -> float:
        """The day's energy, kcal."""
        return self.baseline + self.replaced + self.evened + self.change + self.raised + self.moved

    @property
    def deficit(self) -> float:
        """The deficit in it, kcal, 0 or above."""
        return max(0.0, -self.change)


@dataclass(frozen=True, slots=True)
class WeekEnergy:
    """The seven days in order, steps and notes of the whole week."""

    days: dict[str, DayEnergy]
    steps: tuple[Step, ...]
    notes: tuple[str, ...]


def exercise_kcal(sessions: tuple[SessionEnergy, ...], lifting_a_day: float, lifting_in_week: bool) -> float:
    """Exercise of a day as energy availability counts it: every session, and lifting that has no session of its own."""
    return sum(entry.availability_kcal for entry in sessions) + (0.0 if lifting_in_week else lifting_a_day)


def week_energy(
    case: Case,
    body: Body,
    base: Baseline,
    resting_kcal: float,
    sessions: Mapping[str, tuple[SessionEnergy, ...]],
    standing: Standing,
) -> WeekEnergy:
    """The energy of each day before eves and bands of one's own.

    Raises Refused where a move starves the day that gives.
    """
    lifting_in_week = any(not session.endurance for session in case.session)
    days = {
        day: DayEnergy(
            day,
            base.kcal,
            sum(entry.replaced_kcal for entry in sessions[day]),
            exercise_kcal(sessions[day], base.lifting_kcal, lifting_in_week),
        )
        for day in DAYS
    }
    notes: list[str] = []
    if case.goal.spread == "even":
        days = _evened(days)
    change = goal_change(case, body, base, resting_kcal, standing, days)
    days = {day: replace(entry, change=change.kcal[day]) for day, entry in days.items()}
    notes += change.notes
    if not any(entry.deficit for entry in days.values()):
        days, raised = _raised(days, body, standing, even=case.goal.spread == "even")
        notes += raised
    moved = apply_moves(case, {day: entry.energy for day, entry in days.items()})
    days = {day: replace(entry, moved=moved[day]) for day, entry in days.items()}
    _refuse_starving(days, body, resting_kcal, standing)
    return WeekEnergy(days, change.steps, tuple(notes))


def day_steps(case: Case, entry: DayEnergy, sessions: tuple[SessionEnergy, ...]) -> tuple[Step, ...]:
    """How one day's energy came about, part by part."""
    steps = [Step("baseline", entry.baseline, "kcal", "the week's baseline", PROJECT)]
    for number, session in enumerate(sessions, 1):
        what = f"session {number}, {session.session.kind}"
        steps.append(Step(what, session.net_kcal, "kcal", session.how, session.source))
        if session.session.endurance:
            how = f"{session.share:.2f} x {session.net_kcal:,.0f}"
            steps.append(Step(f"{what}: eaten back", session.replaced_kcal, "kcal", how, REPLACED_WRIST.source))
    for name, value, how, source in (
        ("spread evenly", entry.evened, "the week's baseline and replaced energy / 7, less this day's own", COMMON),
        ("goal", entry.change, "see the week", "the case"),
        ("raised", entry.raised, "to the least energy availability", LOW_AVAILABILITY.source),
        ("moved", entry.moved, _moves_words(case, entry.day), "the case; " + COMMON),
    ):
        if value:
            steps.append(Step(name, value, "kcal", how, source))
    return tuple(steps)


def day_cautions(energy_kcal: float, exercise: float, body: Body) -> tuple[str, ...]:
    """The caution of a day whose energy availability lies under 25 kcal/kg fat-free mass."""
    found = energy_availability(energy_kcal, exercise, body.guarded_fat_free_kg)
    if found >= DAY_AVAILABILITY - 1e-9:
        return ()
    return (
        f"Energy availability of {found:.0f} kcal per kg of fat-free mass is under {DAY_AVAILABILITY:g} on this day. "
        f"Eat more on it if you can; where it happens week after week, see {SPORTS_REFERRAL}.",
    )


def _evened(days: dict[str, DayEnergy]) -> dict[str, DayEnergy]:
    mean = sum(entry.energy for entry in days.values()) / len(days)
    return {day: replace(entry, evened=mean - entry.energy) for day, entry in days.items()}


def _raised(
    days: dict[str, DayEnergy], body: Body, standing: Standing, *, even: bool
) -> tuple[dict[str, DayEnergy], list[str]]:
    """Raise intake to the least energy availability: the week's mean where it is spread evenly, otherwise each day."""
    lean = body.guarded_fat_free_kg
    short = {day: intake_for(standing.floor, entry.exercise, lean) - entry.energy for day, entry in days.items()}
    if even and not standing.each_day:
        mean = sum(short.values()) / len(short)
        short = dict.fromkeys(short, mean)
    added = {day: max(0.0, kcal) for day, kcal in short.items()}
    touched = [f"{day} {kcal:,.0f}" for day, kcal in added.items() if kcal >= 0.5]
    notes = []
    if touched:
        mark = "" if body.fat_known else " (fat-free mass is estimated)"
        notes.append(
            f"Energy availability would fall under {standing.floor:g} kcal per kg of fat-free mass{mark}, so "
            f"these kcal are added: {', '.join(touched)}"
        )
        if even and standing.each_day:
            notes.append("An even spread would leave hard days short, so those days get more")
    return {day: replace(entry, raised=added[day]) for day, entry in days.items()}, notes


def _refuse_starving(days: dict[str, DayEnergy], body: Body, resting_kcal: float, standing: Standing) -> None:
    least = standing.floor if standing.each_day else float(DAY_AVAILABILITY)
    for day, entry in days.items():
        if entry.moved >= 0:
            continue
        needed = max(intake_for(least, entry.exercise, body.guarded_fat_free_kg), resting_kcal)
        if entry.energy < needed - 1e-6:
            raise Refused(
                f"goal.move: moving {-entry.moved:,.0f} kcal out of {day} leaves {entry.energy:,.0f} kcal, under the "
                f"{needed:,.0f} kcal that an energy availability of {least:g} kcal per kg of fat-free mass and resting "
                f"energy ask for; move less, or ask {SPORTS_REFERRAL}"
            )


def _moves_words(case: Case, day: str) -> str:
    parts = [f"{move.kcal:,.0f} to {move.to_day}" for move in case.goal.move if move.from_day == day]
    parts += [f"{move.kcal:,.0f} from {move.from_day}" for move in case.goal.move if move.to_day == day]
    return ", ".join(parts)
