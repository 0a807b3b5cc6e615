"""The day's totals within their bands."""

from __future__ import annotations

import pytest

from mealopt.core.bands import Band
from mealopt.core.nutrients import ENERGY, FIBRE, PROTEIN
from tests.rules import tiny

COVERS = "day's bands"
SLOTS = (tiny.slot(0), tiny.slot(1))
PLATES = ((tiny.simple("a", steps=(1, 50)),), (tiny.simple("b", steps=(1, 50)),))


@pytest.mark.parametrize(("second", "ok"), [(90, False), (100, True), (200, True), (210, False)])
def test_least_and_most_of_the_whole_day(second: float, ok: bool) -> None:
    problem = tiny.day(SLOTS, *PLATES, bands={ENERGY: Band(300.0, 350.0, 400.0)})
    assert tiny.holds(problem, COVERS, {0: ("a", {"a": 200}), 1: ("b", {"b": second})}) == ok


def test_each_nutrient_has_its_own_band() -> None:
    bands = {PROTEIN: Band(least=30.0), FIBRE: Band(most=3.5)}
    problem = tiny.day(SLOTS, *PLATES, bands=bands)
    assert tiny.holds(problem, COVERS, {0: ("a", {"a": 200}), 1: ("b", {"b": 100})})
    assert not tiny.holds(problem, COVERS, {0: ("a", {"a": 190}), 1: ("b", {"b": 100})}), "protein"
    assert not tiny.holds(problem, COVERS, {0: ("a", {"a": 260}), 1: ("b", {"b": 100})}), "fibre"


def test_rows_say_what_they_ask_and_may_be_eased() -> None:
    rows = tiny.rows(tiny.day(SLOTS, *PLATES, bands={PROTEIN: Band(152.0, 160.0, 200.0)}), COVERS)
    least, most = rows["protein_g_least"], rows["protein_g_most"]
    assert least.says == "protein: at least 152 g in the day"
    assert most.says == "protein: at most 200 g in the day"
    assert all(row.relaxable and row.key == PROTEIN and row.slot is None and row.unit == "g" for row in (least, most))
    assert least.scale == pytest.approx(1.6), "a hundredth of the aim counts as one"
