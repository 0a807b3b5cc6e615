"""One day planned; plan documents read, checked and written."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from mealopt.api.cases import heaviest_day
from mealopt.api.progress import Progress, Stop

if TYPE_CHECKING:
    from mealopt.documents.plan import Plan
    from mealopt.people.case import Case


def plan_day(
    case: Case,
    day: str | None = None,
    *,
    gap: float = 0.01,
    seconds: float = 20.0,
    solver: str = "highs",
    progress: Progress | None = None,
    stop: Stop | None = None,
) -> Plan:
    """Plan one day's meals (None: the heaviest day), proven within the gap, and rechecked by separate arithmetic.

    Where it is stopped, the document says so; KeyboardInterrupt where there was no plan yet. Raises BadInput, Refused;
    Unplannable with what clashes; OutOfTime; BrokenPlan where the recheck finds a fault of ours.
    """
    from mealopt.plans.day.plan import plan_one_day

    chosen = day or heaviest_day(case)
    return plan_one_day(case, chosen, gap=gap, seconds=seconds, solver=solver, progress=progress, stop=stop)


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


def read_whole_plan(path: str | Path, folder: str | Path | None = None) -> Plan:
    """The plan document in a file, held against its own table and case: what was changed by hand is refused.

    folder: that of the case file, beside which the file of the athlete's own foods lies; None: that of the plan. Where
    own foods are named and their file is not there, their numbers cannot be checked, and the plan is taken as it is.
    Raises BadInput, Refused.
    """
    from mealopt.api.shopping import own_folder
    from mealopt.plans.held.whole import check_whole

    plan = read_plan(path)
    kitchen = plan.case.get("kitchen")
    beside = Path(folder) if folder is not None else own_folder(plan, Path(path).resolve().parent)
    if beside is not None or not (isinstance(kitchen, dict) and kitchen.get("own_foods")):
        check_whole(plan, beside, str(path))
    return plan


def plan_from_text(text: str, where: str = "") -> Plan:
    """The plan document in JSON text; where: the words for its origin that a refusal begins with. Raises BadInput."""
    from mealopt.documents.reading import plan_from_text as read

    return read(text, where)


def plan_text(plan: Plan) -> str:
    """The plan document as JSON text."""
    from mealopt.documents.reading import plan_to_text

    return plan_to_text(plan)


def plan_schema() -> dict[str, Any]:
    """The JSON Schema of the plan document."""
    from mealopt.documents.schema import plan_schema as schema

    return schema()
