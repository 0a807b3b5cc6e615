"""Work counted in seconds of this thread's processor: what else the machine does changes no search and no answer."""

from __future__ import annotations

import time
from collections.abc import Callable

#: A second of work takes at most so many by the clock: a busy machine is waited for, a stuck one is not.
SLOWEST = 5.0


def spent() -> float:
    """Seconds that this thread has worked, from any start."""
    return time.thread_time()


def after(seconds: float) -> Callable[[], bool]:
    """A question that is answered by True once this thread has worked so many seconds from now, or the clock shows
    `SLOWEST` times as many."""
    end, late = spent() + seconds, time.perf_counter() + SLOWEST * seconds
    return lambda: spent() >= end or time.perf_counter() >= late
