"""Ctrl-C while a plan is sought: the search ends with the best so far instead of losing it."""

from __future__ import annotations

import signal
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType


@contextmanager
def stop_by_hand() -> Iterator[Callable[[], bool]]:
    """Within it, Ctrl-C raises nothing and is remembered: the function given says whether it was pressed.

    Only where Python's own handling of the signal is in place, and in the main thread, which alone is sent it;
    elsewhere nothing changes and the function says no.
    """
    pressed = threading.Event()

    def remember(number: int, frame: FrameType | None) -> None:
        pressed.set()

    main = threading.current_thread() is threading.main_thread()
    if not main or signal.getsignal(signal.SIGINT) is not signal.default_int_handler:
        yield pressed.is_set
        return
    signal.signal(signal.SIGINT, remember)
    try:
        yield pressed.is_set
    finally:
        signal.signal(signal.SIGINT, signal.default_int_handler)
