"""The least that must give for a day to be planned, where its meals stay and where they become others."""

from __future__ import annotations

from dataclasses import dataclass, replace

from mealopt.errors import BadInput, OutOfTime, Refused
from mealopt.milp.effort import SLOWEST, after, spent
from mealopt.milp.elastic import NOUGHT
from mealopt.people.case import Case
from mealopt.plans.day.eased import Ease, Line, case_with, lines_for
from mealopt.plans.day.found import NothingFits
from mealopt.plans.day.least import Search, begun
from mealopt.plans.day.pose import PosedDay, pose_day
from mealopt.plans.day.solve import solve_posed

#: Margins that are tried until the day is planned: multiples of the usual one, each for a share of the time left. A
#: day that just fits is the hardest to find, so where the least is not planned in time, more is given.
WIDER: dict[float, float] = {1.0: 0.4, 8.0: 0.5, 24.0: 0.9}

#: Any plan will do where it is asked whether there is one.
ANY_GAP = 100.0


@dataclass(frozen=True, slots=True)
class Least:
    """What must give.

    clashes: the sentences of limits that cannot all be met, each that gives among them; sure: proven by the linear
    program already. eases: what must give; lines: that as bands for the case file. planned: whether a day was planned
    with them. posed: the day whose meals the eases number.
    """

    clashes: tuple[str, ...]
    sure: bool
    eases: tuple[Ease, ...]
    lines: tuple[Line, ...]
    planned: bool
    posed: PosedDay


def find_least(posed: PosedDay, seconds: float, meals_stay: bool = False) -> Least | None:
    """The least that must give, in whole plates and steps where the time allows.

    None: nothing that may give helps. seconds: of work for all of it. Where the day with what gives has other meals (a
    lower protein floor may need no snack), what must give there is looked for there, unless meals_stay.
    """
    end = spent() + seconds
    search = begun(posed, end)
    eases = None if search is None else search.whole()
    if search is None or eases is None:
        return None
    eases = search.without_trifles(eases)
    found = None if meals_stay else _in_other_meals(search, eases)
    if found is not None:
        return found
    lines, planned = _confirmed(search, eases)
    return Least(search.clashes(eases), search.linear.total > NOUGHT, eases, lines, planned, posed)


def _in_other_meals(search: Search, eases: tuple[Ease, ...]) -> Least | None:
    """What must give once the day's own limits do, where its meals become others by that; None where they stay, or
    where no day was planned so."""
    posed, own = search.posed, tuple(ease for ease in eases if ease.slot is None)
    first = lines_for(posed, own)
    moved = _other_meals(posed, first)
    further = None if moved is None else begun(moved, search.end)
    more = None if further is None else further.whole()
    if moved is None or further is None or more is None:
        return None
    more = further.without_trifles(more)
    lines, planned = _confirmed(further, more)
    if not planned:
        return None
    known = {(ease.key, ease.side) for ease in own}
    others = tuple(ease for ease in more if ease.slot is not None or (ease.key, ease.side) not in known)
    clashes = tuple(dict.fromkeys((*search.clashes(own), *further.said(others))))
    joined = (*(_both(ease, more) for ease in own), *others)
    return Least(clashes, search.linear.total > NOUGHT, joined, _all_lines(first, lines), planned, moved)


def _confirmed(search: Search, eases: tuple[Ease, ...]) -> tuple[tuple[Line, ...], bool]:
    """Bands with which the day is really planned; wide ones where time ended before it was."""
    posed, lines = search.posed, tuple[Line, ...]()
    for wider, share in WIDER.items():
        lines = lines_for(posed, eases, wider)
        if plannable(case_with(posed.case, lines), posed.day, share * search.left()):
            return lines, True
    return lines, False


def plannable(case: Case, day: str, seconds: float) -> bool:
    """Whether a plan of the day is found in so many seconds of work."""
    ended = after(seconds)
    try:
        found = solve_posed(pose_day(case, day), ANY_GAP, SLOWEST * seconds, stop=ended)
    except (Refused, BadInput, OutOfTime):
        return False
    except KeyboardInterrupt:
        if not ended():
            raise
        return False
    return not isinstance(found, NothingFits)


def _other_meals(posed: PosedDay, lines: tuple[Line, ...]) -> PosedDay | None:
    """The day with these bands; None where it has the same meals as before."""
    try:
        found = pose_day(case_with(posed.case, lines), posed.day) if lines else posed
    except (Refused, BadInput):
        return None
    return None if [slot.kind for slot in found.slots] == [slot.kind for slot in posed.slots] else found


def _both(ease: Ease, more: tuple[Ease, ...]) -> Ease:
    """One limit of the day that gave twice, counted from what it was at first."""
    again = next((one for one in more if one.slot is None and (one.key, one.side) == (ease.key, ease.side)), None)
    if again is None:
        return ease
    given = again.limit - again.by if ease.side == "least" else again.limit + again.by
    return replace(ease, by=abs(ease.limit - given))


def _all_lines(first: tuple[Line, ...], then: tuple[Line, ...]) -> tuple[Line, ...]:
    """Bands that lead from the case to where both leave it: the later in place of the earlier that they replace."""
    written = {line.band: line for line in first}
    later = []
    for line in then:
        earlier = None if line.instead_of is None else written.pop(line.instead_of, None)
        later.append(line if earlier is None else Line(line.band, earlier.instead_of))
    return (*written.values(), *later)
