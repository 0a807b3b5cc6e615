"""Why nothing fits: what clashes, and the least that must give, as lines for the case file."""

from __future__ import annotations

from collections.abc import Iterable

from mealopt.core.clock import clock
from mealopt.core.nutrients import ENERGY
from mealopt.core.slots import Slot
from mealopt.errors import MealoptError, OutOfTime, Unplannable
from mealopt.milp.effort import spent
from mealopt.people.case import Case
from mealopt.plans.day.bands import is_of
from mealopt.plans.day.changes import CAUTION, Change, dropped_wishes, more_room, remedies_of, widest
from mealopt.plans.day.eased import Ease, Line, case_with
from mealopt.plans.day.found import NothingFits
from mealopt.plans.day.kept_out import unserved
from mealopt.plans.day.least import hopeless
from mealopt.plans.day.must_give import Least, find_least, plannable
from mealopt.plans.day.pose import PosedDay, pose_day

#: Seconds of work that the explanation is given at least: a short limit is no reason for lines that were not tried.
SECONDS = 12.0

#: A search shorter than this, s, that found nothing says that its time ended and no more.
WORTH = 5.0

#: Share of the work for the least that must give, and the most seconds of it for one change that is tried.
LEAST, ONE_CHANGE = 0.75, 3.0

#: Wishes named at most that would free the day.
NAMED = 2


def explained(nothing: NothingFits, seconds: float = SECONDS) -> Unplannable:
    """The clash as an error to raise: its message, its clashes as sentences, and its remedies as TOML text.

    With all remedies in the case file the day can be planned; the message says so where that could not be tried in the
    time. seconds: that the search was given; the explanation may work for as many more, or `SECONDS`.
    """
    seconds = max(SECONDS, seconds)
    end = spent() + seconds
    posed = nothing.posed
    least = None if nothing.empty else find_least(posed, LEAST * seconds)
    if least is not None and least.eases:
        return _eased(posed, least, end)
    return _blocked(posed, end)


def why_none(posed: PosedDay, out: OutOfTime, seconds: float) -> MealoptError:
    """What to raise where no plan was found in so many seconds: why there is none, where that is proven; what was too
    tight to find one for, with lines that do make a plan; or `out` as it is."""
    if hopeless(posed):
        return explained(NothingFits(posed, ()), seconds)
    if seconds < WORTH:
        return out
    end = spent() + max(SECONDS, seconds)
    least = find_least(posed, LEAST * max(SECONDS, seconds))
    return _eased(posed, least, end, proven=False) if least is not None and least.eases and least.planned else out


def _eased(posed: PosedDay, least: Least, end: float, proven: bool = True) -> Unplannable:
    helping = _that_help(posed, dropped_wishes(posed.case), end, NAMED)
    clashes = tuple(dict.fromkeys((*least.clashes, *(change.wish for change in helping))))
    what = "no dishes meet" if least.sure else "no dishes, in whole plates and kitchen steps, meet"
    what = what if proven else "in the time, which --seconds lengthens, no dishes were found that meet"
    what += "" if len(clashes) == 1 else " all of these"
    where = [None if ease.slot is None else least.posed.slots[ease.slot] for ease in least.eases]
    missing = in_a_row([ease.missing(at_slot(slot)) for ease, slot in zip(least.eases, where, strict=True)])
    gives = in_a_row([_give(ease, least) for ease in least.eases])
    ways = [*(_way(change) for change in helping), gives]
    untried = "" if least.planned else "; no plan was found with these lines in the time: give it more with --seconds"
    message = f"{posed.day}: {what}: {in_a_row(clashes)}: {missing}; {', or '.join(ways)}{untried}"
    return Unplannable(message, clashes, tuple(line.text for line in least.lines))


def _blocked(posed: PosedDay, end: float) -> Unplannable:
    """Where no limit that may give helps: what keeps the dishes out, and the other changes that would."""
    kept = unserved(posed)
    clashes = tuple(one.words for one in kept) or _walls(posed)
    candidates = (*more_room(posed.case, posed.day), *dropped_wishes(posed.case))
    found = _that_help(posed, candidates, end, 1)
    extra: tuple[str, ...] = ()
    if not found:
        found, extra = _together(posed, candidates, end)
    remedies = (*extra, *remedies_of(found))
    if found:
        helps = f"no band alone helps; {in_a_row([_way(change) for change in found])}"
        helps += f", with {len(extra)} band{'s' if len(extra) > 1 else ''} beside" if extra else ""
    else:
        helps = "no band helps, nor do other wishes, minutes or numbers of meals, as far as they were tried: "
        helps += "more hours awake, shorter sessions or less work on this day would"
    return Unplannable(f"{posed.day}: {in_a_row(clashes)}: {helps}", clashes, remedies)


def _way(change: Change) -> str:
    return f"{change.allow} ({CAUTION})" if change.harms else change.allow


def _walls(posed: PosedDay) -> tuple[str, ...]:
    """What a day of these meals cannot hold, where each meal by itself can be served."""
    meals = len([slot for slot in posed.slots if slot.kind != "during"])
    most, wanted = sum(slot.energy_most for slot in posed.slots), posed.bands[ENERGY].least or 0.0
    if most < wanted:
        return (
            f"the day's {meals} meals hold at most {most:,.0f} kcal, and at least {wanted:,.0f} kcal are asked for",
        )
    return (
        f"the day's {meals} meals cannot be served together within their sizes, their windows before sessions, and "
        "what may come again in a day",
    )


def _that_help(posed: PosedDay, changes: Iterable[Change], end: float, enough: int) -> tuple[Change, ...]:
    """The first of the changes with which, each by itself, the day is really planned, as far as the time goes."""
    found: list[Change] = []
    for change in changes:
        left = end - spent()
        if left < 0.3 or len(found) == enough:
            break
        changed = change.apply(posed.case)
        if any(change.wish == other.wish for other in found) or not _has_plates(changed, posed.day):
            continue
        if plannable(changed, posed.day, min(left, ONE_CHANGE)):
            found.append(change)
    return tuple(found)


def _has_plates(case: Case, day: str) -> bool:
    """Whether each meal of the day has a plate that fits it at all."""
    try:
        return not pose_day(case, day).card().empty()
    except MealoptError:
        return False


def _together(posed: PosedDay, changes: tuple[Change, ...], end: float) -> tuple[tuple[Change, ...], tuple[str, ...]]:
    """Changes that free the day together, and bands beside them as text; none of either where they do not."""
    case, kept = posed.case, list(widest(posed.case, posed.day))
    lines = _lines_with(_applied(case, kept), posed.day, end)
    if lines is None:
        return (), ()
    for change in tuple(kept):
        fewer = [other for other in kept if other is not change]
        if end - spent() > ONE_CHANGE and _planned(case_with(_applied(case, fewer), lines), posed.day):
            kept = fewer
    return tuple(kept), tuple(line.text for line in lines)


def _applied(case: Case, changes: Iterable[Change]) -> Case:
    for change in changes:
        case = change.apply(case)
    return case


def _planned(case: Case, day: str) -> bool:
    return _has_plates(case, day) and plannable(case, day, ONE_CHANGE)


def _lines_with(case: Case, day: str, end: float) -> tuple[Line, ...] | None:
    """Bands with which this case is planned, none where it needs none; None where no bands help."""
    if not _has_plates(case, day):
        return None
    if plannable(case, day, ONE_CHANGE):
        return ()
    least = find_least(pose_day(case, day), max(1.0, (end - spent()) / 2))
    return least.lines if least is not None and least.eases else None


def _give(ease: Ease, least: Least) -> str:
    """What this limit becomes, in words."""
    slot, day = None if ease.slot is None else least.posed.slots[ease.slot], least.posed.day
    value = next(
        found
        for line in least.lines
        if line.band.nutrient == ease.key
        and (found := getattr(line.band, ease.side)) is not None
        and (is_of(line.band, slot, day) if slot is not None else line.band.slot is None and line.band.meal is None)
    )
    return ease.giving(at_slot(slot), value)


def at_slot(slot: Slot | None) -> str:
    """Words for where a limit stands; "" for the day."""
    if slot is None:
        return ""
    if slot.kind in ("before", "after"):
        return f"in the meal {slot.kind} a session at {clock(slot.start)}"
    return slot.label if slot.kind == "during" else f"at {slot.label}"


def in_a_row(parts: Iterable[str]) -> str:
    """ "one, two and three"."""
    listed = list(parts)
    return " and ".join([", ".join(listed[:-1]), listed[-1]]) if len(listed) > 1 else "".join(listed)
