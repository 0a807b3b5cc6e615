"""Reading and writing whole files: one clear sentence where it cannot be done, nothing half written."""

from __future__ import annotations

import contextlib
import os
import tempfile
from pathlib import Path

from mealopt.errors import BadInput

#: No case, plan or list of ours is larger, bytes.
READ_MOST = 20_000_000


def read_text(path: Path) -> str:
    """The text of a file, UTF-8. Raises BadInput."""
    try:
        if path.is_dir():
            raise BadInput(f"{path}: is a folder; a file is expected")
        if path.stat().st_size > READ_MOST:
            raise BadInput(f"{path}: {path.stat().st_size / 1e6:.0f} MB; at most {READ_MOST / 1e6:.0f} MB are read")
        return path.read_bytes().decode("utf-8")
    except OSError as error:
        raise BadInput(f"{path}: cannot be read ({error.strerror})") from error
    except UnicodeDecodeError as error:
        raise BadInput(f"{path}: is not UTF-8 text (byte {error.start})") from error


def check_writable(path: Path) -> None:
    """Raise BadInput where a file could not be written there."""
    folder = path.parent
    if path.is_dir():
        raise BadInput(f"{path}: is a folder; a file to write is expected")
    if not folder.is_dir():
        raise BadInput(f"{path}: the folder {folder} does not exist")
    if path.exists() and not os.access(path, os.W_OK):
        raise BadInput(f"{path}: cannot be written (it may only be read)")
    if not os.access(folder, os.W_OK):
        raise BadInput(f"{path}: the folder {folder} cannot be written to")


def write_bytes(path: Path, content: bytes) -> None:
    """Write a file aside and rename it. Raises BadInput."""
    check_writable(path)
    aside = ""
    try:
        handle, aside = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        mode = path.stat().st_mode & 0o777 if path.exists() else 0o666 & ~_umask()
        os.chmod(aside, mode)
        os.replace(aside, path)
    except OSError as error:
        raise BadInput(f"{path}: cannot be written ({error.strerror})") from error
    finally:
        if aside:
            with contextlib.suppress(OSError):
                os.unlink(aside)


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def write_text(path: Path, text: str) -> None:
    """Write text, UTF-8, aside and rename it. Raises BadInput."""
    write_bytes(path, text.encode("utf-8"))
