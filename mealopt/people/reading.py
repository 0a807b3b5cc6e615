"""Reads a case file; whatever cannot be used is BadInput with one sentence: where, what was read, what is allowed."""

from __future__ import annotations

import re
import stat
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from mealopt.errors import BadInput
from mealopt.people.case import SCHEMA, Case
from mealopt.people.lines import KeyPath, key_lines
from mealopt.people.sentences import key_name, line_name, refusal, shown

#: A case takes a few kilobytes; what is larger than this is something else, and is not read.
MOST_BYTES = 5_000_000
MOST_LINES = 20_000
#: More than any list of a case may hold.
MOST_ENTRIES = 500

# The parser's time grows with the square of the parts of a dotted key, so a hostile one is refused before it.
_DEEP_KEY = re.compile(r"""(?<![\w"'-])(?:[\w"'-]++[ \t]*+\.[ \t]*+){50}""")
_AT = re.compile(r"\s*\(at (?:line (?P<line>\d+), column (?P<column>\d+)|end of document)\)$")


def read_case(path: Path) -> Case:
    """The case in this file (TOML, UTF-8, at most 5 MB). Raises BadInput."""
    where = str(path)
    try:
        found = path.stat()
        if stat.S_ISDIR(found.st_mode):
            raise BadInput(f"{where}: read a folder; a case file is expected")
        if not stat.S_ISREG(found.st_mode):
            raise BadInput(f"{where}: read something that is not a plain file; a case file is expected")
        if found.st_size > MOST_BYTES:
            raise _too_large(where, found.st_size)
        with path.open("rb") as file:
            content = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise BadInput(f"{where}: read nothing, there is no such file; the name of a case file is expected") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise BadInput(f"{where}: cannot be read ({reason}); a readable case file is expected") from None
    if len(content) > MOST_BYTES:
        raise _too_large(where, len(content))
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise BadInput(
            f"{where}, line {line}: read the byte 0x{content[error.start]:02x}, which is not UTF-8; a text file saved "
            "as UTF-8 is expected"
        ) from None
    return case_from_text(text, where).beside(path.absolute().parent)


def case_from_text(text: str, where: str) -> Case:
    """The case in this TOML text; where: the words for its origin that a refusal begins with. Raises BadInput."""
    if len(text) > MOST_BYTES:
        raise _too_large(where, len(text))
    if not text.strip():
        raise BadInput(f'{where}: read an empty file; a case is expected, which begins with schema = "{SCHEMA}"')
    if text.count("\n") > MOST_LINES:
        raise BadInput(f"{where}: read {text.count(chr(10)):,} lines; at most {MOST_LINES:,} are allowed")
    deep = _DEEP_KEY.search(text)
    if deep:
        line = text.count("\n", 0, deep.start()) + 1
        raise BadInput(f"{where}, line {line}: read a key of 50 parts or more; keys of at most 3 parts are expected")
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise BadInput(_broken(text, where, str(error))) from None
    except RecursionError:
        raise BadInput(f"{where}: read lists inside lists too deep to follow; plain tables are expected") from None
    except ValueError:
        # Not the parser's own error: Python turns no text of more than 4,300 digits into a number.
        digits = re.search(r"\d{4000}", text)
        line = text.count("\n", 0, digits.start()) + 1 if digits else 1
        raise BadInput(
            f"{where}, line {line}: read a number of thousands of digits; a number in its range is expected"
        ) from None
    return _validated(data, where, key_lines(text))


def case_from_dict(data: object, where: str) -> Case:
    """The case in plain data, such as a plan document holds. Raises BadInput."""
    if not isinstance(data, dict):
        raise BadInput(f"{where}: read {shown(data)}; a table with a case is expected")
    return _validated(data, where, {})


def case_to_dict(case: Case) -> dict[str, Any]:
    """Plain data, JSON types only, that `case_from_dict` reads to an equal case; unwritten keys stay unwritten."""
    return case.model_dump(mode="json", by_alias=True, exclude_unset=True, exclude_none=True)


def _validated(data: dict[Any, Any], where: str, lines: dict[KeyPath, int]) -> Case:
    for path, size in _crowds(data, ()):
        spot = ", ".join(part for part in (where, line_name(lines, path), key_name(path)) if part)
        raise BadInput(f"{spot}: read {size:,} entries; at most {MOST_ENTRIES} are allowed in any list or table")
    try:
        return Case.model_validate(data)
    except ValidationError as error:
        raise BadInput(refusal(error, where, lines)) from None


def _crowds(value: object, path: KeyPath) -> Iterator[tuple[KeyPath, int]]:
    """Lists and tables with too many entries, four levels down: the models would collect an error for each entry."""
    if not isinstance(value, dict | list):
        return
    if len(value) > MOST_ENTRIES:
        yield path, len(value)
    elif len(path) < 4:
        for key, inner in value.items() if isinstance(value, dict) else enumerate(value):
            yield from _crowds(inner, (*path, key if isinstance(key, int | str) else str(key)))


def _broken(text: str, where: str, message: str) -> str:
    """The sentence for broken TOML, with the line and what stands on it."""
    at = _AT.search(message)
    reason = _AT.sub("", message)
    twice = reason.startswith(("Cannot overwrite", "Cannot declare", "Duplicate"))
    allowed = (
        "each key and table once is expected, lists of tables as [[...]]"
        if twice
        else 'key = value is expected, words in "..."'
    )
    reason = "a key or table given twice" if twice else reason
    if at is None or at["line"] is None:
        return f"{where}, last line: read broken TOML ({reason}); {allowed}"
    written = text.split("\n")[int(at["line"]) - 1].strip()
    if text.lstrip().startswith("{"):
        # A plan is what somebody has at hand who has planned before.
        return f"{where}: read JSON, as a plan document is; the case file that it was planned from is expected (TOML)"
    return f"{where}, line {at['line']}, column {at['column']}: read {shown(written)} ({reason}); {allowed}"


def _too_large(where: str, size: int) -> BadInput:
    return BadInput(f"{where}: read a size of {size / 1e6:.1f} MB; at most {MOST_BYTES / 1e6:g} MB is allowed")
