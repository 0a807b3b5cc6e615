"""One bowl of soup a day."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.milp.model import Row
from mealopt.rules import weights
from mealopt.rules.problem import Problem
from mealopt.rules.registry import term

NAME = "soup again"

#: Kinds of dish that are a bowl of soup to who eats them.
BOWLS = frozenset({"soup", "noodle soup", "congee"})


@term(NAME, unit="bowls")
def soups(problem: Problem) -> Iterator[Row]:
    """Charge each bowl of soup beyond the first (shape: one row)."""
    bowls = [serving.served for serving in problem.all_servings if serving.plate.dish.kind in BOWLS]
    if bowls:
        yield problem.charged_beyond(NAME, weights.SOUP, "soup_again", ((column, 1.0) for column in bowls), 1.0)
