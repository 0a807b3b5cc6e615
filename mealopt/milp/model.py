"""A linear program with whole-number columns, as plain numbers: no food, person or file ever enters this room."""

from __future__ import annotations

from dataclasses import dataclass, field

Term = tuple[int, float]


@dataclass(frozen=True, slots=True)
class Row:
    """least <= sum of coefficient x column <= most.

    name: unique in its model. terms: (column number, coefficient); a column may stand more than once, its coefficients
    add up. least, most: None where there is no such side. says: the sentence that a person reads if it cannot be met.
    unit: of its activity. relaxable: may be eased where nothing meets all rows. family: the rule that it belongs to.
    key, slot: what it bounds and in which meal (from 0; None: the day), so that easing it can be written as a band.
    scale: the activity that counts as one unit of harm when the row is eased.
    """

    name: str
    terms: tuple[Term, ...]
    least: float | None = None
    most: float | None = None
    says: str = ""
    unit: str = ""
    family: str = ""
    relaxable: bool = False
    key: str = ""
    slot: int | None = None
    scale: float = 1.0

    def activity(self, values: list[float]) -> float:
        """The sum of coefficient x value over its terms."""
        return sum(coefficient * values[column] for column, coefficient in self.terms)


@dataclass(slots=True)
class Model:
    """Columns (least, most, whole or not, cost; minimised) and rows. most is None where a column has no upper end."""

    least: list[float] = field(default_factory=list)
    most: list[float | None] = field(default_factory=list)
    whole: list[bool] = field(default_factory=list)
    cost: list[float] = field(default_factory=list)
    rows: list[Row] = field(default_factory=list)
    maximise: bool = False

    def column(self, least: float = 0.0, most: float | None = None, *, whole: bool = False, cost: float = 0.0) -> int:
        """Add a column; its number."""
        self.least.append(least)
        self.most.append(most)
        self.whole.append(whole)
        self.cost.append(cost)
        return len(self.cost) - 1

    @property
    def columns(self) -> int:
        """How many columns there are."""
        return len(self.cost)

    def value(self, values: list[float]) -> float:
        """The objective at these column values."""
        return sum(cost * value for cost, value in zip(self.cost, values, strict=True) if cost)
