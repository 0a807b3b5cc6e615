"""Where the command's words go: a page or JSON to standard output, progress to standard error, files tried first."""

from __future__ import annotations

import contextlib
import io
import json
import os
import shutil
import stat
import sys
import unicodedata
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

from mealopt.errors import BadInput

if TYPE_CHECKING:
    from rich.console import RenderableType

#: Characters in a line at most, also on a wider terminal: longer lines are hard to read.
WIDEST = 80
#: A terminal that says less than this says nothing useful.
NARROWEST = 20


class ReaderLeft(Exception):
    """Whoever read standard output closed it: nobody is left to tell, and nothing is wrong."""


def width() -> int:
    """Characters in a line: as the terminal or COLUMNS says, 20 to 80."""
    return max(NARROWEST, min(WIDEST, shutil.get_terminal_size().columns))


def show(parts: Iterable[RenderableType]) -> None:
    """Print the parts of a page one under the other: coloured on a terminal, plain in a pipe.

    No line is wider than `width()`. Raises BadInput where standard output cannot be written.
    """
    from rich.console import Console

    from mealopt.cli.clean import Clean

    encoding = getattr(sys.stdout, "encoding", None) or "ascii"
    # Rendered aside and written at once, so that one place meets what standard output cannot take.
    page = io.StringIO()
    terminal = True if sys.stdout is not None and sys.stdout.isatty() else None
    console = Console(file=page, force_terminal=terminal, width=width(), highlight=False, markup=False, emoji=False)
    for part in parts:
        console.print(Clean(part, encoding))
    write("".join(f"{line.rstrip()}\n" for line in page.getvalue().splitlines()))


def show_json(document: Any) -> None:
    """Print plain data as JSON. Raises BadInput where standard output cannot be written."""
    write_json(json.dumps(document, indent=2, ensure_ascii=False, allow_nan=False) + "\n")


def write_json(text: str) -> None:
    """Print a text of JSON, with what the encoding of standard output lacks as JSON's own escapes."""
    encoding = getattr(sys.stdout, "encoding", None) or "ascii"
    try:
        text.encode(encoding)
    except UnicodeEncodeError:
        text = json.dumps(json.loads(text), indent=2) + "\n"
    write(text)


def write(text: str) -> None:
    """Text to standard output, at once. Raises BadInput where it cannot be written, ReaderLeft where nobody reads."""
    if sys.stdout is None:
        raise BadInput("standard output: closed; an open one is expected")
    try:
        sys.stdout.write(text)
        sys.stdout.flush()
    except BrokenPipeError:
        _to_nowhere()
        raise ReaderLeft from None
    except OSError as error:
        _to_nowhere()
        raise BadInput(f"standard output: cannot be written ({error.strerror}); room there is expected") from None


def _to_nowhere() -> None:
    """What is still in the buffer goes nowhere: Python's own flush at the end would complain of it once more."""
    with contextlib.suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def tell(sentence: str) -> None:
    """One line to standard error, free of control characters; a closed standard error hears nothing."""
    line = " ".join("".join(_safe(letter) for letter in sentence).split())
    with contextlib.suppress(OSError, ValueError, AttributeError):
        sys.stderr.write(f"{line}\n")
        sys.stderr.flush()


def _safe(letter: str) -> str:
    if letter.isspace():
        return " "
    return letter if letter.isprintable() else letter.encode("unicode_escape").decode("ascii")


class Progress:
    """One line on a terminal's standard error that says what is going on; silent anywhere else."""

    def __init__(self) -> None:
        self._on = sys.stderr is not None and sys.stderr.isatty() and os.environ.get("TERM") != "dumb"
        self._longest = 0

    def __call__(self, message: str) -> None:
        """Say what is going on, over what was said before."""
        if not self._on:
            return
        text = "".join(letter for letter in message if letter.isprintable())[: shutil.get_terminal_size().columns - 1]
        sys.stderr.write(f"\r{text.ljust(self._longest)}")
        sys.stderr.flush()
        self._longest = len(text)

    def __enter__(self) -> Progress:
        return self

    def __exit__(self, *_: object) -> None:
        if self._on and self._longest:
            sys.stderr.write("\r" + " " * self._longest + "\r")
            sys.stderr.flush()


def writable(path: str, apart_from: Path | None = None) -> Path:
    """The path of a file that can be written, found out before the long work; nothing is written yet.

    apart_from: a file that is read, and must not be written over. Raises BadInput.
    """
    try:
        return _writable(path, apart_from)
    except (OSError, ValueError) as error:
        _refuse(path, f"cannot be written ({getattr(error, 'strerror', None) or error})", "a file name is expected")


def _writable(path: str, apart_from: Path | None) -> Path:
    if not path or path.endswith(("/", os.sep)):
        _refuse(path or "-o", "the name of a folder" if path else "nothing", "the name of a file is expected")
    target = Path(path).resolve()
    folder = target.parent
    if not folder.is_dir():
        _refuse(path, f"a place in {folder}, which is no folder", "a file in a folder that exists is expected")
    if not os.access(folder, os.W_OK | os.X_OK):
        _refuse(path, f"a place in {folder}, where nothing can be written", "a folder of your own is expected")
    try:
        mode = target.stat().st_mode
    except FileNotFoundError:
        return target
    if stat.S_ISDIR(mode):
        _refuse(path, "the name of a folder", "the name of a file is expected")
    if not stat.S_ISREG(mode):
        _refuse(path, "something that is not a plain file", "the name of a file is expected")
    # Renaming would replace a protected file, and for the superuser everything counts as writable.
    if not mode & 0o222 or not os.access(target, os.W_OK):
        _refuse(path, "a file that is write-protected", "another name is expected")
    if apart_from is not None and apart_from.exists() and target.samefile(apart_from):
        _refuse(path, "the name of the file that is read", "another name is expected")
    return target


def _refuse(path: str, read: str, allowed: str) -> NoReturn:
    raise BadInput(f"{path}: read {read}; {allowed}")


def plain_letter(letter: str, encoding: str) -> str:
    """The letter as this encoding can hold it, one for one; nothing for what steers a terminal instead of showing."""
    if letter == "\n":
        return letter
    if unicodedata.category(letter) in ("Cc", "Cf", "Cs"):
        return ""
    bare = unicodedata.normalize("NFKD", letter)[:1]
    # A letter without its accent is still that letter; a one for a half would be another number.
    for form in (letter, bare) if bare.isalpha() else (letter,):
        with contextlib.suppress(UnicodeEncodeError):
            form.encode(encoding)
            return form
    return "?"
