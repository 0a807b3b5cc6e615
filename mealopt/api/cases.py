"""Cases and the numbers that follow from them."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any, get_args

from mealopt.core.clock import DAYS
from mealopt.errors import BadInput

if TYPE_CHECKING:
    from mealopt.people.case import Case
    from mealopt.targets.model import DayTargets, WeekTargets


def example_case_path(name: str = "heavy") -> Path:
    """The file of a case that ships with the program, the heavy week where no name is given. Raises BadInput."""
    package = Path(__file__).resolve().parents[1]
    for folder in (package / "examples", package.parent / "examples"):
        if (folder / f"{name}.toml").is_file():
            return folder / f"{name}.toml"
    raise BadInput("the example that ships with the program is missing: install it again, or name a case file")


def example_names() -> tuple[str, ...]:
    """The names of all cases that ship with the program, the heavy week first."""
    found = sorted(path.stem for path in example_case_path().parent.glob("*.toml"))
    return tuple(sorted(found, key=lambda name: name != "heavy"))


def read_case(path: str | Path | None = None) -> Case:
    """The case in a file; None: the example that ships with the program. Raises BadInput."""
    from mealopt.people.reading import read_case as read

    return read(example_case_path() if path is None else Path(path))


def case_from_text(text: str, where: str = "") -> Case:
    """The case in TOML text; where: the words for its origin that a refusal begins with. Raises BadInput."""
    from mealopt.people.reading import case_from_text as read

    return read(text, where)


def case_from_data(data: object, where: str = "") -> Case:
    """The case in plain data, as a plan document holds it. Raises BadInput."""
    from mealopt.people.reading import case_from_dict

    return case_from_dict(data, where)


def case_data(case: Case) -> dict[str, Any]:
    """Plain data, JSON types only, that `case_from_data` reads to an equal case; unwritten keys stay unwritten."""
    from mealopt.people.reading import case_to_dict

    return case_to_dict(case)


def case_text(case: Case) -> str:
    """The case as a case file's TOML text, which `read_case` reads to an equal case."""
    from mealopt.people.writing import case_to_text

    return case_to_text(case)


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


def caution_names() -> tuple[str, ...]:
    """Every word that a case may list among its cautions, in the case file's order."""
    from mealopt.people.athlete import Caution

    return get_args(Caution)


def equation_names() -> tuple[str, ...]:
    """Every word that a case may choose its equation for resting energy by."""
    from mealopt.people.goal import RestingEquation

    return get_args(RestingEquation)
