"""The processes that solve the days of a week side by side, one a core, each started anew and free of the caller's.

They are programs of their own (not forks), so a page with threads, a script without a main guard and every system may
plan a week; Ctrl-C reaches this process alone.
"""

from __future__ import annotations

import contextlib
import os
import pickle
import queue
import subprocess
import sys
import threading
from collections import deque
from types import TracebackType
from typing import Any

from mealopt import errors
from mealopt.plans.week.job import Ask, DayAnswer, Stop, WeekTask

#: Processes at most, and the cores that are counted on where the system does not say.
PROCESSES, UNKNOWN = 2, 1


def cores() -> int:
    """How many processes a week is planned in, where nobody says."""
    return min(PROCESSES, os.cpu_count() or UNKNOWN)


def error_of(kind: str, message: str, clashes: tuple[str, ...], remedies: tuple[str, ...]) -> errors.MealoptError:
    """An error of the tree, as another process described it."""
    found = getattr(errors, kind, errors.MealoptError)
    if found is errors.Unplannable:
        return errors.Unplannable(message, tuple(clashes), tuple(remedies))
    return found(message)


class _Process:
    """One process, and a thread that waits for its answers."""

    def __init__(self, task: WeekTask, answers: queue.SimpleQueue[tuple[_Process, str, Any]]) -> None:
        self._process = subprocess.Popen(
            [sys.executable, "-m", "mealopt.plans.week.worker"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            env={**os.environ, "PYTHONPATH": os.pathsep.join(part for part in sys.path if part)},
            start_new_session=True,
        )
        self._answers = answers
        self.ask: Ask | None = None
        self.days: set[str] = set()
        self._send(task)
        threading.Thread(target=self._listen, daemon=True).start()

    def _send(self, message: object) -> None:
        assert self._process.stdin is not None
        with contextlib.suppress(OSError):
            pickle.dump(message, self._process.stdin)
            self._process.stdin.flush()

    def give(self, ask: Ask) -> None:
        """Ask; the answer comes by the queue."""
        self.ask = ask
        self.days.add(ask.day)
        self._send(ask)

    def _listen(self) -> None:
        assert self._process.stdout is not None
        try:
            while True:
                kind, what = pickle.load(self._process.stdout)
                self._answers.put((self, kind, what))
        except (EOFError, OSError, ValueError, pickle.UnpicklingError):
            self._answers.put((self, "ended", f"exit code {self._process.poll()}"))

    def end(self) -> None:
        """End it at once."""
        self._process.kill()
        self._process.wait()
        for pipe in (self._process.stdin, self._process.stdout):
            if pipe is not None:
                with contextlib.suppress(OSError):
                    pipe.close()


class Crew:
    """Asks questions in as many processes as are allowed; with one, in this process itself."""

    def __init__(self, task: WeekTask, processes: int, stop: Stop | None = None) -> None:
        self._stop = stop
        self._waiting: deque[Ask] = deque()
        self._answers: queue.SimpleQueue[tuple[_Process, str, Any]] = queue.SimpleQueue()
        self._processes = [_Process(task, self._answers) for _ in range(processes)] if processes > 1 else []
        self._task = task
        self._here: Any = None

    @property
    def size(self) -> int:
        """How many questions are answered side by side."""
        return max(1, len(self._processes))

    @property
    def open(self) -> int:
        """Questions that are asked and not answered."""
        return len(self._waiting) + sum(process.ask is not None for process in self._processes)

    @property
    def asked(self) -> list[Ask]:
        """The questions that are being answered now, and those that wait."""
        return [*(process.ask for process in self._processes if process.ask is not None), *self._waiting]

    def ask(self, ask: Ask) -> None:
        """Ask a question; its answer comes by `next`."""
        self._waiting.append(ask)
        self._hand_out()

    def forget(self) -> None:
        """Drop the questions that nobody has begun."""
        self._waiting.clear()

    def _hand_out(self) -> None:
        for process in self._processes:
            if process.ask is None and self._waiting:
                # A process that knows the day already need not pose it again.
                known = next((ask for ask in self._waiting if ask.day in process.days), self._waiting[0])
                self._waiting.remove(known)
                process.give(known)

    def next(self, seconds: float) -> DayAnswer | None:
        """The next answer; None where none came in so many seconds. Raises what the day's question raised."""
        if not self._processes:
            return self._answer_here()
        try:
            process, kind, what = self._answers.get(timeout=max(0.0, seconds))
        except queue.Empty:
            return None
        process.ask = None
        if kind == "refused":
            raise error_of(*what)
        if kind != "answer":
            raise RuntimeError(f"a process that plans days has failed: {what}")
        self._hand_out()
        answer: DayAnswer = what
        return answer

    def _answer_here(self) -> DayAnswer | None:
        if not self._waiting:
            return None
        if self._here is None:
            from mealopt.plans.week.day import Days

            self._here = Days(self._task)
        answer: DayAnswer = self._here.answer(self._waiting.popleft(), self._stop)
        return answer

    def __enter__(self) -> Crew:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        for process in self._processes:
            process.end()
