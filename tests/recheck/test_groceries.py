"""The recheck of a list: each promise broken in one place is found."""

from __future__ import annotations

from typing import Any

import pytest

from mealopt.documents.plan import Plan
from mealopt.plans.groceries.shop import with_groceries
from mealopt.recheck.check import recheck_plan
from tests.plans.shelves import MENU, Eaten, plan_of

DAYS = {
    "mon": [Eaten([("rice, white", 280), ("carrot, raw", 61), ("salt", 1.0)])],
    "tue": [Eaten([("carrot, boiled", 156), ("jelly sweets", 60)], slot="during")],
    "wed": [Eaten([("lentils", 290)], cooked_on="tue"), Eaten([("apple", 182)], eaten=True)],
}


def said(plan: Plan) -> list[str]:
    return [words for words in recheck_plan(plan, MENU.pantry.composition, MENU.pantry) if "groceries" in words]


def changed(named: str, **values: Any) -> Plan:
    plan = with_groceries(plan_of(DAYS, people_at_table=2), MENU)
    lines = [line.model_copy(update=values) if named in line.foods else line for line in plan.groceries]
    return plan.model_copy(update={"groceries": tuple(lines)})


def test_a_true_list_passes_and_none_is_asked_for() -> None:
    assert said(changed("nothing")) == []
    assert said(plan_of(DAYS)) == []


@pytest.mark.parametrize(
    ("food", "values", "words"),
    [
        ("rice, white", {"need_g": 190.0}, "190 g are said to be needed, 200.0 g are"),
        ("rice, white", {"need_g": 210.0}, "210 g are said to be needed"),
        ("rice, white", {"buy_g": 900.0}, "1 packs of 1000 g are not 900 g"),
        ("rice, white", {"packs": 2, "buy_g": 2000.0, "left_g": 1800.0}, "2 packs are more than"),
        ("rice, white", {"packs": 0, "buy_g": 0.0, "left_g": 0.0}, "0 g are bought or at home, 200.0 g are needed"),
        ("rice, white", {"pack_g": 0.0, "buy_g": 50.0, "packs": 0, "left_g": 0.0}, "50 g are bought or at home"),
        ("rice, white", {"left_g": 10.0}, "10 g are said to be left, 800.0 g are"),
        ("rice, white", {"days": ("tue",)}, "it is needed on mon"),
        ("lentils", {"days": ("wed",)}, "it is needed on tue"),
        ("rice, white", {"aisle": "fish"}, "does not stand in the aisle fish"),
        ("rice, white", {"staple": True}, "in every kitchen, and bought"),
        ("rice, white", {"foods": ("rice, white", "apple")}, "apple is listed, and nobody eats it"),
        ("rice, white", {"foods": ("rice, white", "carrot, raw")}, "carrot, raw stands in 2 lists"),
        ("carrot, boiled", {"shares": "apple", "packs": 0, "buy_g": 0.0}, "shares the packs of apple, which hold none"),
        ("carrot, boiled", {"shares": ""}, "5 packs are more than"),
        ("carrot, raw", {"foods": ("carrot, boiled",), "food": "carrot, boiled"}, "carrot, raw is eaten, and nothing"),
    ],
)
def test_each_broken_promise_is_found(food: str, values: dict[str, Any], words: str) -> None:
    assert any(words in sentence for sentence in said(changed(food, **values))), said(changed(food, **values))


def test_foods_that_are_not_one_thing_are_found() -> None:
    plan = with_groceries(plan_of({"mon": [Eaten([("apple", 182), ("pear", 178)])]}), MENU)
    apple, pear = plan.groceries
    both = {"foods": ("apple", "pear"), "need_g": apple.need_g + pear.need_g, "packs": 2, "buy_g": 2 * apple.pack_g}
    one = apple.model_copy(update=both | {"left_g": 5.9})
    assert any("are not one thing to buy" in words for words in said(plan.model_copy(update={"groceries": (one,)})))
