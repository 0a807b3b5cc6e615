"""The week's rows in a posed day: what the other days leave to do, or a price for each unit that the day brings."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence

from mealopt.milp.model import Row, Term
from mealopt.rules.problem import Problem
from mealopt.rules.weekly.registry import WeekRow
from mealopt.rules.weekly.shares import Shares, lacking, summed

#: A day aims this much above a least of the week: what is a hair short costs next to nothing, and would stay short.
MARGIN = 1.02

#: The term under which a day is charged for what the week then lacks.
WEEK = "the week's rules"


def pose_within(problem: Problem, rows: Iterable[WeekRow], others: Sequence[Shares]) -> float:
    """Add to the day what the week lacks, given its other days: rows, and charges under the term `WEEK`.

    Returns the points that the week is charged whatever this day does, for which there is no column.
    """
    elsewhere = 0.0
    for row in rows:
        if row.charge > 0:
            posed = list(_within(problem, row, others))
            problem.model.rows.extend(posed)
            if not posed:
                elsewhere += row.charge * lacking(row, others)
    return elsewhere


def _within(problem: Problem, row: WeekRow, others: Sequence[Shares]) -> Iterator[Row]:
    rest = summed(row, others)
    if row.form == "times":
        most = row.most or 0.0
        for word, served in servings_of(problem, row).items():
            over = problem.cost_column(WEEK, row.charge)
            yield Row(f"week_{row.name}_{word}", (*served, (over, -1.0)), most=max(0.0, most - rest[word]))
    elif row.form == "kinds":
        need = (row.least or 0.0) - len(rest)
        kinds = {word: used for word, used in kinds_of(problem, row).items() if word not in rest}
        if need > 0:
            yield from _covering(problem, row, kinds, need)
    elif row.form == "days":
        need = (row.least or 0.0) - rest[""]
        terms = amounts(problem, row)
        if need > 0 and terms:
            here = problem.model.column(0.0, 1.0, whole=True)
            yield Row(f"week_{row.name}_portion", (*terms, (here, -row.portion)), least=0.0)
            short = problem.cost_column(WEEK, row.charge)
            yield Row(f"week_{row.name}", ((here, 1.0), (short, 1.0)), least=need)
    else:
        yield from _sum(problem, row, rest[""])


def _sum(problem: Problem, row: WeekRow, rest: float) -> Iterator[Row]:
    terms = tuple(amounts(problem, row))
    if row.least is not None and terms and (rest < row.least or not row.adds):
        short = problem.cost_column(WEEK, row.charge)
        yield Row(f"week_{row.name}_least", (*terms, (short, 1.0)), least=MARGIN * row.least - rest)
    if row.most is not None and terms:
        over = problem.cost_column(WEEK, row.charge)
        yield Row(f"week_{row.name}_most", (*terms, (over, -1.0)), most=row.most - rest)


def _covering(problem: Problem, row: WeekRow, kinds: Mapping[str, list[int]], need: float) -> Iterator[Row]:
    columns = []
    for word, used in sorted(kinds.items()):
        here = problem.model.column(0.0, 1.0)
        columns.append((here, 1.0))
        yield Row(f"week_{row.name}_{word}", ((here, 1.0), *((column, -1.0) for column in used)), most=0.0)
    short = problem.cost_column(WEEK, row.charge)
    yield Row(f"week_{row.name}", (*columns, (short, 1.0)), least=need)


def pose_prices(problem: Problem, rows: Iterable[WeekRow], prices: Mapping[str, float]) -> None:
    """Credit the day with a price for each unit that it brings to a row (below nought: charge it).

    The day's least cost with these prices, added over the days to price x least of each row, is a bound of the week.
    Rows of the form "times" have no price.
    """
    for row in rows:
        price = prices.get(row.name, 0.0)
        if not price or row.form == "times":
            continue
        if row.form == "kinds":
            for word, used in sorted(kinds_of(problem, row).items()):
                here = problem.model.column(0.0, 1.0, cost=-price)
                terms = ((here, 1.0), *((column, -1.0) for column in used))
                problem.model.rows.append(Row(f"week_{row.name}_{word}", terms, most=0.0))
        elif row.form == "days":
            here = problem.model.column(0.0, 1.0, whole=True, cost=-price)
            terms = (*amounts(problem, row), (here, -row.portion))
            problem.model.rows.append(Row(f"week_{row.name}_portion", terms, least=0.0))
        else:
            for column, amount in amounts(problem, row):
                problem.model.cost[column] -= price * amount


def amounts(problem: Problem, row: WeekRow) -> list[Term]:
    """Terms whose sum is what the day's foods count toward a row of the form "sum" or "days"."""
    assert row.per_gram is not None
    return [term for food in problem.foods() if (each := row.per_gram(food.choice)) for term in food.amounts(each)]


def kinds_of(problem: Problem, row: WeekRow) -> dict[str, list[int]]:
    """Word -> columns of the foods that count as it."""
    assert row.kind is not None
    found: dict[str, list[int]] = defaultdict(list)
    for food in problem.foods():
        word = row.kind(food.choice)
        if word is not None:
            found[word].append(food.used)
    return found


def servings_of(problem: Problem, row: WeekRow) -> dict[str, list[Term]]:
    """Word -> terms of the meals that count as it."""
    assert row.meal is not None
    found: dict[str, list[Term]] = defaultdict(list)
    for serving in problem.all_servings:
        word = row.meal(serving.slot.kind, serving.plate.dish.id)
        if word is not None:
            found[word].append((serving.served, 1.0))
    return found
