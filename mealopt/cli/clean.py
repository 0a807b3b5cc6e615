"""Keeps a page to letters that its reader can be shown: none that steer a terminal, none that the encoding lacks."""

from __future__ import annotations

from rich.console import Console, ConsoleOptions, RenderableType, RenderResult
from rich.segment import Segment

from mealopt.cli.output import plain_letter


class Clean:
    """A part of a page, cleaned while it is rendered: names in a case file may hold anything."""

    def __init__(self, part: RenderableType, encoding: str) -> None:
        self.part = part
        self.encoding = encoding

    def __rich_console__(self, console: Console, options: ConsoleOptions) -> RenderResult:
        """The part's segments, with each letter as the encoding can hold it."""
        for segment in console.render(self.part, options):
            if segment.control:
                yield segment
            else:
                letters = (plain_letter(letter, self.encoding) for letter in segment.text)
                yield Segment("".join(letters), segment.style)
