"""Where nothing meets every row: the least that must give, and a smallest set of rows that clash.

Both work on an elastic copy of the program. A row that may give gets a column for each of its sides, in units of the
row's own scale, that makes up for what the other columns lack; bounding that column at nought holds the row again.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from mealopt.milp.answer import Status
from mealopt.milp.effort import SLOWEST, after, spent
from mealopt.milp.highs import Highs
from mealopt.milp.model import Model, Row, Term
from mealopt.milp.stages import solve_in_stages

#: What a row gives below this many of its scale is the engine's own tolerance.
NOUGHT = 1e-6


@dataclass(frozen=True, slots=True)
class Give:
    """What one row must give. row: its number; side: "least" or "most"; by: in the row's unit, above nought."""

    row: int
    name: str
    side: str
    by: float


@dataclass(frozen=True, slots=True)
class Relief:
    """The least that must give for the rest to hold.

    gives: one for each row that gives, in row order; none where the program can be met as it is. values: one a column
    of the program. total: the sum of by / scale; bound: the sum cannot be less. status: LIMIT where time ended the
    proof, NOTHING where it ended before any answer (gives and values are then empty).
    """

    status: Status
    gives: tuple[Give, ...]
    values: list[float]
    total: float
    bound: float

    @property
    def by_name(self) -> dict[str, Give]:
        """What each row gives, by its name."""
        return {give.name: give for give in self.gives}


@dataclass(frozen=True, slots=True)
class LinearRelief:
    """The least that must give where whole-number columns are taken as continuous.

    gives, total: as in Relief. values, reduced_costs: one a column of the program. weighing: numbers of the rows among
    those that may give whose limits the total hangs on; where the total is above nought, these rows clash with the rows
    that may not give.
    """

    gives: tuple[Give, ...]
    total: float
    values: list[float]
    reduced_costs: list[float]
    weighing: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Clash:
    """Rows that cannot all be met beside the rows that were not asked about.

    rows: their numbers; names: in the same order. irreducible: without any one of them the others can be met; False
    where time ended first. None of either where all rows can be met.
    """

    rows: tuple[int, ...]
    names: tuple[str, ...]
    irreducible: bool


#: (row number, "least" or "most") -> how much that side may give, in the row's unit; no entry: as much as it must.
Reach = Mapping[tuple[int, str], float]


def least_relaxation(
    model: Model,
    rows: Sequence[int] | None = None,
    seconds: float = 10.0,
    gap: float = 1e-4,
    reach: Reach | None = None,
    groups: Sequence[Sequence[int]] = (),
) -> Relief | None:
    """Let rows give, each at a harm of what it gives / its scale, and find the least harm in all.

    rows: the numbers of the rows that may give; None: the relaxable ones, or all where none is marked so. Whole-number
    columns stay whole. The program's own costs play no part. seconds: of work for the solve; gap: relative, or of one
    unit of harm where that is more. groups: 0/1 columns of which exactly one a group is 1: with few rows that may give,
    naming those first finds an answer sooner.
    None: however much these rows give within their reach, the others cannot be met.
    """
    chosen = _may_give(model, rows)
    elastic, slacks = _elastic(model, chosen, reach)
    clock, ended = SLOWEST * seconds, after(seconds)
    if groups:
        answer = solve_in_stages(elastic, groups, gap, 1.0, clock, stop=ended)
    else:
        answer = Highs(elastic, ended).solve(gap, clock)
    if answer.status is Status.INFEASIBLE:
        return None
    if not answer.status.solved:
        return Relief(Status.NOTHING, (), [], 0.0, 0.0)
    values = answer.values[: model.columns]
    gives = tuple(_gives(model, slacks, values))
    total = sum(give.by / _scale(model.rows[give.row]) for give in gives)
    return Relief(answer.status, gives, values, total, max(0.0, answer.bound))


def linear_relaxation(
    model: Model, rows: Sequence[int] | None = None, reach: Reach | None = None
) -> LinearRelief | None:
    """What `least_relaxation` finds, with whole-number columns taken as continuous: never more than with whole ones.

    None: however much these rows give within their reach, the others cannot be met.
    """
    chosen = _may_give(model, rows)
    elastic, slacks = _elastic(model, chosen, reach)
    found = Highs(elastic).relax()
    if not found.status.solved:
        return None
    gives = tuple(_gives(model, slacks, found.values))
    weighing = tuple(row for row in chosen if abs(found.duals[row]) * _scale(model.rows[row]) > NOUGHT)
    columns = model.columns
    return LinearRelief(gives, found.objective, found.values[:columns], found.reduced_costs[:columns], weighing)


def clashing_rows(model: Model, rows: Sequence[int] | None = None, seconds: float = 10.0) -> list[str]:
    """The names of find_clash's rows."""
    return list(find_clash(model, rows, seconds).names)


def find_clash(model: Model, rows: Sequence[int] | None = None, seconds: float = 10.0) -> Clash:
    """Find a smallest set among these rows that cannot be met together with all other rows, by deletion.

    Runs of rows are left out, long ones first; what is not needed for the clash stays out. rows: their numbers; None:
    the relaxable ones. Where the other rows clash by themselves, all rows are looked through. seconds: of work for
    all of it; whatever is found when it ends still clashes.
    """
    end = spent() + seconds
    filtered = _Filter(model, _may_give(model, rows), end)
    if filtered.clashes(()) is True:
        filtered = _Filter(model, range(len(model.rows)), end)
    kept = list(filtered.candidates)
    if filtered.clashes(kept) is not True:
        return Clash((), (), irreducible=filtered.sure)
    run = max(1, len(kept) // 2)
    while True:
        kept = filtered.thinned(kept, run)
        if run == 1:
            break
        run = min(max(1, len(kept) // 2), run // 2)
    return Clash(tuple(kept), tuple(model.rows[row].name for row in kept), filtered.sure)


class _Filter:
    """One elastic program, open in the engine, in which rows are held or let go."""

    def __init__(self, model: Model, candidates: Iterable[int], end: float) -> None:
        self.candidates = tuple(candidates)
        self.sure = True
        self._end = end
        elastic, self._slacks = _elastic(model, self.candidates)
        elastic.cost = [0.0] * elastic.columns
        self._whole = any(elastic.whole)
        self._engine = Highs(elastic)

    def clashes(self, held: Iterable[int]) -> bool | None:
        """Whether these rows clash with the rows that are always held; None where time ended first."""
        left = self._end - spent()
        if left <= 0:
            self.sure = False
            return None
        for columns in self._slacks.values():
            self._engine.set_most(columns.values())
        for row in held:
            self._engine.set_most(self._slacks[row].values(), 0.0)
        if self._engine.relax().status is Status.INFEASIBLE:
            return True
        if not self._whole:
            return False
        status = self._engine.solve(seconds=SLOWEST * left, effort=left).status
        if status is Status.NOTHING:
            self.sure = False
            return None
        return status is Status.INFEASIBLE

    def thinned(self, kept: list[int], run: int) -> list[int]:
        """These rows less every run of them, so many at a time, that the clash does not need."""
        start = 0
        while start < len(kept):
            fewer = kept[:start] + kept[start + run :]
            if self.clashes(fewer):
                kept = fewer
            else:
                start += run
        return kept


def _may_give(model: Model, rows: Sequence[int] | None) -> Sequence[int]:
    if rows is not None:
        return rows
    return [number for number, row in enumerate(model.rows) if row.relaxable] or range(len(model.rows))


def _scale(row: Row) -> float:
    if row.scale <= 0:
        raise ValueError(f"row {row.name} has a scale of {row.scale:g}; it must be above nought")
    return row.scale


def _elastic(model: Model, rows: Iterable[int], reach: Reach | None = None) -> tuple[Model, dict[int, dict[str, int]]]:
    """A copy that minimises what the rows give, and for each of those rows its new column on each side it has."""
    copy = Model(list(model.least), list(model.most), list(model.whole), [0.0] * model.columns, list(model.rows))
    slacks: dict[int, dict[str, int]] = {}
    for number in dict.fromkeys(rows):
        row, scale = model.rows[number], _scale(model.rows[number])
        added: list[Term] = []
        slacks[number] = {}
        for side, limit, sign in (("least", row.least, 1.0), ("most", row.most, -1.0)):
            if limit is not None:
                may = (reach or {}).get((number, side))
                slacks[number][side] = copy.column(0.0, None if may is None else may / scale, cost=1.0)
                added.append((slacks[number][side], sign * scale))
        copy.rows[number] = replace(row, terms=(*row.terms, *added))
    return copy, slacks


def _gives(model: Model, slacks: dict[int, dict[str, int]], values: list[float]) -> Iterable[Give]:
    """What each row gives, from its activity: an answer within a gap may hold more slack than it needs."""
    for number in sorted(slacks):
        row = model.rows[number]
        activity = row.activity(values)
        for side, limit, sign in (("least", row.least, 1.0), ("most", row.most, -1.0)):
            if limit is not None and (by := sign * (limit - activity)) > NOUGHT * _scale(row):
                yield Give(number, row.name, side, by)
