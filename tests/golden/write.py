"""The rows of a small made-up day as text, one file a family, one line a coefficient.

    python -m tests.golden.write            # from the project's folder: writes the files anew

Run it when a family changes on purpose, and read the difference: each changed coefficient, bound or charge is a line.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from mealopt.milp.model import Row
from mealopt.rules.problem import Problem
from mealopt.rules.registry import Family, families
from mealopt.rules.weekly.pose import WEEK, pose_within
from mealopt.rules.weekly.registry import WeekFamily, WeekWishes, week_families
from tests.rules.small_day import small_day
from tests.rules.weekly.small_plates import small_plates

HERE = Path(__file__).parent


def file_of(entry: Family) -> Path:
    """Where the golden rows of a family stand."""
    return HERE / f"{re.sub('[^a-z]+', '_', entry.name)}.txt"


def labels(problem: Problem) -> dict[int, str]:
    """Words for each column: meal, dish, part, food. A column that a family adds has none."""
    words: dict[int, str] = {}
    for serving in problem.all_servings:
        where = f"{serving.slot.index} {serving.plate.dish.id}"
        words[serving.served] = f"served {where}"
        for part in serving.parts:
            for food in part.foods:
                words.setdefault(food.used, f"used   {where} {part.part.role} {food.choice.name}")
                if food.more is not None:
                    words[food.more] = f"steps  {where} {part.part.role} {food.choice.name}"
    return words | {column: f"sum    {slot} {key}" for (slot, key), column in problem.sums.items()}


def golden(entry: Family) -> str:
    """The family's rows, the columns that it adds and what it charges, for the small day."""
    problem = small_day()
    words = labels(problem)
    before = problem.model.columns
    rows = list(entry.rows(problem))
    model = problem.model
    for number, column in enumerate(range(before, model.columns), start=1):
        words[column] = f"own    {number} ({_number(model.least[column])} to {_number(model.most[column])})"
    kind = "term of the penalty" if entry.is_term else "family, may be eased" if entry.relaxable else "family"
    lines = [f"{entry.name} ({kind}): {len(rows)} rows, {model.columns - before} columns of its own", ""]
    for row in rows:
        lines += [*_row(row, words), ""]
    lines += [f"charge {_number(cost):>9} a unit of {words[column]}" for column, cost in enumerate(model.cost) if cost]
    return "\n".join(lines).rstrip("\n") + "\n"


def week_file_of(entry: WeekFamily) -> Path:
    """Where the golden rows of a family of the week stand."""
    return HERE / f"week_{re.sub('[^a-z]+', '_', entry.name)}.txt"


#: What the week of the golden rows asks for; its other days bring nothing.
WISHES = WeekWishes(
    references={"fibre_g": 30.0}, use_up={"cabbage": 400.0}, bought={"cabbage, boiled": 1.5}, plants_least=9
)


def week_golden(entry: WeekFamily) -> str:
    """The rows that a family of the week adds to a small day, and what it charges."""
    problem = small_plates()
    words = labels(problem)
    before = problem.model.columns
    pose_within(problem, list(entry.make(WISHES)), [])
    model = problem.model
    for number, column in enumerate(range(before, model.columns), start=1):
        words[column] = f"own    {number} ({_number(model.least[column])} to {_number(model.most[column])})"
    lines = [f"{entry.name} (family of the week): {len(model.rows)} rows, {model.columns - before} columns", ""]
    for row in model.rows:
        lines += [*_row(row, words), ""]
    lines += [f"charge {_number(cost):>9} a unit of {words[column]}" for column, cost in problem.costs.get(WEEK, ())]
    return "\n".join(lines).rstrip("\n") + "\n"


def _row(row: Row, words: dict[int, str]) -> Iterator[str]:
    eased = f", eased by {_number(row.scale)}" if row.relaxable else ""
    yield f"{row.name}: {_number(row.least)} to {_number(row.most)} {row.unit}{eased}".rstrip()
    if row.says:
        yield f'    "{row.says}"'
    for column, coefficient in row.terms:
        yield f"    {_number(coefficient):>9}  {words[column]}"


def _number(value: float | None) -> str:
    return "any" if value is None else f"{value:.6g}"


def main() -> None:
    """Write all files anew; those of families that are gone are removed."""
    kept = set()
    for entry in families():
        path = file_of(entry)
        path.write_text(golden(entry), encoding="utf-8")
        kept.add(path)
    for week in week_families():
        week_file_of(week).write_text(week_golden(week), encoding="utf-8")
        kept.add(week_file_of(week))
    for path in HERE.glob("*.txt"):
        if path not in kept:
            path.unlink()


if __name__ == "__main__":
    main()
