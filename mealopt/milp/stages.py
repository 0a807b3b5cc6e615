"""A program whose choices come in groups (one option of each), solved in stages to a proven gap.

The linear program first: its value bounds every answer, and its reduced costs tell which options matter. Then only the
options are whole numbers and all else is continuous: that is quick, and its answer names one option a group. Those are
held and the rest is solved in whole numbers: small. This is done first among the options that the linear program leans
on, for a first answer; where the named ones cannot be held, these few are solved in whole numbers, and then a few more.

From then on only what beats the best by more than the gap is looked for: the engine is told so (nothing at or above
that value counts), which makes the proof short. What cannot do so is ruled out by reduced cost, and options are named
among all that are left, for the bound. Where that takes long, each option that is left is probed: where not even the
linear program with it could count, it is left out for good. Where answer and bound are still too far apart, the
combination is cut off and the next best looked at; the bound is then the lower of the next combination's and those cut
off. Last, the whole program.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from mealopt.milp.answer import Answer, Relaxation, Status
from mealopt.milp.effort import after
from mealopt.milp.highs import Highs
from mealopt.milp.model import Model
from mealopt.milp.search import Progress, Search, Stop, tolerance

__all__ = ["Progress", "Stop", "solve_in_stages", "tolerance"]

#: Combinations looked at before the whole program is; seconds of work for one; shares of the gap that naming and
#: holding one may keep.
COMBINATIONS = 3
SECONDS_EACH = 3.0
KEEP, KEEP_HELD = 0.3, 0.6

#: Seconds of work for naming before options are probed, and for probing them.
SECONDS_NAMING, SECONDS_PROBING = 0.8, 4.0

#: A first answer so many times the gap above the bound is far off: it is worth another look.
FAR = 6.0

#: Options of a group in each look for a first answer: always so many, and up to so many where the linear program uses
#: them by this share at least.
LOOKS = ((2, 4), (4, 4), (6, 8))
USED = 0.02

#: Among few options in whole numbers: seconds of work, and the relative gap that is near enough for a first answer.
SECONDS_FEW, GAP_FEW = 4.0, 0.1


def solve_in_stages(
    model: Model,
    groups: Sequence[Sequence[int]],
    gap: float = 0.01,
    floor: float = 1.0,
    seconds: float = 20.0,
    progress: Progress | None = None,
    decisive: Sequence[int] = (),
    beat: float = float("inf"),
    stop: Stop | None = None,
    may_be: Callable[[int], bool] | None = None,
    patient: bool = True,
    proof: bool = True,
) -> Answer:
    """Minimise the model. groups: 0/1 columns of which exactly one a group is 1; decisive: further whole-number columns
    that the first stage must not split, such as those that cost something themselves. beat: the value of an answer that
    is known already; the run then ends, without values, as soon as nothing beats it by more than the gap.

    The bound given holds for the whole model. Status INFEASIBLE is proven; LIMIT has a solution without the gap asked
    for; NOTHING has none. progress: called with value and bound when the value falls. stop: asked while it runs;
    True ends it as the time would, with the best so far. may_be: whether an option can be taken at all, asked of those
    that are named; one that cannot be is left out for good. patient: False ends it with NOTHING where no answer comes
    soon. proof: False ends it after the first answer, whose bound is then the linear program's.
    """
    search = Search(gap, floor, seconds, objective=beat, progress=progress, stop=stop)
    engine = Highs(model, stop)
    relaxed = engine.relax()
    if not relaxed.status.solved:
        return search.ended(relaxed.status)
    search.bound = relaxed.objective
    switches = [column for group in groups for column in group]
    first = {*switches, *decisive}
    others = [column for column, whole in enumerate(model.whole) if whole and column not in first]
    return _Stages(engine, groups, switches, others, relaxed, search, may_be).run(patient, proof)


@dataclass(slots=True)
class _Stages:
    """One program open in the engine. switches: all options; others: whole-number columns that naming lets go;
    probed: the value that probed options had to beat."""

    engine: Highs
    groups: Sequence[Sequence[int]]
    switches: list[int]
    others: list[int]
    relaxed: Relaxation
    search: Search
    may_be: Callable[[int], bool] | None = None
    probed: float = float("inf")

    def run(self, patient: bool, proof: bool) -> Answer:
        """All stages, until the gap is proven or the time is over. proof: False ends with the first answer."""
        search = self.search
        self.engine.set_whole(self.others, False)
        self._rule_out()
        if not search.known():
            self._first_looks()
        if search.proven() or search.over() or not (search.known() or patient):
            return search.ended()
        if not proof and search.values:
            return search.ended()
        exhausted = self._combinations()
        if exhausted and not search.known():
            return search.ended(Status.INFEASIBLE)
        if not exhausted and not search.proven() and not search.over():
            return search.ended(self._whole())
        return search.ended()

    def _first_looks(self) -> None:
        """An answer from the options that the linear program leans on, and by it what is ruled out."""
        for fewest, most in LOOKS:
            before = self.search.objective
            off = self._not_among(fewest, most)
            self.engine.set_most(off, 0.0)
            named = self._name(KEEP * self.search.allowed())
            if named.status.solved:
                self._hold(named, off)
                if not self.search.known():
                    self._few()
            self.engine.set_most(off)
            self._rule_out()
            if self.search.over() or (self.search.known() and not self._worth_a_look(before)):
                break

    def _worth_a_look(self, before: float) -> bool:
        """Whether to look once more: the answer is far from the bound, and the last look made it better."""
        search = self.search
        return search.objective < before and search.objective - search.bound > FAR * search.allowed()

    def _not_among(self, fewest: int, most: int) -> list[int]:
        """All options but a few of each group: those that the linear program leans on most."""
        values, reduced = self.relaxed.values, self.relaxed.reduced_costs
        off: list[int] = []
        for group in self.groups:
            ranked = sorted(
                (column for column in group if self.engine.may(column)),
                key=lambda column: (-values[column], reduced[column]),
            )
            off += [
                column
                for place, column in enumerate(ranked)
                if place >= fewest and (place >= most or values[column] < USED)
            ]
        return off

    def _few(self) -> None:
        """The options that are left now, in whole numbers: near enough the best of them."""
        self.engine.set_whole(self.others, True)
        self.engine.lean(True)
        left, keep = self.search.left(), self.search.allowed()
        self.search.offer(self.engine.solve(GAP_FEW, left, gap_absolute=keep, effort=SECONDS_FEW))
        self.engine.lean(False)
        self.engine.set_whole(self.others, False)

    def _rule_out(self) -> None:
        """Leave out the options that cannot beat the best by more than the gap, by their reduced cost."""
        if not self.search.known():
            return
        threshold = self.search.ruled_out = self.search.worth()
        values, reduced = self.relaxed.values, self.relaxed.reduced_costs
        self.engine.rule_out(
            column
            for column in self.switches
            if values[column] < 1e-7 and self.relaxed.objective + reduced[column] >= threshold
        )

    def _probe(self) -> None:
        """Leave out each option with which not even the linear program beats the best by more than the gap.

        What was cut off counts in it: a combination that was not looked at to its end must not vanish with an option.
        """
        search, engine = self.search, self.engine
        worth, enough = search.worth(), after(SECONDS_PROBING)
        if not search.known() or worth >= self.probed:
            return
        self.probed = worth
        engine.drop_cuts()
        reduced = self.relaxed.reduced_costs
        for column in sorted(filter(engine.may, self.switches), key=lambda column: -reduced[column]):
            if enough() or search.over():
                break
            if not engine.could_beat(column, worth):
                engine.rule_out([column])
        search.ruled_out = min(search.ruled_out, worth)
        self._cut_off()

    def _name(self, keep: float, effort: float | None = None) -> Answer:
        """One option a group, all else continuous, below what is worth finding; INFEASIBLE where there is none."""
        while True:
            self.engine.lean(True)
            below = self.search.worth()
            named = self.engine.solve(1e-9, self.search.left(), gap_absolute=keep, below=below, effort=effort)
            self.engine.lean(False)
            if not named.status.solved or self.search.over() or not self._cannot_be(named):
                return named

    def _cannot_be(self, named: Answer) -> bool:
        """Whether an option was named that cannot be taken: it is left out, and with it all such of its group."""
        if self.may_be is None:
            return False
        never: list[int] = []
        for group in self.groups:
            if any(named.values[column] > 0.5 and not self.may_be(column) for column in group):
                never += [column for column in group if self.engine.may(column) and not self.may_be(column)]
        self.engine.rule_out(never)
        return bool(never)

    def _hold(self, named: Answer, off: Sequence[int] = ()) -> float:
        """Look for the whole-number answer with the named options held, once; a bound of all such answers that count.

        off: options that are left out for now, and stay so.
        """
        search, engine = self.search, self.engine
        on = frozenset(column for column in self.switches if named.values[column] > 0.5)
        if on in search.held:
            return search.held[on]
        # What lies within the gap of the bound ends the proof, though it may beat the best by less than the gap.
        goal = search.bound + search.allowed()
        worth = max(search.worth(), goal)
        engine.set_whole(self.others, True)
        engine.set_most((column for column in self.switches if column not in on), 0.0)
        keep = KEEP_HELD * search.allowed()
        held = engine.solve(1e-9, search.left(), gap_absolute=keep, target=goal, below=worth, effort=SECONDS_EACH)
        engine.set_most(self.switches)
        engine.set_most(off, 0.0)
        engine.set_whole(self.others, False)
        search.held[on] = worth if held.status is Status.INFEASIBLE else held.bound
        search.offer(held)
        return search.held[on]

    def _cut_off(self) -> float:
        """Cut off every combination that was looked at; the least bound of them."""
        for on in self.search.held:
            self.engine.cut_off(sorted(on))
        return min(self.search.held.values(), default=float("inf"))

    def _combinations(self) -> bool:
        """Look at one combination of options after the other; whether all that matter were looked at to their end."""
        search = self.search
        behind, probed = self._cut_off(), False
        for _ in range(COMBINATIONS):
            worth = search.worth()
            chosen = self._name(KEEP * search.allowed(), None if probed else SECONDS_NAMING)
            if chosen.status is Status.LIMIT or chosen.status is Status.NOTHING:
                if probed or search.over():
                    return False
                self._probe()
                probed = True
                if not chosen.status.solved:
                    continue
            search.ruled_out = min(search.ruled_out, worth)
            if chosen.status is Status.INFEASIBLE:
                search.raise_bound(behind)
                return behind == float("inf") or search.proven()
            search.raise_bound(min(chosen.bound, behind))
            behind = min(behind, self._hold(chosen))
            if search.proven():
                return True
            if search.over():
                return False
            self.engine.cut_off([column for column in self.switches if chosen.values[column] > 0.5])
        self._probe()
        return False

    def _whole(self) -> Status | None:
        """The whole program; INFEASIBLE where it proves that there is none, otherwise None."""
        search, engine = self.search, self.engine
        worth = search.worth()
        if any(bound < worth for bound in search.held.values()):
            engine.drop_cuts()
        engine.set_whole(self.others, True)
        engine.lean(search.known())
        answer = engine.solve(search.gap, search.left(), gap_absolute=search.allowed(), below=worth)
        search.offer(answer)
        search.ruled_out = min(search.ruled_out, worth)
        if answer.status.solved:
            search.raise_bound(answer.bound)
        if answer.status is not Status.INFEASIBLE:
            return None
        if not search.known():
            return Status.INFEASIBLE
        search.raise_bound(float("inf"))
        return None
