"""When to eat: times of main meals, of meals around sessions and of snacks, from waking, sleeping and sessions.

Pure geometry of the day; what each meal may hold is for `timing`. Times are minutes of the plan day.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from mealopt.targets.windows import TimedSession, window_at

MAIN_MINUTES = 20
OTHER_MINUTES = 10

#: Where main meals fall in a waking day, as shares of it (common practice, no source).
ANCHORS = {3: (0.04, 0.42, 0.79), 2: (0.25, 0.75), 1: (0.5,)}
NAMES = {3: ("breakfast", "lunch", "dinner"), 2: ("lunch", "dinner"), 1: ("dinner",)}

#: What it costs to put a main meal one hour off its anchor, and into a window by its tightness 0 to 4.
ANCHOR_COST = 2.0
TIGHT_COST = (0.0, 1.0, 2.5, 6.0, 14.0)

GRID = 5
AFTER_SESSION = 15
BEFORE_SESSION = 15
#: The next session is soon where it starts within 8 h; refuelling then begins within 45 minutes.
SOON, AT_ONCE = 8 * 60, 45

#: A main meal sooner after a session than this leaves no time to cook it; what that costs, as for `ANCHOR_COST`.
COOKING_AFTER, HASTE_COST = 35, 3.0

MAIN_APART = 150
SNACK_APART = 60
#: Snacks are laid so far from other food where the day has room, min [common practice, no source].
APART_WHERE_IT_CAN = 120
#: Endurance work from so many minutes on is not begun three hours after the last food [common practice, no source].
DEMANDING = 45

#: Food follows within so many minutes of a session that asks for it.
WITHIN = 60

#: A settled meal takes the place of the main meal that lies this near at most, minutes; others keep this far from it.
SETTLED_NEAR = 120
SETTLED_APART = 30


@dataclass(frozen=True, slots=True)
class Occasion:
    """One eating occasion. session: the number of the session that it is for; 0 where for none.

    settled: place among the day's settled meals; None where it is not settled.
    """

    kind: str
    start: int
    end: int
    main: bool = False
    session: int = 0
    settled: int | None = None


@dataclass(frozen=True, slots=True)
class WakingDay:
    """Waking time and what fills it. ahead: this day's sessions and the next day's first ones.

    taken: starts and ends of settled meals.
    """

    wake: int
    sleep: int
    sessions: tuple[TimedSession, ...]
    ahead: tuple[TimedSession, ...]
    taken: tuple[tuple[int, int], ...] = ()

    def free(self, start: int, minutes: int) -> bool:
        """Whether one may sit down to eat for so long at this minute."""
        end = start + minutes
        if start < self.wake + 5 or end > self.sleep - 5:
            return False
        if any(start < last + SETTLED_APART and end > first - SETTLED_APART for first, last in self.taken):
            return False
        return all(
            end <= session.start - BEFORE_SESSION or start >= session.end + AFTER_SESSION for session in self.sessions
        )

    def tightness(self, end: int) -> int:
        """How tight the window of a meal ending then is, 0 to 4."""
        return window_at(end, self.ahead).tightness


def _grid(day: WakingDay, minutes: int) -> list[int]:
    first = -(-(day.wake + 5) // GRID) * GRID
    return [start for start in range(first, day.sleep - minutes, GRID) if day.free(start, minutes)]


def main_meals(day: WakingDay, count: int, settled: tuple[Occasion, ...] = ()) -> tuple[Occasion, ...]:
    """Two or three main meals, near their anchors and out of tight windows, and the settled meals, in order of time.

    A settled meal takes the place and the name of the main meal that would lie nearest to it, up to `SETTLED_NEAR`, and
    the others are laid around it; one that is near none stays a snack. Where the day has no room for so many meals, as
    many as there are room for, and at the least none but the settled ones.
    """
    laid = _laid(replace(day, taken=()), count)
    if not settled:
        return laid
    places = _places(laid, settled)
    stages = [
        _Stage(meal.kind, day.wake + share * (day.sleep - day.wake), places.get(place))
        for place, (meal, share) in enumerate(zip(laid, ANCHORS.get(len(laid), ()), strict=True))
    ]
    mains = _around(day, stages)
    others = [meal for meal in settled if meal not in places.values()]
    return tuple(sorted([*mains, *others], key=lambda meal: meal.start))


@dataclass(frozen=True, slots=True)
class _Stage:
    """One main meal to lay: its name, its anchor in minutes, and the settled meal that takes its place, if one does."""

    kind: str
    anchor: float
    settled: Occasion | None = None

    def at(self, start: int) -> Occasion:
        """The meal at this minute."""
        if self.settled is not None:
            return replace(self.settled, kind=self.kind, main=True)
        return Occasion(self.kind, start, start + MAIN_MINUTES, main=True)


def _laid(day: WakingDay, count: int) -> tuple[Occasion, ...]:
    """The main meals of a day on which none is settled."""
    length = day.sleep - day.wake
    grid = _grid(day, MAIN_MINUTES)
    while count >= 2:
        stages = [
            _Stage(kind, day.wake + share * length) for kind, share in zip(NAMES[count], ANCHORS[count], strict=True)
        ]
        found = _main_path(day, grid, stages)
        if found:
            return tuple(stage.at(start) for stage, start in zip(stages, found, strict=True))
        count -= 1
    middle = day.wake + length / 2
    single = sorted(grid, key=lambda start: (day.tightness(start + MAIN_MINUTES), abs(start - middle)))[:1]
    return tuple(Occasion("dinner", start, start + MAIN_MINUTES, main=True) for start in single)


def _places(laid: tuple[Occasion, ...], settled: tuple[Occasion, ...]) -> dict[int, Occasion]:
    """Place of a main meal -> the settled meal that stands for it; the nearest pairs first."""
    pairs = sorted(
        (abs(meal.start - main.start), place, number)
        for place, main in enumerate(laid)
        for number, meal in enumerate(settled)
    )
    places: dict[int, Occasion] = {}
    for apart, place, number in pairs:
        if apart <= SETTLED_NEAR and place not in places and settled[number] not in places.values():
            places[place] = settled[number]
    return places


def _around(day: WakingDay, stages: list[_Stage]) -> list[Occasion]:
    """Main meals around those that are settled; one that has no room between them is left out."""
    grid = _grid(day, MAIN_MINUTES)
    found: list[int] = []
    while stages and not (found := _main_path(day, grid, stages)):
        held = [stage.settled.start for stage in stages if stage.settled is not None]
        free = [stage for stage in stages if stage.settled is None]
        crowded = min(free, key=lambda stage: min((abs(stage.anchor - start) for start in held), default=0.0))
        stages = [stage for stage in stages if stage is not crowded]
    return [stage.at(start) for stage, start in zip(stages, found, strict=True)]


def _main_path(day: WakingDay, grid: list[int], stages: list[_Stage]) -> list[int]:
    """Starts of the main meals, one a stage: a shortest path over the day's grid; empty where there is none."""
    costs = [_stage_costs(day, grid, stage) for stage in stages]
    best: dict[int, tuple[float, list[int]]] = (
        {start: (cost, [start]) for start, cost in costs[0].items()} if costs else {}
    )
    for earlier, stage, options in zip(stages, stages[1:], costs[1:], strict=False):
        least = 1 if earlier.settled is not None and stage.settled is not None else MAIN_APART
        reached: dict[int, tuple[float, list[int]]] = {}
        for start, cost in options.items():
            before = [
                (value + cost + _gap_cost(start - last), [*path, start])
                for last, (value, path) in best.items()
                if start - last >= least
            ]
            if before:
                reached[start] = min(before)
        best = reached
    return min(best.values())[1] if best else []


def _stage_costs(day: WakingDay, grid: list[int], stage: _Stage) -> dict[int, float]:
    """What it costs to begin this meal at each minute that there is for it."""
    if stage.settled is not None:
        return {stage.settled.start: 0.0}
    return {
        start: ANCHOR_COST * abs(start - stage.anchor) / 60.0
        + TIGHT_COST[day.tightness(start + MAIN_MINUTES)]
        + (HASTE_COST if any(0 <= start - session.end < COOKING_AFTER for session in day.sessions) else 0.0)
        for start in grid
    }


def _gap_cost(gap: int) -> float:
    return max(0.0, (210 - gap) / 30.0) + max(0.0, (gap - 420) / 120.0)


def _apart(meals: list[Occasion], start: int, end: int, least: int) -> bool:
    return all(start - meal.end >= least or meal.start - end >= least for meal in meals)


def meal_before(day: WakingDay, meals: list[Occasion], session: TimedSession) -> Occasion | None:
    """A meal before a session where none lies 1 to 4 h ahead of it (from less where one wakes for it); None else."""
    demanding = session.hard or (session.endurance and session.minutes >= DEMANDING)
    last = max((meal.end for meal in meals if meal.end <= session.start), default=None)
    since = session.start - (last if last is not None else -10_000)
    most = 180 if demanding else 240
    if session.stroll or since <= most or (session.window_steps == 0 and since < 360):
        return None
    wanted = session.start - 80
    starts = [
        start
        for start in _grid(day, OTHER_MINUTES)
        if 20 <= session.start - start - OTHER_MINUTES < 240 and _apart(meals, start, start + OTHER_MINUTES, 60)
    ]
    if not starts:
        return None
    start = min(starts, key=lambda minute: abs(minute + OTHER_MINUTES - wanted))
    return Occasion("before", start, start + OTHER_MINUTES, session=session.number)


def meal_after(day: WakingDay, meals: list[Occasion], session: TimedSession) -> Occasion | None:
    """A meal after a session that asks for one, where none lies within the hour; None else.

    Within 45 minutes where the next session is less than 8 h away: refuelling begins at once.
    """
    asks = session.hard or not session.endurance or session.minutes > 60
    soon = any(0 <= later.start - session.end < SOON for later in day.ahead)
    within = AT_ONCE if soon and session.endurance and session.minutes > 60 else WITHIN
    if not asks or any(0 <= meal.start - session.end <= within for meal in meals):
        return None
    starts = [
        start
        for start in _grid(day, OTHER_MINUTES)
        if 0 <= start - session.end <= 120 and _apart(meals, start, start + OTHER_MINUTES, 45)
    ]
    return Occasion("after", starts[0], starts[0] + OTHER_MINUTES, session=session.number) if starts else None


def a_snack(day: WakingDay, meals: list[Occasion]) -> Occasion | None:
    """One more snack, two hours from other food where the day has room, an hour where it has not."""
    return snack(day, meals, APART_WHERE_IT_CAN) or snack(day, meals)


def snack(day: WakingDay, meals: list[Occasion], least: int = SNACK_APART) -> Occasion | None:
    """One more snack, in the middle of the widest gap that has room, out of tight windows where it can be."""
    ends = [day.wake - 30, *(meal.end for meal in meals)]
    starts = [*(meal.start for meal in meals), day.sleep + 30]

    def room(start: int) -> float:
        before = min(start - end for end in ends if end <= start)
        after = min(begin - start for begin in starts if begin >= start)
        return min(before, after) - 12.0 * day.tightness(start + OTHER_MINUTES) ** 2

    options = [
        start
        for start in _grid(day, OTHER_MINUTES)
        if start <= day.sleep - 30 and _apart(meals, start, start + OTHER_MINUTES, least)
    ]
    calm = [start for start in options if day.tightness(start + OTHER_MINUTES) < 4]
    if not options:
        return None
    start = max(calm or options, key=room)
    return Occasion("snack", start, start + OTHER_MINUTES)
