"""Whether a plan document holds what it says: its table, its sums, and the numbers that its own case gives.

Every command that reads a plan asks this first, so that nobody shops, cooks or swaps by a document that was changed by
hand until it is wrong.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from mealopt.core.bands import Band
from mealopt.core.nutrients import ENERGY, FIBRE, FRUIT_VEGETABLE, LABELS, UNITS
from mealopt.documents.parts import TargetBand
from mealopt.documents.plan import Plan, PlanDay, SessionEntry
from mealopt.errors import BadInput
from mealopt.menu.dishes import Menu
from mealopt.people.case import Case
from mealopt.people.reading import case_from_dict
from mealopt.plans.day.document import session_entry
from mealopt.plans.day.pose import pose_day
from mealopt.plans.own import own_table, plan_menu
from mealopt.plans.replan.changed import raised
from mealopt.recheck.check import recheck_plan
from mealopt.table.composition import shipped_composition
from mealopt.targets.day import day_targets
from mealopt.targets.model import DayTargets

#: How far a written limit may be from what the case gives: a share of it, and in the nutrient's unit.
SHARE, LEAST = 1e-4, 0.06

#: What becomes of a plan that is not what its case gives.
ANEW = "plan it anew, or take the file as it was written"

#: Floors that sink to what windows leave; on a day planned anew, to what its windows left at the time.
_SINKS = frozenset({FIBRE, FRUIT_VEGETABLE})

#: What of a session its case gives.
SESSION_KEYS = (
    "number", "kind", "effort", "start", "ends", "minutes", "net_kcal", "replaced_kcal", "carbohydrate_g_per_h",
    "during_g",
)  # fmt: skip


def check_whole(plan: Plan, folder: Path | None, where: str) -> Menu:
    """Raise BadInput where the plan is of another table, does not hold what it promises, or is not of its own case.

    folder: that of the case file, beside which own foods lie. where: the words that a refusal begins with. Returns the
    menu that the plan was held against. Raises Refused as planning does.
    """
    table = shipped_composition()
    if plan.table.sha256 != table.sha256:
        raise BadInput(
            f"{where}: read a plan made with the food table {plan.table.name} of SHA-256 {plan.table.sha256[:12]}...; "
            f"one made with {table.sha256[:12]}... is expected: plan it anew"
        )
    menu = plan_menu(plan, folder)
    broken = recheck_plan(plan, table, menu.pantry, own_table(menu))
    if broken:
        more = f" (and {len(broken) - 1} more)" if len(broken) > 1 else ""
        raise BadInput(f"{where}: this plan does not hold what it says: {broken[0]}{more}: {ANEW}")
    for entry in plan.days:
        case_of(plan, entry, folder, where)
    return menu


def case_of(plan: Plan, entry: PlanDay, folder: Path | None, where: str) -> Case:
    """The case that a day's numbers follow from: the plan's own, or with the sessions that it had before a replan.

    Raises BadInput where none gives the day's sessions and targets; Refused as planning does.
    """
    cases = list(_cases(plan, folder, where))
    says = [_differs(case, entry, cases) for case in cases]
    for case, said in zip(cases, says, strict=True):
        if said is None:
            return case
    raise BadInput(f"{where}, {entry.day}, {says[0]}: {ANEW}")


def _cases(plan: Plan, folder: Path | None, where: str) -> Iterator[Case]:
    """The plan's case, and as it was before each replan that changed its sessions; the latest first."""
    yield case_from_dict(plan.case, f"{where}, case").beside(folder)
    for sessions in reversed(plan.sessions_before):
        yield case_from_dict({**plan.case, "session": list(sessions)}, f"{where}, sessions_before").beside(folder)


def _differs(case: Case, entry: PlanDay, cases: list[Case]) -> str | None:
    """Where the day's sessions or targets are not those of this case, in words; None where they are."""
    targets = day_targets(case, entry.day)
    given = [session_entry(one, number) for number, one in enumerate(targets.sessions, start=1)]
    if len(given) != len(entry.sessions) or not all(map(_same_session, given, entry.sessions)):
        return f"sessions: read {_sessions(entry.sessions)}; its case gives {_sessions(given)}"
    said = _bands_differ(entry, pose_day(case, entry.day).bands)
    if said is None or entry.now is None or len(cases) == 1:
        return said
    raisings = (raised(case, entry.day, targets, floor) for floor in _floors(entry, cases))
    ways = [_bands_differ(entry, way.bands, sinking=True) for way in (targets, *raisings)]
    return None if None in ways else said


def _floors(entry: PlanDay, cases: list[Case]) -> Iterator[float]:
    """What a replan that took a session off may have raised the day's energy to: a baseline, or what was planned."""
    written = entry.targets[ENERGY].aim or 0.0
    for case in cases:
        found: DayTargets = day_targets(case, entry.day)
        for kcal in (found.baseline_kcal, found.bands[ENERGY].aim or 0.0):
            if abs(kcal - written) <= 2 * LEAST:
                yield kcal


def _bands_differ(entry: PlanDay, given: dict[str, Band], *, sinking: bool = False) -> str | None:
    for key in (*given, *(key for key in entry.targets if key not in given)):
        band, written = given.get(key, Band()), entry.targets.get(key, TargetBand())
        for side in ("least", "aim", "most"):
            expected, read = getattr(band, side), getattr(written, side)
            sunk = sinking and key in _SINKS and side != "most" and None not in (expected, read) and read < expected
            if not sunk and not _same(expected, read):
                label = LABELS.get(key, key)
                gives = _limit(expected, side, key)
                return f"targets: read {_limit(read, side, key)} for {label}; its case gives {gives}"
    return None


def _same(one: float | None, other: float | None) -> bool:
    if one is None or other is None:
        return one is other
    return abs(one - other) <= LEAST + SHARE * abs(one)


def _limit(value: float | None, side: str, key: str) -> str:
    words = {"least": "at least", "aim": "an aim of", "most": "at most"}[side]
    return "no such limit" if value is None else f"{words} {value:,.1f} {UNITS.get(key, '')}".rstrip()


def _same_session(given: SessionEntry, written: SessionEntry) -> bool:
    """Whether the numbers of a session are those that its case gives; what is packed for it is rechecked elsewhere."""
    return all(getattr(given, key) == getattr(written, key) for key in SESSION_KEYS)


def _sessions(found: Sequence[SessionEntry]) -> str:
    return "; ".join(_session(one) for one in found) or "none"


def _session(one: SessionEntry) -> str:
    carried = one.during_g
    eaten = "" if carried is None else f", {carried.least or 0:g} to {carried.most or 0:g} g carbohydrate in it"
    return f"{one.effort} {one.kind} at {one.start} for {one.minutes} min, {one.net_kcal or 0:.0f} kcal{eaten}"
