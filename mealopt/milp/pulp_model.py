"""The model as PuLP builds it: columns and rows named by integers, expressions from (variable, coefficient) pairs.

PuLP knows one-sided rows only, so a row with two sides becomes two of its constraints.
"""

from __future__ import annotations

from dataclasses import dataclass

import pulp

from mealopt.milp.model import Model


@dataclass(frozen=True, slots=True)
class Built:
    """A PuLP problem with its variables by column number, and each constraint's row number."""

    problem: pulp.LpProblem
    variables: list[pulp.LpVariable]
    row_of: list[int]


def build(model: Model) -> Built:
    """The same program as a pulp.LpProblem."""
    problem = pulp.LpProblem("p", pulp.LpMaximize if model.maximise else pulp.LpMinimize)
    variables = [
        problem.add_variable(f"c{number:07d}", least, most, pulp.LpInteger if whole else pulp.LpContinuous)
        for number, (least, most, whole) in enumerate(zip(model.least, model.most, model.whole, strict=True))
    ]
    # Every column stands in the objective, at no cost too, so that one in no row is known as well; and PuLP sorts by
    # name, so the names are padded to keep the columns' own order.
    problem.setObjective(pulp.LpAffineExpression(list(zip(variables, model.cost, strict=True)), name="penalty"))
    row_of: list[int] = []
    for number, row in enumerate(model.rows):
        pairs: dict[pulp.LpVariable, float] = {}
        for column, coefficient in row.terms:
            variable = variables[column]
            pairs[variable] = pairs.get(variable, 0.0) + coefficient
        sides: list[tuple[int, float]] = []
        if row.least is not None and row.least == row.most:
            sides.append((pulp.LpConstraintEQ, row.least))
        else:
            if row.least is not None:
                sides.append((pulp.LpConstraintGE, row.least))
            if row.most is not None:
                sides.append((pulp.LpConstraintLE, row.most))
        for sense, limit in sides:
            expression = pulp.LpAffineExpression(pairs)
            constraint = pulp.LpConstraint(expression, sense, rhs=limit)
            problem.addConstraint(constraint, f"r{len(row_of)}")
            row_of.append(number)
    return Built(problem, variables, row_of)
