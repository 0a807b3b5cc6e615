"""The list after a change of plan: what to buy on top, and what was bought in vain."""

from __future__ import annotations

import pytest

from mealopt.errors import BadInput
from mealopt.plans.groceries.after import shop_after
from tests.plans.shelves import MENU, Eaten, plan_of

BEFORE = {
    "mon": [Eaten([("rice, white", 280), ("salmon", 156)])],
    "wed": [Eaten([("cod", 156), ("potato, boiled", 300)])],
}


def test_another_dish_is_bought_and_the_first_was_in_vain() -> None:
    """Cod keeps 2 days: bought on Sunday and not eaten, it is gone; potatoes keep."""
    after = {
        "mon": [Eaten([("rice, white", 280), ("salmon", 156)], eaten=True)],
        "wed": [Eaten([("lentils", 290), ("rice, white", 560)])],
    }
    change = shop_after(plan_of(BEFORE), plan_of(after), MENU)
    assert [line.food for line in change.now.bought] == ["lentils"]
    assert {one.food: (one.grams, one.keeps) for one in change.in_vain} == {
        "cod": (pytest.approx(200.0), False),
        "potato, boiled": (pytest.approx(412.3, abs=0.2), True),
    }


def test_more_of_what_was_bought_comes_from_the_open_pack_first() -> None:
    """100 g of dry rice of the bag of 1 kg were planned; now it is 400 g on Wednesday: no second bag."""
    after = BEFORE | {"wed": [*BEFORE["wed"], Eaten([("rice, white", 1120)])]}
    assert shop_after(plan_of(BEFORE), plan_of(after), MENU).now.bought == ()
    much = BEFORE | {"wed": [*BEFORE["wed"], Eaten([("rice, white", 2800)])]}
    (rice,) = shop_after(plan_of(BEFORE), plan_of(much), MENU).now.bought
    assert (rice.food, rice.packs) == ("rice, white", 1)


def test_what_was_eaten_out_of_the_plan_is_missing_from_the_cupboard() -> None:
    """The day's rice was eaten twice over: the bag holds 800 g, and 900 g are still planned."""
    before = {"mon": [Eaten([("rice, white", 280)])], "tue": [Eaten([("rice, white", 2520)])]}
    after = {"mon": [Eaten([("rice, white", 560)], eaten=True)], "tue": [Eaten([("rice, white", 2520)])]}
    (rice,) = shop_after(plan_of(before), plan_of(after), MENU).now.bought
    assert rice.at_home_g == pytest.approx(800.0)


def test_what_was_at_home_and_not_planned_is_still_there() -> None:
    after = BEFORE | {"wed": [Eaten([("honey", 21)])]}
    assert shop_after(plan_of(BEFORE), plan_of(after), MENU, {"honey": 100}).now.bought == ()


def test_plans_of_other_days_are_refused() -> None:
    with pytest.raises(BadInput, match="begin on different days"):
        shop_after(plan_of(BEFORE), plan_of({"tue": [Eaten([("apple", 182)])]}), MENU)
