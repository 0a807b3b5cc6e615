"""Cases and the numbers that follow from them."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from mealopt.core.clock import DAYS
from mealopt.errors import BadInput

if TYPE_CHECKING:
    from mealopt.people.case import Case
    from mealopt.targets.model import DayTargets, WeekTargets


def example_case_path() -> Path:
    """The case file that ships with the program."""
    package = Path(__file__).resolve().parents[1]
    for folder in (package / "examples", package.parent / "examples"):
        if (folder / "heavy.toml").is_file():
            return folder / "heavy.toml"
    raise BadInput("the example that ships with the program is missing: install it again, or name a case file")


def read_case(path: str | Path | None = None) -> Case:
    """The case in a file; None: the example that ships with the program. Raises BadInput."""
    from mealopt.people.reading import read_case as read

    return read(example_case_path() if path is None else Path(path))


def case_notes(case: Case) -> list[str]:
    """What a reader of the case should hear though nothing is refused."""
    from mealopt.people.notes import case_notes as notes

    return notes(case)


def week_targets(case: Case) -> WeekTargets:
    """The week's numbers, with how each came about. Raises Refused, BadInput."""
    from mealopt.targets.day import week_targets as targets

    return targets(case)


def day_targets(case: Case, day: str) -> DayTargets:
    """One day's numbers. Raises Refused, BadInput."""
    from mealopt.targets.day import day_targets as targets

    return targets(case, day)


def heaviest_day(case: Case) -> str:
    """The day with the most endurance energy; with none, the one with the most hours, then the first."""
    targets = week_targets(case).days

    def weight(day: str) -> tuple[float, int, int]:
        sessions = targets[day].sessions
        energy = sum(entry.net_kcal for entry in sessions if entry.session.endurance)
        return energy, sum(entry.session.minutes for entry in sessions), -DAYS.index(day)

    return max(DAYS, key=weight)
