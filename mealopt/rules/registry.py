"""Where rule families and penalty terms register themselves.

A family is a function from a posed day to labelled rows; a term charges the penalty and may add rows of its own. One
file each; a file in this folder is found by itself.
"""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cache

from mealopt.milp.model import Row
from mealopt.rules.problem import Problem

Maker = Callable[[Problem], Iterable[Row]]


@dataclass(frozen=True, slots=True)
class Family:
    """One registered family or term. relaxable: may be eased where nothing meets all rows; unit: of its rows."""

    name: str
    make: Maker
    relaxable: bool
    unit: str
    is_term: bool

    def rows(self, problem: Problem) -> Iterator[Row]:
        """Its rows, each marked with the family; one that says nothing helps the others, not relaxable."""
        for row in self.make(problem):
            relaxable = self.relaxable and bool(row.says)
            yield replace(row, family=self.name, relaxable=relaxable, unit=row.unit or self.unit)


_REGISTER: dict[str, Family] = {}


def family(name: str, *, relaxable: bool = False, unit: str = "") -> Callable[[Maker], Maker]:
    """Register a function as a rule family. Raises ValueError where the name is taken."""
    return _register(name, relaxable, unit, is_term=False)


def term(name: str, *, unit: str = "") -> Callable[[Maker], Maker]:
    """Register a function as a term of the penalty; its rows tie its cost columns and are never relaxed."""
    return _register(name, False, unit, is_term=True)


def _register(name: str, relaxable: bool, unit: str, *, is_term: bool) -> Callable[[Maker], Maker]:
    def keep(make: Maker) -> Maker:
        if name in _REGISTER:
            raise ValueError(f"two rule families are called {name!r}")
        _REGISTER[name] = Family(name, make, relaxable, unit, is_term)
        return make

    return keep


@cache
def families() -> tuple[Family, ...]:
    """All families and terms, families first, by name."""
    import mealopt.rules as room

    for module in pkgutil.iter_modules(room.__path__):
        importlib.import_module(f"mealopt.rules.{module.name}")
    return tuple(sorted(_REGISTER.values(), key=lambda entry: (entry.is_term, entry.name)))


def pose(problem: Problem, leave_out: frozenset[str] = frozenset()) -> None:
    """Write every family's rows, but those left out by name, into the problem's model."""
    for entry in families():
        if entry.name not in leave_out:
            problem.model.rows.extend(entry.rows(problem))
