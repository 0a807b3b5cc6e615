"""Long work beside the page: it tells how far it is, can be stopped, and gives one answer."""

from __future__ import annotations

import os
import threading
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from mealopt.errors import MealoptError

if TYPE_CHECKING:
    from mealopt.api import Progress, Stop

#: Plans sought at once on this server: one a core.
_TURNS = threading.Semaphore(max(1, os.cpu_count() or 1))

Task = Callable[["Progress", "Stop"], Any]

STOPPED = "Stopped before there was a first answer; what was there stays."


@dataclass(slots=True)
class Work:
    """One piece of work. what: words for it; key: what it works out; where: the part of the page that it belongs to.

    can_stop: whether it ends with its best so far when it is asked to; short work just ends.
    told: what it has said so far. answer or error is set once it has ended, never both.
    """

    what: str
    key: str
    where: str
    task: Task
    can_stop: bool = True
    told: list[str] = field(default_factory=list)
    answer: Any = None
    error: BaseException | None = None
    _asked: threading.Event = field(default_factory=threading.Event)
    _ended: threading.Event = field(default_factory=threading.Event)

    def start(self) -> Work:
        """Begin, beside the page."""
        threading.Thread(target=self._run, name=f"work: {self.what}", daemon=True).start()
        return self

    def stop(self) -> None:
        """Ask it to end with its best so far."""
        self._asked.set()

    @property
    def stopping(self) -> bool:
        """Whether it was asked to stop."""
        return self._asked.is_set()

    @property
    def ended(self) -> bool:
        """Whether there is an answer or an error."""
        return self._ended.is_set()

    def wait(self, seconds: float) -> bool:
        """Whether it has ended, after at most so long."""
        return self._ended.wait(seconds)

    @property
    def complaint(self) -> str:
        """One sentence on why there is no answer; "" where there is one."""
        if self.error is None:
            return ""
        if isinstance(self.error, KeyboardInterrupt):
            return STOPPED
        if isinstance(self.error, MealoptError):
            return str(self.error)
        return f"This is a fault of the program, not yours ({type(self.error).__name__}: {self.error})"

    def _run(self) -> None:
        try:
            with _TURNS:
                self.answer = self.task(self.told.append, self._asked.is_set)
        except BaseException as error:
            # A thread has nobody above it: whatever happened is told on the page.
            self.error = error
        finally:
            self._ended.set()


def begun(running: Work | None, wanted: Work) -> Work:
    """The work that goes on: what is running already where it works out the same, else the wanted, started.

    What is running and not wanted any more is stopped, and its answer is never looked at.
    """
    if running is not None and not running.ended:
        if running.key == wanted.key and not running.stopping:
            return running
        running.stop()
    return wanted.start()
