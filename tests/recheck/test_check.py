"""The whole recheck: a plan that holds, what is said of one that does not, and files from anywhere."""

from __future__ import annotations

from typing import Any

import pytest

from mealopt.documents.plan import Plan
from mealopt.documents.reading import plan_to_text
from mealopt.errors import BadInput, BrokenPlan
from mealopt.recheck.check import assert_plan, recheck_text


def test_the_day_made_by_hand_holds(bench: Any) -> None:
    data = bench.data()
    assert bench.broken(data) == []
    assert bench.broken(data, with_pantry=False) == []
    assert_plan(Plan.model_validate(data), bench.composition, bench.pantry)


def test_a_broken_plan_raises_with_every_broken_promise(bench: Any) -> None:
    data = bench.data()
    data["days"][0]["meals"][1]["totals"]["protein_g"] += 5
    data["days"][0]["meals"][4]["items"][0]["as_bought_g"] += 50
    with pytest.raises(BrokenPlan) as caught:
        assert_plan(Plan.model_validate(data), bench.composition, bench.pantry)
    assert "protein" in str(caught.value)
    assert "salmon" in str(caught.value)


def test_a_plan_of_another_table_is_told_so(bench: Any) -> None:
    data = bench.data()
    data["table"] = {"name": "another", "sha256": "0" * 64}
    broken = bench.broken(data)
    assert len(broken) == 2
    assert all("another table" in says or "the table another" in says for says in broken)


def test_a_text_from_anywhere_is_rechecked(bench: Any) -> None:
    data = bench.data()
    assert recheck_text(plan_to_text(Plan.model_validate(data)), "a file") == []
    data["days"][0]["meals"][0]["items"][0]["grams"] += 30
    assert any("meal 1" in says for says in recheck_text(plan_to_text(Plan.model_validate(data)), "a file"))
    with pytest.raises(BadInput, match="a file"):
        recheck_text("{", "a file")


@pytest.mark.parametrize(
    "case",
    [{}, {"athlete": 3}, {"athlete": {"mass_kg": "heavy"}},
     {"athlete": {"mass_kg": 60}, "session": [{"day": "tomorrow"}]},
     {"athlete": {"mass_kg": 60}, "kitchen": {"wake": "late"}}],
)  # fmt: skip
def test_a_case_that_cannot_be_read_is_said_and_ends_nothing(bench: Any, case: dict[str, Any]) -> None:
    data = bench.data()
    data["case"] = case
    data["days"][0]["meals"][1]["totals"]["protein_g"] += 5
    broken = bench.broken(data)
    assert "case in the plan cannot be read" in broken[0]
    assert any("protein" in says for says in broken)


def test_a_weekly_check_that_contradicts_its_numbers(bench: Any) -> None:
    data = bench.data()
    data["week"] = {"checks": [{"rule": "oily fish", "least": 1, "value": 0, "most": None, "met": False}]}
    assert bench.broken(data) == []
    data["week"]["checks"][0]["met"] = True
    assert any("oily fish" in says for says in bench.broken(data))
    data["week"]["checks"][0] |= {"least": None, "most": 2, "value": 3}
    assert any("oily fish" in says for says in bench.broken(data))
