"""A whole week as one program: its linear program gives prices, and on small weeks its optimum checks the search."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from mealopt.milp.model import Model, Row, Term
from mealopt.rules.problem import Problem
from mealopt.rules.weekly.pose import amounts, kinds_of, servings_of
from mealopt.rules.weekly.registry import WeekRow


def joined(problems: Sequence[Problem], rows: Sequence[WeekRow]) -> tuple[Model, list[int]]:
    """One model of all days with the week's rows and charges, and the first column of each day."""
    whole = Model()
    firsts: list[int] = []
    for number, problem in enumerate(problems):
        firsts.append(whole.columns)
        model = problem.model
        for place in range(model.columns):
            whole.column(model.least[place], model.most[place], whole=model.whole[place], cost=model.cost[place])
        whole.rows.extend(_shifted(row, firsts[-1], f"{number}_") for row in model.rows)
    for row in rows:
        if row.charge > 0:
            _week_row(whole, problems, firsts, row)
    return whole, firsts


def _shifted(row: Row, by: int, name: str) -> Row:
    terms = tuple((column + by, coefficient) for column, coefficient in row.terms)
    return Row(f"{name}{row.name}", terms, row.least, row.most)


def _by(terms: Sequence[Term], first: int) -> list[Term]:
    return [(column + first, coefficient) for column, coefficient in terms]


def _week_row(whole: Model, problems: Sequence[Problem], firsts: Sequence[int], row: WeekRow) -> None:
    pairs = list(zip(problems, firsts, strict=True))
    if row.form == "times":
        words: dict[str, list[Term]] = defaultdict(list)
        for problem, first in pairs:
            for word, terms in servings_of(problem, row).items():
                words[word] += _by(terms, first)
        for word, terms in words.items():
            over = whole.column(cost=row.charge)
            whole.rows.append(Row(f"week_{row.name}_{word}", (*terms, (over, -1.0)), most=row.most))
        return
    total: list[Term] = []
    if row.form == "kinds":
        used: dict[str, list[Term]] = defaultdict(list)
        for problem, first in pairs:
            for word, columns in kinds_of(problem, row).items():
                used[word] += [(column + first, -1.0) for column in columns]
        for word, terms in used.items():
            here = whole.column(0.0, 1.0)
            whole.rows.append(Row(f"week_{row.name}_{word}", ((here, 1.0), *terms), most=0.0))
            total.append((here, 1.0))
    for number, (problem, first) in enumerate(pairs):
        if row.form == "days":
            here = whole.column(0.0, 1.0, whole=True)
            grams = (*_by(amounts(problem, row), first), (here, -row.portion))
            whole.rows.append(Row(f"week_{row.name}_{number}", grams, least=0.0))
            total.append((here, 1.0))
        elif row.form == "sum":
            total += _by(amounts(problem, row), first)
    if row.least is not None:
        short = whole.column(cost=row.charge)
        whole.rows.append(Row(f"week_{row.name}_least", (*total, (short, 1.0)), least=row.least))
    if row.most is not None:
        over = whole.column(cost=row.charge)
        whole.rows.append(Row(f"week_{row.name}_most", (*total, (over, -1.0)), most=row.most))


def prices_of(rows: Sequence[WeekRow], whole: Model, duals: Sequence[float]) -> dict[str, float]:
    """Row's name -> points a unit, by the duals of the whole program's linear program; never beyond the charge.

    Above nought for a least, below for a most; rows of the form "times" have none.
    """
    by_name = {row.name: dual for row, dual in zip(whole.rows, duals, strict=True) if row.name.startswith("week_")}
    prices = {}
    for row in rows:
        if row.charge > 0 and row.form != "times":
            side = "least" if row.least is not None else "most"
            dual = by_name.get(f"week_{row.name}_{side}", 0.0)
            price = min(max(dual, 0.0), row.charge) if side == "least" else max(min(dual, 0.0), -row.charge)
            if abs(price) > 1e-9:
                prices[row.name] = price
    return prices
