"""How long work tells how far it is."""

from __future__ import annotations

from collections.abc import Callable

#: Called with a few words whenever the best answer or its bound changes.
Progress = Callable[[str], None]

#: Asked again and again while it works; True ends the work with the best answer so far.
Stop = Callable[[], bool]
