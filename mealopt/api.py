"""The one public door: what a command, a page or a script asks of the program.

Importing this loads neither solver nor table; each function loads what it needs when it is called.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from mealopt.core.clock import DAYS
from mealopt.errors import BadInput

if TYPE_CHECKING:
    import pandas as pd

    # Under their own names, so that a command or a page can annotate with what this door hands out.
    from mealopt.documents.parts import TargetBand as TargetBand
    from mealopt.documents.plan import Item as Item
    from mealopt.documents.plan import Meal as Meal
    from mealopt.documents.plan import Plan as Plan
    from mealopt.documents.plan import PlanDay as PlanDay
    from mealopt.documents.plan import SessionEntry as SessionEntry
    from mealopt.documents.plan import Solve as Solve
    from mealopt.menu.dishes import Component as Component
    from mealopt.menu.dishes import Dish as Dish
    from mealopt.menu.dishes import Menu as Menu
    from mealopt.people.case import Case as Case
    from mealopt.table.composition import CompositionRow as CompositionRow
    from mealopt.table.find import Found as Found
    from mealopt.table.find import Shown as Shown
    from mealopt.table.finding import Finding as Finding
    from mealopt.table.pantry import Food as Food
    from mealopt.targets.model import DayTargets as DayTargets
    from mealopt.targets.model import SessionEnergy as SessionEnergy
    from mealopt.targets.model import Step as Step
    from mealopt.targets.model import WeekTargets as WeekTargets

Progress = Callable[[str], None]


def example_case_path() -> Path:
    """The case file that ships with the program."""
    package = Path(__file__).resolve().parent
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


def plan_day(
    case: Case,
    day: str | None = None,
    *,
    gap: float = 0.01,
    seconds: float = 20.0,
    solver: str = "highs",
    progress: Progress | None = None,
) -> Plan:
    """Plan one day's meals (None: the heaviest day), proven within the gap, and rechecked by separate arithmetic.

    Raises BadInput, Refused; Unplannable with what clashes; OutOfTime; BrokenPlan where the recheck finds a fault of
    ours.
    """
    from mealopt.plans.day.plan import plan_one_day

    return plan_one_day(case, day or heaviest_day(case), gap=gap, seconds=seconds, solver=solver, progress=progress)


def recheck(plan: Plan, folder: str | Path | None = None) -> list[str]:
    """Every promise of a plan that separate arithmetic finds broken, as sentences; empty where all hold.

    folder: that of the case file, beside which the file of the athlete's own foods lies; without it such foods cannot
    be checked, which is said. Raises BadInput, Refused where that file cannot be used.
    """
    from mealopt.plans.own import own_table, plan_menu
    from mealopt.recheck.check import recheck_plan
    from mealopt.table.composition import shipped_composition

    menu = plan_menu(plan, None if folder is None else Path(folder))
    return recheck_plan(plan, shipped_composition(), menu.pantry, own_table(menu))


def read_plan(path: str | Path) -> Plan:
    """The plan document in a file. Raises BadInput."""
    from mealopt.documents.reading import plan_from_text
    from mealopt.files import read_text

    return plan_from_text(read_text(Path(path)), str(path))


def plan_text(plan: Plan) -> str:
    """The plan document as JSON text."""
    from mealopt.documents.reading import plan_to_text

    return plan_to_text(plan)


def write_text(path: str | Path, text: str) -> None:
    """Write a file aside and rename it, so that it is whole or not there. Raises BadInput."""
    from mealopt.files import write_text as write

    write(Path(path), text)


def check_writable(path: str | Path) -> None:
    """Raise BadInput where a file could not be written there, before any long work."""
    from mealopt.files import check_writable as check

    check(Path(path))


def _menu(own: str | Path | None) -> Menu:
    """The shipped menu, with what a file of a person's own foods and dishes adds. Raises BadInput, Refused."""
    from mealopt.menu.dishes import shipped_menu
    from mealopt.menu.own import read_own

    return shipped_menu() if own is None else read_own(Path(own))


def find_foods(words: str, own: str | Path | None = None) -> list[Found]:
    """Foods whose names hold all the words: the pantry's first, then the table's, best first.

    own: a file with foods and dishes of one's own, here and below; BadInput and Refused are raised where it is wrong.
    """
    from mealopt.table.find import find_foods as find

    return find(words, None if own is None else _menu(own).pantry)


def show_food(name: str, own: str | Path | None = None) -> Shown:
    """All that is known of a food, by its pantry name or the number of its row. Raises BadInput."""
    from mealopt.table.find import show_food as show

    return show(name, None if own is None else _menu(own).pantry)


def find_dishes(words: str, own: str | Path | None = None) -> list[Dish]:
    """Dishes whose id, name, kind or kitchen hold all the words."""
    from mealopt.menu.find import find_dishes as find

    return find(words, _menu(own))


def show_dish(dish_id: str, own: str | Path | None = None) -> Dish | None:
    """A dish by its id; None where there is none."""
    return _menu(own).dishes.get(dish_id)


def check_foods(own: str | Path | None = None) -> list[Finding]:
    """What the checks of food-composition practice find in table and pantry, and facts of one's own foods."""
    from mealopt.menu.own import menu_findings, read_own
    from mealopt.table.checks import check_foods as check

    return check() if own is None else [*menu_findings(read_own(Path(own))), *check()]


def composition_frame() -> pd.DataFrame:
    """The food-composition table as a pandas frame: a row a food, nutrients per 100 g, NaN where it is blank."""
    from mealopt.table.frame import composition_frame as frame

    return frame()


def import_foods(folder: str | Path, out: str | Path) -> int:
    """Make the table from the two published files in a folder; the number of its rows. Raises BadInput."""
    from mealopt.files import write_bytes
    from mealopt.table.importer import import_release

    content = import_release(Path(folder))
    write_bytes(Path(out), content)
    return content.count(b"\n") - 1


def plan_schema() -> dict[str, Any]:
    """The JSON Schema of the plan document."""
    from mealopt.documents.schema import plan_schema as schema

    return schema()
