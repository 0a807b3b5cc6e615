"""One tree of exceptions. A person never sees a traceback for something that they can mend."""

from __future__ import annotations


class MealoptError(Exception):
    """The root: everything that the program raises on purpose. exit_code is what the command ends with."""

    exit_code = 1


class BadInput(MealoptError):
    """Something that a person wrote cannot be used: one sentence with where, what was read and what is allowed."""

    exit_code = 2


class Unplannable(MealoptError):
    """No plan meets the targets. clashes: what stands in each other's way; remedies: lines for the case file."""

    exit_code = 3

    def __init__(self, message: str, clashes: tuple[str, ...] = (), remedies: tuple[str, ...] = ()) -> None:
        super().__init__(message)
        self.clashes = clashes
        self.remedies = remedies


class Refused(MealoptError):
    """Safety forbids the goal: the reason, and whom to ask."""

    exit_code = 3


class OutOfTime(MealoptError):
    """The time limit passed without a plan."""

    exit_code = 4


class BrokenPlan(MealoptError):
    """Our own fault: a plan that failed its recheck is never shown."""

    exit_code = 1
