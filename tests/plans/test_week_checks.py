"""What is told beside the week's rules, with its number counted again from the foods."""

from __future__ import annotations

import pytest

from mealopt.documents.plan import PlanDay
from mealopt.plans.week.checks import sodium_check


def day(sodium_mg: float) -> PlanDay:
    return PlanDay.model_construct(day="mon", meals=(), totals={"sodium_mg": sodium_mg}, coverage={})


@pytest.mark.parametrize(("days", "mean", "met"), [((2400, 2000), 2200, True), ((2400, 2300), 2350, False)])
def test_the_mean_of_sodium_stands_beside_what_adults_are_advised(
    days: tuple[float, ...], mean: float, met: bool
) -> None:
    """2,300 mg a day: chronic disease risk reduction intake, Dietary Reference Intakes 2019 (shared reference, from
    memory)."""
    check = sodium_check([day(found) for found in days])
    assert (check.most, check.value, check.met) == (2300.0, mean, met)
    assert bool(check.says) != met
    assert met or "doctor or registered dietitian" in check.says
