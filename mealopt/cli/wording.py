"""Paragraphs, tables and lines of a terminal; the words themselves stand in `core.words`, handed on here."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from rich.console import RenderableType
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from mealopt.cli.output import width
from mealopt.core.bands import Band
from mealopt.core.words import DAY_NAMES as DAY_NAMES
from mealopt.core.words import IN_SHORT as IN_SHORT
from mealopt.core.words import amount as amount
from mealopt.core.words import dated as dated
from mealopt.core.words import duration as duration
from mealopt.core.words import held as held
from mealopt.core.words import held_beside as held_beside
from mealopt.core.words import label as label
from mealopt.core.words import limits as limits
from mealopt.core.words import long_date as long_date
from mealopt.core.words import missed as missed
from mealopt.core.words import number as number

#: Below this many characters a table of many columns becomes one block for each row.
TABLE_FROM = 72

#: Characters that a column of words needs beside another.
LEAST_BESIDE = 15

CAUTION = "yellow"
BAD = "bold red"
GOOD = "green"
HEADING = "bold"
QUIET = "dim"


def heading(text: str) -> Text:
    """A heading with an empty line above it."""
    return Text(f"\n{text}", style=HEADING)


def paragraph(text: str, style: str = "", indent: int = 0) -> Padding:
    """Words that wrap inside their indent."""
    return Padding(Text(text, style=style, overflow="fold"), (0, 0, 0, indent))


def listed(sentences: Iterable[str], style: str = "") -> Table:
    """Sentences one under the other, each behind a dash."""
    grid = columns(1)
    for sentence in sentences:
        grid.add_row("-", Text(sentence, style=style, overflow="fold"))
    return grid


def columns(first: int) -> Table:
    """A grid of a narrow column of this many characters, and one that takes the rest and wraps."""
    grid = Table.grid(padding=(0, 1), pad_edge=False)
    grid.add_column(width=first, no_wrap=True)
    grid.add_column(overflow="fold", width=width() - first - 1)
    return grid


def facts(rows: Iterable[tuple[str, str]], first: int) -> Iterator[RenderableType]:
    """Names, and what stands behind each: side by side, or one in the other where the line is short."""
    if width() < first + LEAST_BESIDE:
        for name, words in rows:
            yield paragraph(f"{name} {words}")
        return
    grid = columns(first)
    for name, words in rows:
        grid.add_row(name, words)
    yield grid


def plain_table(*headers: tuple[str, bool]) -> Table:
    """A table without lines. headers: words, and whether numbers stand under them, which align right and never wrap."""
    table = Table(box=None, pad_edge=False, padding=(0, 1), header_style=HEADING)
    for words, numeric in headers:
        table.add_column(words, justify="right" if numeric else "left", no_wrap=numeric, overflow="fold")
    return table


def numbered(headers: Sequence[str], rows: Sequence[tuple[str, Sequence[str]]]) -> Iterator[RenderableType]:
    """Rows of a name and its numbers: a table, or one block for each row where the names would have no room.

    headers: the words above the numbers.
    """
    columns_wide = [max(map(len, column)) for column in zip(headers, *(cells for _, cells in rows), strict=True)]
    if width() - sum(columns_wide) - len(headers) >= LEAST_BESIDE:
        table = plain_table(("", False), *((words, True) for words in headers))
        for name, cells in rows:
            table.add_row(Text(name, overflow="fold"), *cells)
        yield table
        return
    for name, cells in rows:
        yield paragraph(name)
        yield paragraph(", ".join(f"{words} {cell}" for words, cell in zip(headers, cells, strict=True)), indent=2)


def wide() -> bool:
    """Whether a table of many columns fits."""
    return width() >= TABLE_FROM


def drawn(band: Band, value: float, inner: int = 15) -> str:
    """A band as a line of characters, with "#" where the value lies and "|" at the aim; [ and ] are the limits.

    With one limit only the line runs from zero to the most, or from the least to its double.
    """
    low = band.least if band.least is not None else 0.0
    high = band.most if band.most is not None else 2 * low
    if high <= low:
        return ""

    def place(at: float) -> int:
        return round(min(1.0, max(0.0, (at - low) / (high - low))) * (inner - 1))

    line = ["-"] * inner
    if band.aim is not None and low <= band.aim <= high:
        line[place(band.aim)] = "|"
    off = missed(band, value)
    line[place(value)] = "<" if off < 0 else ">" if off > 0 else "#"
    left = "[" if band.least is not None else " "
    right = "]" if band.most is not None else " "
    return f"{left}{''.join(line)}{right}"
