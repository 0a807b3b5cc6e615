"""Two shops, what keeps until it is eaten, and what remains."""

from __future__ import annotations

import pytest

from mealopt.core.clock import DAYS
from mealopt.errors import BadInput
from mealopt.plans.groceries.shop import shop_for
from tests.plans.shelves import MENU, Eaten, bought, plan_of

WEEK = {day: [Eaten([("apple", 182)])] for day in DAYS}


def test_food_that_does_not_keep_is_said_and_bought_in_the_second_shop() -> None:
    """Salmon keeps 2 days: bought on Sunday it is good on Monday and Tuesday."""
    week = WEEK | {day: [Eaten([("salmon", 156)])] for day in ("mon", "fri")}
    once = shop_for(plan_of(week), MENU)
    assert any(
        "bought on Sunday: salmon fillets 2 days (needed on Friday, after 5): shop twice" in one
        for one in once.cautions
    )
    twice = shop_for(plan_of(week), MENU, shops=2)
    salmon = {line.shop: line.days for line in twice.lines if line.food == "salmon"}
    assert salmon == {1: ("mon",), 2: ("fri",)}
    assert not any("salmon" in one for one in twice.cautions)
    assert twice.shops == ("Sunday", "Wednesday")


def test_what_keeps_is_all_bought_in_the_first_shop() -> None:
    week = WEEK | {day: [Eaten([("rice, white", 280)])] for day in ("mon", "sun")}
    (rice,) = (line for line in shop_for(plan_of(week), MENU, shops=2).lines if line.food == "rice, white")
    assert (rice.shop, rice.days) == (1, ("mon", "sun"))


def test_the_rest_of_a_pack_goes_first_while_it_keeps() -> None:
    """French bread keeps 2 days; a loaf of 400 g for Monday and Tuesday, another for the end of the week."""
    week = WEEK | {day: [Eaten([("bread, French", 128)])] for day in ("mon", "tue", "sat")}
    lines = [line for line in shop_for(plan_of(week), MENU, shops=2).lines if line.food == "bread, French"]
    assert [(line.shop, line.packs, line.need_g) for line in lines] == [(1, 1, 256.0), (2, 1, 128.0)]


def test_two_shops_buy_no_fewer_grams_than_is_eaten_with_food_at_home() -> None:
    week = WEEK | {day: [Eaten([("salmon", 156)])] for day in DAYS}
    lines = [line for line in shop_for(plan_of(week), MENU, {"salmon": 500}, shops=2).lines if line.food == "salmon"]
    there = sum(line.at_home_g + line.buy_g for line in lines)
    assert there >= 7 * bought("salmon", 156)
    assert all(line.at_home_g + line.buy_g >= line.need_g for line in lines)


def test_one_day_has_one_shop_and_other_counts_are_refused() -> None:
    found = shop_for(plan_of({"mon": [Eaten([("apple", 182)])]}), MENU, shops=2)
    assert len(found.shops) == 1
    assert "the food of one day is bought in one shop" in found.notes
    with pytest.raises(BadInput, match="1 or 2"):
        shop_for(plan_of(WEEK), MENU, shops=3)


def test_a_week_may_begin_on_any_day() -> None:
    found = shop_for(plan_of({day: [Eaten([("salmon", 156)])] for day in ("sat", "sun", "mon", "tue")}), MENU, shops=2)
    assert found.shops[0] == "Friday"
    first, second = found.lines
    assert (first.days, second.days) == (("sat", "sun"), ("mon", "tue"))


def test_an_opened_tin_keeps_three_days_and_an_unopened_pack_for_long() -> None:
    tin = shop_for(plan_of({"mon": [Eaten([("chickpeas", 76)])]}), MENU)
    assert [(one.food, one.opened, one.keeps_days) for one in tin.left] == [("chickpeas", True, 3)]
    week = WEEK | {day: [Eaten([("chickpeas", 76)])] for day in ("mon", "sat")}
    found = shop_for(plan_of(week), MENU)
    assert any("tinned chickpeas 3 days (Monday to Saturday)" in one for one in found.cautions)
    rice = shop_for(plan_of({"mon": [Eaten([("rice, white", 280)])]}), MENU).left
    assert rice[0].keeps_days is not None
    assert rice[0].keeps_days > 300


def test_a_crumb_is_not_left_over() -> None:
    (line,) = shop_for(plan_of({"mon": [Eaten([("banana", 118)])]}), MENU).lines
    assert 0 < line.left_g < 1
    assert shop_for(plan_of({"mon": [Eaten([("banana", 118)])]}), MENU).left == ()


def test_a_cut_pineapple_keeps_no_longer_than_cut_ones_do() -> None:
    """129 g of pineapple are bought whole; what is left is cut. A whole apple that is left is not."""
    left = {
        one.food: (one.opened, one.keeps_days)
        for one in shop_for(plan_of({"mon": [Eaten([("pineapple", 165), ("apple", 91)])]}), MENU).left
    }
    assert left["pineapple"] == (True, 3)
    assert left["apple"][1] == 20


def test_nobody_shops_before_the_day_that_was_planned_anew() -> None:
    days = {day: [Eaten([("salmon", 156)])] for day in ("mon", "tue", "wed")}
    assert shop_for(plan_of(days, anew="tue"), MENU).shops == ("Tuesday",)
    assert shop_for(plan_of(days), MENU).shops == ("Sunday",)
