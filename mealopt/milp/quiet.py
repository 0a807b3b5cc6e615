"""The engine greets on standard output the first time that a process opens it; results alone belong there."""

from __future__ import annotations

import os
import sys

import highspy


def open_once_in_silence() -> None:
    """Open the engine once with the process's standard output turned away, so that no later opening greets."""
    sys.stdout.flush()
    kept = os.dup(1)
    nowhere = os.open(os.devnull, os.O_WRONLY)
    try:
        os.dup2(nowhere, 1)
        highspy.Highs()  # type: ignore[no-untyped-call]
    finally:
        os.dup2(kept, 1)
        os.close(kept)
        os.close(nowhere)
