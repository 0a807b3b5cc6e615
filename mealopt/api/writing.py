"""Files written whole or not at all."""

from __future__ import annotations

from pathlib import Path


def write_text(path: str | Path, text: str) -> None:
    """Write a file aside and rename it, so that it is whole or not there. Raises BadInput."""
    from mealopt.files import write_text as write

    write(Path(path), text)


def check_writable(path: str | Path) -> None:
    """Raise BadInput where a file could not be written there, before any long work."""
    from mealopt.files import check_writable as check

    check(Path(path))
