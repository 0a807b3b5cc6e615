"""`python -m mealopt.plans.week.worker`: a process that answers questions about the days of one week.

Pickled messages on standard input, a task first and then questions; on standard output one answer for each. It ends
with its input.
"""

from __future__ import annotations

import os
import pickle
import sys
from typing import Any, BinaryIO

from mealopt.errors import MealoptError
from mealopt.plans.week.day import Days


def main() -> None:
    """Answer until the input ends."""
    replies = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    # Whatever an engine prints goes to standard error, never between two answers.
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    _serve(sys.stdin.buffer, replies)


def _serve(asked: BinaryIO, replies: BinaryIO) -> None:
    try:
        days = Days(pickle.load(asked))
        while True:
            _send(replies, _reply(days, pickle.load(asked)))
    except (EOFError, BrokenPipeError):
        return


def _reply(days: Days, ask: Any) -> tuple[str, Any]:
    try:
        return "answer", days.answer(ask)
    except MealoptError as error:
        clashes, remedies = getattr(error, "clashes", ()), getattr(error, "remedies", ())
        return "refused", (type(error).__name__, str(error), clashes, remedies)
    except Exception as error:
        return "fault", f"{type(error).__name__}: {error}"


def _send(replies: BinaryIO, reply: tuple[str, Any]) -> None:
    pickle.dump(reply, replies)
    replies.flush()


if __name__ == "__main__":
    main()
