"""The slots of a day: what is eaten when, and what each meal may and must hold.

Eating takes 20 minutes for a main meal and 10 for others; the wish for meals a day is met first, then snacks are added
until the plates can hold the day, and that is said.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from mealopt.core.clock import clock
from mealopt.core.nutrients import FAT, FIBRE
from mealopt.core.slots import RefuelWindow, Slot
from mealopt.targets.after import sooner
from mealopt.targets.before import just_awake_most
from mealopt.targets.meal_protein import with_protein
from mealopt.targets.mealtimes import Occasion, WakingDay, a_snack, main_meals, meal_after, meal_before, snack
from mealopt.targets.refuelling import refuel_windows
from mealopt.targets.settled import SettledMeal, given_kcal, settled_slot, spans
from mealopt.targets.windows import TimedSession, window_at

#: Most energy of one meal, and what it holds without strain, kcal (project's assumption).
MAIN_MOST, MAIN_EASY = 1200.0, 1080.0
OTHER_MOST, OTHER_EASY = 600.0, 500.0

#: What a meal holds without strain by the tightness of its window, 0 to 4: little fat and fibre fill a smaller plate.
EASY_IN_WINDOW = (1.0, 0.85, 0.7, 0.5, 0.3)

#: How the day's energy spreads over its meals, as weights (common practice, no source).
WEIGHTS = {"breakfast": 0.9, "lunch": 1.0, "dinner": 1.05, "snack": 0.38, "before": 0.38, "after": 0.5}

#: The plates should hold this much more than the day asks for, so that the numbers can be met with sensible food.
ROOM, MOST_SNACKS = 1.06, 9

#: Minutes without food, from a meal's end to the next, that are long on a day of training [common practice, no source].
LONG_GAP = 330

#: Protein that a meal holds with ease, g/kg: a main meal, any other [common practice, no source; a published dose is
#: 0.25-0.55].
PROTEIN_EASY_MAIN, PROTEIN_EASY_OTHER = 0.7, 0.4

#: Fibre and fat of what is eaten in a session, g an hour (near zero; project's assumption).
DURING_FIBRE, DURING_FAT = 2.0, 3.0

#: Something is eaten in sessions over so many minutes, where so many grams of carbohydrate are packed or allowed.
DURING_FROM, DURING_LEAST = 60, 1.0

#: How far up its band the carbohydrate of a session may go: the top is for those who have practised it.
DURING_SHARE = 0.6

#: Endurance work from so many minutes on is long: little fibre in the hours before it (project's assumption).
LONG_WORK = 75

#: Minutes from a session's end until one stands in the kitchen (project's assumption).
HOME = 5

#: What can be carried comes in pieces: the most is never narrowed below so many grams.
DURING_ROOM = 40.0


@dataclass(frozen=True, slots=True)
class DayShape:
    """What the day's slots follow from.

    wake, sleep: minutes. sessions: the day's, in order of time; ahead: the next day's, their times counted on.
    energy_aim: kcal; protein_least: g; mass_kg; meals_per_day: the wish. can_cook: spans with a stove, None for always.
    away: what is at hand between away_from and away_to. cook_minutes: of the day. main_most: most kcal of a main meal.
    settled: meals that stand at their time already, in order of it.
    """

    wake: int
    sleep: int
    sessions: tuple[TimedSession, ...]
    ahead: tuple[TimedSession, ...]
    energy_aim: float
    mass_kg: float
    meals_per_day: int = 4
    can_cook: tuple[tuple[int, int], ...] | None = None
    away: str = ""
    away_from: int | None = None
    away_to: int | None = None
    cook_minutes: int = 60
    main_most: float = MAIN_MOST
    protein_least: float = 0.0
    settled: tuple[SettledMeal, ...] = ()


@dataclass(frozen=True, slots=True)
class Layout:
    """The day's slots in order of time, windows of carbohydrate over several of them, and what was assumed."""

    slots: tuple[Slot, ...]
    refuel: tuple[RefuelWindow, ...]
    notes: tuple[str, ...]


def lay_slots(shape: DayShape) -> Layout:
    """The slots of a day. Never fails: a day with little room gets few meals, and the plan then says what clashes."""
    taken = spans(shape.settled)
    day = WakingDay(shape.wake, shape.sleep, shape.sessions, (*shape.sessions, *shape.ahead), taken)
    occasions = tuple(settled.occasion for settled in shape.settled)
    meals = sooner(day, list(main_meals(day, 2 if shape.meals_per_day == 2 else 3, occasions)))
    for session in shape.sessions:
        before = meal_before(day, meals, session)
        meals += [before] if before else []
    for session in shape.sessions:
        after = meal_after(day, meals, session)
        meals += [after] if after else []
    notes: list[str] = []
    _add_snacks(shape, day, meals, notes)
    _fill_long_gap(shape, day, meals, notes)
    during = [
        Occasion("during", session.start, session.end, session=session.number)
        for session in shape.sessions
        if eaten_in(session)
    ]
    ordered = sorted([*meals, *during], key=lambda meal: (meal.start, meal.end))
    aims = _energy_aims(shape, day, ordered)
    slots = tuple(slot_of(shape, day, meal, index, aims[index]) for index, meal in enumerate(ordered))
    slots = with_protein(shape.sessions, shape.mass_kg, slots)
    return Layout(slots, refuel_windows(shape.sessions, shape.ahead, shape.mass_kg, slots), tuple(notes))


def easy_kcal(shape: DayShape, day: WakingDay, meal: Occasion) -> float:
    """What a meal holds without strain, kcal."""
    if meal.settled is not None:
        settled = shape.settled[meal.settled]
        return settled.kcal[1] if settled.given else min(MAIN_EASY, settled.kcal[1])
    window = window_at(meal.end, day.ahead)
    easy = (min(MAIN_EASY, shape.main_most) if meal.main else OTHER_EASY) * EASY_IN_WINDOW[window.tightness]
    return min(easy, 0.9 * window.energy_most) if window.energy_most is not None else easy


def eaten_in(session: TimedSession) -> bool:
    """Whether something is eaten in the session."""
    return session.during_g[1] >= DURING_LEAST and session.minutes > DURING_FROM


def _during_kcal(shape: DayShape) -> float:
    return sum(4.0 * sum(session.during_g) / 2.0 for session in shape.sessions if eaten_in(session))


def _add_snacks(shape: DayShape, day: WakingDay, meals: list[Occasion], notes: list[str]) -> None:
    wished = max(0, shape.meals_per_day - sum(meal.main or meal.settled is not None for meal in meals))
    needed = ROOM * (shape.energy_aim - _during_kcal(shape))
    added = 0
    while added < MOST_SNACKS:
        holds = sum(easy_kcal(shape, day, meal) for meal in meals)
        if added >= wished and holds >= needed and _protein_fits(shape, meals):
            break
        one = a_snack(day, meals) or (snack(day, meals, least=35) if added >= wished else None)
        if one is None:
            if holds < needed:
                notes.append(
                    f"The day has no room for more meals: they hold about {holds:.0f} kcal with ease, "
                    f"{shape.energy_aim:.0f} kcal are asked for"
                )
            break
        meals.append(one)
        added += 1
    if added > wished:
        more = added - wished
        snacks = "One more snack" if more == 1 else f"{more} more snacks"
        notes.append(f"{snacks} than you asked for, so that the meals can hold the day's food at a normal size")


def _protein_fits(shape: DayShape, meals: list[Occasion]) -> bool:
    """Whether the meals hold the day's least protein with ease."""
    per_kg = sum(PROTEIN_EASY_MAIN if meal.main else PROTEIN_EASY_OTHER for meal in meals)
    return per_kg * shape.mass_kg >= shape.protein_least


def _fill_long_gap(shape: DayShape, day: WakingDay, meals: list[Occasion], notes: list[str]) -> None:
    """One more snack on a day with a session where meals lie far apart; who wishes for three meals or two has those."""
    ordered = sorted(meals, key=lambda meal: meal.start)
    gaps = [(later.start - meal.end, meal.end, later.start) for meal, later in pairwise(ordered)]
    gap, first, last = max(gaps, default=(0, 0, 0))
    if gap < LONG_GAP or shape.meals_per_day < 4 or not shape.sessions:
        return
    one = a_snack(day, meals)
    if one is not None and first < one.start < last:
        meals.append(one)
        notes.append(f"A snack more than you asked for, at {clock(one.start)}: the meals beside it lie far apart")


def _energy_aims(shape: DayShape, day: WakingDay, meals: list[Occasion]) -> list[float]:
    """Kcal that suit each meal: by weight, none over what it holds with ease while others have room.

    A meal whose energy is given has that; the others share what it leaves.
    """
    given = given_kcal(shape.settled)
    known = [given.get(-1 if meal.settled is None else meal.settled, 0.0) for meal in meals]
    left = shape.energy_aim - _during_kcal(shape) - sum(known)
    closed = [meal.kind == "during" or kcal > 0 for meal, kcal in zip(meals, known, strict=True)]
    holds = [0.0 if shut else easy_kcal(shape, day, meal) for meal, shut in zip(meals, closed, strict=True)]
    weights = [0.0 if shut else WEIGHTS[meal.kind] for meal, shut in zip(meals, closed, strict=True)]
    aims = [0.0] * len(meals)
    open_meals = {index for index, weight in enumerate(weights) if weight > 0}
    while open_meals and left > 1.0:
        share = left / sum(weights[index] for index in open_meals)
        full = {index for index in open_meals if share * weights[index] >= holds[index] - aims[index]}
        for index in full or open_meals:
            more = holds[index] - aims[index] if full else share * weights[index]
            aims[index] += more
            left -= more
        open_meals -= full or open_meals
    if left > 1.0 and sum(aims) > 0:
        aims = [aim * (1.0 + left / sum(aims)) for aim in aims]
    return [aim + kcal for aim, kcal in zip(aims, known, strict=True)]


def slot_of(shape: DayShape, day: WakingDay, meal: Occasion, index: int, aim: float) -> Slot:
    """The slot of a meal whose time is known. aim: kcal that suit it; index: its place in the day."""
    if meal.kind == "during":
        return _during_slot(shape, meal, index)
    window = window_at(meal.end, day.ahead)
    if meal.settled is not None:
        return settled_slot(shape.settled[meal.settled], meal, index, aim, window)
    most = shape.main_most if meal.main else OTHER_MOST
    if window.energy_most is not None:
        most = min(most, window.energy_most)
    roomy = max(1.7 * aim, 520.0 if meal.main else 260.0)
    most = min(most, roomy)
    stove, heat = _kitchen(shape, meal, window.lead_minutes)
    session = window.session
    # What is eaten within two hours of a session (no stroll) is food for before sessions, whatever brought it there.
    kind = "before" if meal.kind in ("snack", "after") and window.eaten_for else meal.kind
    own_before = session.number if session is not None and not session.next_day else None
    return Slot(
        index=index,
        kind=kind,
        start=meal.start,
        end=meal.end,
        label=f"{kind} at {clock(meal.start)}",
        main=meal.main,
        limits=window.limits,
        energy_least=min(0.5 * aim, 0.8 * most) if meal.main else min(0.35 * aim, 0.8 * most),
        energy_aim=min(aim, most),
        energy_most=most,
        before_session=own_before,
        lead_minutes=window.lead_minutes,
        after_session=meal.session if kind == "after" else None,
        stove=stove,
        heat=heat,
        minutes_most=_minutes_at_hand(shape, meal),
        settles=bool(window.limits),
        carbohydrate_most=just_awake_most(meal, window, shape.wake, shape.mass_kg),
        work_minutes=_until_work(day, meal),
    )


def _until_work(day: WakingDay, meal: Occasion) -> int | None:
    """Minutes from the meal's end to the next long or hard endurance session; None where none is ahead."""
    starts = [
        session.start
        for session in day.ahead
        if session.endurance and session.start >= meal.end and (session.hard or session.minutes >= LONG_WORK)
    ]
    return min(starts) - meal.end if starts else None


def _during_slot(shape: DayShape, meal: Occasion, index: int) -> Slot:
    session = next(entry for entry in shape.sessions if entry.number == meal.session)
    hours = session.minutes / 60.0
    least, most = session.during_g
    most = min(most, max(least + DURING_SHARE * (most - least), DURING_ROOM))
    return Slot(
        index=index,
        kind="during",
        start=meal.start,
        end=meal.end,
        label=f"in the {session.kind} at {clock(meal.start)}",
        limits={FIBRE: DURING_FIBRE * hours, FAT: DURING_FAT * hours},
        energy_least=3.5 * least,
        energy_aim=2.0 * (least + most),
        energy_most=4.6 * most + 20.0,
        during_session=session.number,
        settles=True,
        carbohydrate_least=least,
        carbohydrate_most=most,
    )


def _kitchen(shape: DayShape, meal: Occasion, lead: int | None) -> tuple[bool, bool]:
    """Whether there is a stove for the meal, and whether it can at least be heated."""
    stove = shape.can_cook is None or any(start <= meal.start <= end + 30 for start, end in shape.can_cook)
    heat = True
    away_from, away_to = shape.away_from, shape.away_to
    if shape.away and away_from is not None and away_to is not None and away_from <= meal.start < away_to:
        stove, heat = False, shape.away == "microwave"
    if lead is not None and lead < 30:
        stove = False
    return stove, heat


def _minutes_at_hand(shape: DayShape, meal: Occasion) -> int:
    """Kitchen minutes for one meal: the day's, and no longer than since waking or coming home from a session."""
    since = [meal.start - shape.wake + 10, *(meal.start - session.end - HOME for session in shape.sessions)]
    return max(5, min(shape.cook_minutes, min(span for span in since if span > 0)))
