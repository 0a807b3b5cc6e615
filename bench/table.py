"""What a part of the bench hands back, and how it is printed: Markdown, nothing else."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from statistics import median


@dataclass(slots=True)
class Table:
    """Rows under headings; every row has as many cells as there are headings. says: the sentence above it."""

    says: str
    headings: tuple[str, ...]
    rows: list[tuple[str, ...]] = field(default_factory=list)

    def text(self) -> str:
        """As Markdown, the first column left, all others right. Raises ValueError for a row of another length."""
        for row in self.rows:
            if len(row) != len(self.headings):
                raise ValueError(f"{len(row)} cells under {len(self.headings)} headings: {row}")
        rule = ("---", *("---:" for _ in self.headings[1:]))
        lines = ["| " + " | ".join(cells) + " |" for cells in (self.headings, rule, *self.rows)]
        return "\n".join((self.says, "", *lines)) if self.says else "\n".join(lines)


@dataclass(slots=True)
class Section:
    """One part's figures. notes: what a reader must know to judge them."""

    title: str
    tables: list[Table] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    def text(self) -> str:
        """As Markdown."""
        blocks = [f"## {self.title}", *(table.text() for table in self.tables)]
        if self.notes:
            blocks.append("\n".join(f"- {note}" for note in self.notes))
        return "\n\n".join(blocks)


def seconds(value: float) -> str:
    """A time with the digits that it is worth."""
    size = abs(value)
    digits = 1 if size >= 10 else 2 if size >= 1 else 3 if size >= 0.01 else 4
    return f"{value:.{digits}f}"


def points(value: float) -> str:
    """Points of the penalty; a dash where there are none."""
    return f"{value:.2f}" if math.isfinite(value) else "-"


def spread(values: Sequence[float], form: str = "{:.2f}") -> tuple[str, str, str]:
    """Median, least and most as cells; dashes where there is nothing."""
    if not values:
        return "-", "-", "-"
    return form.format(median(values)), form.format(min(values)), form.format(max(values))
