"""The engines' own greetings and logs never reach standard output: results alone belong there."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]

SETUP = """
from mealopt.milp import cbc
from mealopt.milp.highs import Highs
from mealopt.milp.model import Model, Row
model = Model(rows=[Row("r", ((0, 2.0), (1, 1.0)), least=3.0)])
model.column(0, 9, whole=True, cost=1.0)
model.column(0, 9, whole=True, cost=0.7)
"""


@pytest.mark.parametrize(
    ("end", "said"),
    [
        ("", ""),
        ("engine = Highs(model); engine.relax(); engine.solve(); Highs(model).solve()", ""),
        ("cbc.relax(model); cbc.solve(model)", ""),
        ("print('a result'); Highs(model).solve(); print('another')", "a result\nanother\n"),
        ("import highspy; highspy.Highs().run()", None),
    ],
)
def test_standard_output(end: str, said: str | None) -> None:
    """The last one shows that the engine speaks when it is not silenced, so that the others can fail."""
    done = subprocess.run([sys.executable, "-c", SETUP + end], cwd=ROOT, capture_output=True, text=True, check=True)
    if said is None:
        assert done.stdout
    else:
        assert done.stdout == said
