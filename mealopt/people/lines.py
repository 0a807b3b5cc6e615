"""Where each key of a TOML text stands, so that a refusal can name the line."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

#: A key from the top of the file: names, and positions (from 0) in lists of tables.
KeyPath = tuple[str | int, ...]

_PART = r"""(?:[A-Za-z0-9_-]+|"(?:\\.|[^"\\])*"|'[^']*')"""
_KEY = re.compile(rf"\s*(?P<key>{_PART}(?:\s*\.\s*{_PART})*+)\s*=(?P<value>.*)")
_HEADER = re.compile(rf"\s*(?P<open>\[\[?)\s*(?P<key>{_PART}(?:\s*\.\s*{_PART})*+)\s*\]")
_TOKEN = re.compile(r""""{3}|'{3}|"(?:\\.|[^"\\])*+"|'[^']*+'|\#|[\[\]{}]""")

#: Up to the three marks that end a long string; in one of the two, a mark after a backslash is not one of them.
_LONG_END = {'"""': re.compile(r'(?:\\.|[^\\])*?"""'), "'''": re.compile(r".*?'''")}


def key_lines(text: str) -> dict[KeyPath, int]:
    """The line, from 1, of each key and each table header of a text that is valid TOML.

    Keys inside inline tables are not listed: `line_of` falls back to the key that holds them.
    """
    return _Scanner().run(text)


def line_of(lines: dict[KeyPath, int], path: KeyPath) -> int | None:
    """The line of this key, or of the nearest table or list around it; None where there is none."""
    for length in range(len(path), 0, -1):
        if path[:length] in lines:
            return lines[path[:length]]
    return None


@dataclass
class _Scanner:
    found: dict[KeyPath, int] = field(default_factory=dict)
    counts: dict[KeyPath, int] = field(default_factory=dict)
    table: KeyPath = ()
    depth: int = 0
    quote: str = ""

    def run(self, text: str) -> dict[KeyPath, int]:
        for number, line in enumerate(text.split("\n"), start=1):
            if self.quote or self.depth:
                self._value(line)
            elif header := _HEADER.match(line):
                self._header(header, number)
            elif entry := _KEY.match(line):
                self.found.setdefault((*self.table, *_parts(entry["key"])), number)
                self._value(entry["value"])
        return self.found

    def _header(self, header: re.Match[str], number: int) -> None:
        *around, last = _parts(header["key"])
        path: KeyPath = ()
        for part in around:
            path = (*path, part)
            if path in self.counts:
                path = (*path, self.counts[path] - 1)
        path = (*path, last)
        if header["open"] == "[[":
            self.counts[path] = self.counts.get(path, 0) + 1
            path = (*path, self.counts[path] - 1)
        self.table = path
        self.found.setdefault(path, number)

    def _value(self, rest: str) -> None:
        """Follow open brackets and long strings through a piece of a value."""
        at = 0
        while True:
            if self.quote:
                end = _LONG_END[self.quote].match(rest, at)
                if end is None:
                    return
                at, self.quote = end.end(), ""
            token = _TOKEN.search(rest, at)
            if token is None or token[0] == "#":
                return
            at = token.end()
            if token[0] in ('"""', "'''"):
                self.quote = token[0]
            elif token[0] in "[{":
                self.depth += 1
            elif token[0] in "]}":
                self.depth -= 1


def _parts(key: str) -> tuple[str, ...]:
    return tuple(part.strip("\"'") for part in re.findall(_PART, key))
