"""What is bought for plans made by hand: amounts, packs, days, household, what is at home, what is past."""

from __future__ import annotations

from collections import defaultdict
from pathlib import Path

import pytest

from mealopt import api
from mealopt.errors import BadInput
from mealopt.plans.groceries.listing import WALK
from mealopt.plans.groceries.shop import shop_for, with_groceries
from mealopt.plans.groceries.shopping import Shopping
from mealopt.plans.groceries.words import weight, words_of
from mealopt.table.pantry import AISLES
from mealopt.table.prices import PackPrice
from tests.plans.shelves import FOODS, MENU, Eaten, bought, plan_of

ROOT = Path(__file__).parents[2]


def shop(**days: list[Eaten]) -> Shopping:
    return shop_for(plan_of(days), MENU)


def test_cooked_food_is_bought_raw_and_dry_with_its_peel() -> None:
    """280 g of cooked rice are 100 g dry; 118 g of banana, of which 64 % is eaten, are 184.4 g with the peel."""
    rice, banana = sorted(
        shop(mon=[Eaten([("rice, white", 280), ("banana", 118)])]).lines, key=lambda line: line.food, reverse=True
    )
    assert rice.need_g == pytest.approx(100.0)
    assert (rice.packs, rice.pack_g, rice.buy_g, rice.left_g) == (1, 1000, 1000, 900)
    assert rice.says == "white rice, 1 pack of 1 kg"
    assert banana.need_g == pytest.approx(184.4)
    assert banana.says == "1 banana (185 g)"


def test_the_same_food_in_the_shop_is_one_line() -> None:
    """Raw and boiled carrots; eggs however they are cooked: six of them and one more are two boxes."""
    carrots, eggs = shop(
        mon=[Eaten([("carrot, raw", 61), ("egg, fried", 138)])],
        tue=[Eaten([("carrot, boiled", 156), ("egg", 200), ("egg, scrambled", 61)])],
    ).things
    assert carrots.foods == ("carrot, boiled", "carrot, raw")
    assert carrots.need_g == pytest.approx(bought("carrot, raw", 61) + bought("carrot, boiled", 156), abs=0.15)
    assert eggs.says == "12 eggs (2 boxes of 6)"
    assert eggs.days == ("mon", "tue")


def test_a_line_a_food_says_whose_packs_it_shares() -> None:
    found = shop(mon=[Eaten([("carrot, raw", 61)])], tue=[Eaten([("carrot, boiled", 156)])])
    boiled, raw = found.lines
    assert (boiled.food, boiled.packs, boiled.days, boiled.shares) == ("carrot, boiled", 4, ("tue",), "")
    assert (raw.food, raw.packs, raw.buy_g, raw.days, raw.shares) == ("carrot, raw", 0, 0.0, ("mon",), "carrot, boiled")
    assert raw.at_home_g == raw.need_g == pytest.approx(bought("carrot, raw", 61), abs=0.1)
    assert found.things[0].need_g == pytest.approx(boiled.need_g + raw.need_g, abs=0.11)
    assert found.total_price == found.things[0].price == boiled.price


def test_what_is_left_and_does_not_keep_is_added_up_with_its_part_of_the_price() -> None:
    found = shop(mon=[Eaten([("spinach, raw", 30), ("milk, semi-skimmed", 100)])], sun=[Eaten([("oats, rolled", 50)])])
    gone = {one.food: one.grams for one in found.left if not one.keeps}
    assert set(gone) == {"spinach, raw", "milk, semi-skimmed"}
    worth = sum(gone[line.food] * (line.price or 0.0) / line.buy_g for line in found.lines if line.food in gone)
    said = words_of(found).gone
    assert f"{weight(sum(gone.values()))} in all" in said
    assert f"{worth:.2f} coin of the total" in said
    (one,) = (one for one in shop(mon=[Eaten([("spinach, raw", 30)])], sun=[]).left if not one.keeps)
    assert one.food == "spinach, raw"


def test_many_loose_pieces_are_weighed() -> None:
    (potatoes,) = shop(mon=[Eaten([("potato, boiled", 3000)])]).lines
    assert potatoes.says == f"potatoes, {potatoes.buy_g / 1000:.2f} kg (about {potatoes.packs})"
    (one,) = shop(mon=[Eaten([("broccoli", 100)])]).lines
    (two,) = shop(mon=[Eaten([("broccoli", 400)])]).lines
    assert (one.says, two.says) == ("1 head of broccoli (350 g)", "2 heads of broccoli (700 g)")


def test_what_looks_alike_and_is_not_stays_apart() -> None:
    lines = shop(mon=[Eaten([("jelly sweets", 30), ("jelly sweets, gelatine-free", 30)])]).lines
    assert len(lines) == 2


def test_every_aisle_is_walked_once_and_frozen_food_last() -> None:
    assert set(AISLES) < set(WALK)
    lines = shop(mon=[Eaten([("peas", 80), ("salmon", 100), ("apple", 182), ("oats, rolled", 40)])]).lines
    assert [line.aisle for line in lines] == ["fruit", "breakfast", "fish", "frozen"]


def test_what_is_at_home_is_taken_off_and_more_of_it_is_left() -> None:
    plan = plan_of({"mon": [Eaten([("oats, rolled", 80), ("salmon", 234)])]})
    found = shop_for(plan, MENU, {"oats": 500, "salmon": 100, "honey": 50})
    oats, salmon = found.lines
    assert (oats.at_home_g, oats.packs, oats.buy_g, oats.price, oats.left_g) == (500, 0, 0, 0.0, 420)
    assert (salmon.need_g, salmon.packs, salmon.left_g) == (pytest.approx(300), 1, pytest.approx(40))
    left = {one.food: (one.grams, one.keeps_days) for one in found.left}
    assert left["oats, rolled"] == (420, None)
    assert left["honey"] == (50, None)
    assert left["salmon"][1] == 1


def test_unknown_food_at_home_is_refused_with_the_nearest() -> None:
    plan = plan_of({"mon": [Eaten([("oats, rolled", 80)])]})
    with pytest.raises(BadInput, match=r"has no 'bananna' \(nearest: banana"):
        shop_for(plan, MENU, {"bananna": 100})
    with pytest.raises(BadInput, match="'chicken, rice'"):
        shop_for(plan, MENU, {"chicken, rice": 100})
    for grams in (-1.0, float("nan"), float("inf"), 1e9):
        with pytest.raises(BadInput, match="allowed"):
            shop_for(plan, MENU, {"banana": grams})


def test_a_dishs_word_means_what_the_plan_holds_of_it() -> None:
    plan = plan_of({"mon": [Eaten([("tuna, tinned in water", 70)])]})
    assert shop_for(plan, MENU, {"tinned tuna": 145}).lines[0].packs == 0
    both = plan_of({"mon": [Eaten([("tuna, tinned in water", 70), ("tuna, tinned in oil", 70)])]})
    with pytest.raises(BadInput, match="may be tinned tuna in oil or tinned tuna in water"):
        shop_for(both, MENU, {"tinned tuna": 145})


def test_salt_and_spices_are_named_and_not_bought() -> None:
    found = shop(mon=[Eaten([("salt", 1.2), ("cinnamon", 1.3), ("rice, white", 280)], also=("rosemary", "cinnamon"))])
    assert found.also == ("cinnamon", "rosemary", "salt")
    assert [line.food for line in found.bought] == ["rice, white"]
    staples = [line for line in found.lines if line.staple]
    assert {line.food for line in staples} == {"salt", "cinnamon"}
    assert all(line.at_home_g >= line.need_g and line.buy_g == 0 for line in staples)
    assert not [one for one in found.left if one.food == "salt"]


def test_a_household_eats_alike_but_for_what_belongs_to_sessions() -> None:
    meals = [Eaten([("rice, white", 280)]), Eaten([("jelly sweets", 60)], slot="during")]
    alone, three = (
        {line.food: line.need_g for line in shop_for(plan_of({"mon": meals}, people_at_table=count), MENU).lines}
        for count in (1, 3)
    )
    assert three == {"rice, white": pytest.approx(3 * alone["rice, white"]), "jelly sweets": alone["jelly sweets"]}
    shared = shop_for(plan_of({"mon": meals}, people_at_table=3, your_share_percent=40.0), MENU)
    assert {line.food: line.need_g for line in shared.lines}["rice, white"] == pytest.approx(250.0)
    assert "40 % of each shared dish" in shared.portion
    assert "1 of 3: 33 %" in shop_for(plan_of({"mon": meals}, people_at_table=3), MENU).portion
    assert shop_for(plan_of({"mon": meals}), MENU, people=2).people == 2
    for people in (0, 13):
        with pytest.raises(BadInput, match="1 to 12"):
            shop_for(plan_of({"mon": meals}), MENU, people=people)


def test_a_meal_cooked_ahead_is_needed_when_it_is_cooked() -> None:
    found = shop(mon=[Eaten([("apple", 182)])], wed=[Eaten([("lentils", 290)], cooked_on="mon")])
    assert {line.food: line.days for line in found.lines} == {"apple": ("mon",), "lentils": ("mon",)}
    before = shop(wed=[Eaten([("lentils", 290)], cooked_on="tue")])
    assert before.lines[0].days == ("tue",)
    assert before.shops == ("Monday",)


def test_what_is_eaten_or_cooked_already_is_not_bought() -> None:
    days = {
        "mon": [Eaten([("salmon", 156)])],
        "tue": [Eaten([("apple", 182)], eaten=True), Eaten([("banana", 118)])],
        "wed": [Eaten([("lentils", 290)], cooked_on="mon"), Eaten([("rice, white", 280)], cooked_on="tue")],
    }
    found = shop_for(plan_of(days, anew="tue"), MENU)
    assert [line.food for line in found.lines] == ["banana", "rice, white"]
    assert any("left out: 3 meals" in note for note in found.notes)


def test_a_settled_meal_of_which_only_the_energy_is_known_buys_nothing() -> None:
    found = shop(mon=[Eaten([]), Eaten([("apple", 182)])])
    assert [line.food for line in found.lines] == ["apple"]
    assert any("only its energy is known" in note for note in found.notes)
    assert shop(mon=[Eaten([])]).lines == ()


def test_own_foods_have_no_pack_where_their_file_is_not_at_hand() -> None:
    (line,) = shop(mon=[Eaten([("harbour bun", 120.0)])]).lines
    assert (line.packs, line.pack_g, line.buy_g, line.price) == (0, 0, 120, None)
    found = shop_for(plan_of({"mon": [Eaten([("harbour bun", 120.0)])]}), MENU, {"harbour bun": 50})
    assert found.lines[0].buy_g == 70
    assert found.unpriced == ("harbour bun",)
    assert any("harbour bun" in note for note in found.notes)


def test_prices_of_ones_own_say_the_pack_and_name_what_they_leave_out() -> None:
    plan = plan_of({"mon": [Eaten([("rice, white", 2800), ("apple", 182)])]})
    found = shop_for(plan, MENU, prices={"rice, white": PackPrice(750, 1.5)})
    apple, rice = found.lines
    assert (rice.packs, rice.pack_g, rice.price) == (2, 750, 3.0)
    assert rice.says == "white rice, 2 packs of 750 g"
    assert (apple.pack_g, apple.price) == (FOODS["apple"].pack_g, None)
    assert (found.total_price, found.unpriced, found.invented, found.currency) == (3.0, ("apples",), False, "")


def test_two_prices_of_one_thing_are_refused() -> None:
    plan = plan_of({"mon": [Eaten([("carrot, raw", 61), ("carrot, boiled", 78)])]})
    prices = {"carrot, raw": PackPrice(1000, 1.0), "carrot, boiled": PackPrice(1000, 1.2)}
    with pytest.raises(BadInput, match="carrot, boiled and carrot, raw are both sold as carrots"):
        shop_for(plan, MENU, prices=prices)
    assert shop_for(plan, MENU, prices={"carrot, raw": PackPrice(1000, 1.0)}).total_price == 1.0


@pytest.mark.parametrize("grams", [1e7, 1e300])
def test_more_than_anybody_eats_is_refused(grams: float) -> None:
    for food in ("rice, white", "harbour bun"):
        with pytest.raises(BadInput, match=f"{food}: read"):
            shop_for(plan_of({"mon": [Eaten([(food, grams)])]}), MENU)


def test_the_document_takes_the_lines() -> None:
    plan = plan_of({"mon": [Eaten([("apple", 182)])]})
    assert with_groceries(plan, MENU).groceries == shop_for(plan, MENU).lines


def test_the_week_that_ships_is_covered_by_its_own_numbers() -> None:
    """Grams as bought of the document's items alone, food by food, against what is bought for one and for three."""
    week = api.read_plan(ROOT / "mealopt" / "ui" / "example_plan.json")
    for people, shops in ((1, 1), (1, 2), (3, 1)):
        there: dict[str, float] = defaultdict(float)
        needed: dict[str, float] = defaultdict(float)
        thing = {}
        for line in api.groceries(week, shops=shops, people=people).lines:
            thing |= dict.fromkeys(line.foods, line.foods)
            there[";".join(line.foods)] += line.at_home_g + line.buy_g
        for item in (item for day in week.days for meal in day.meals for item in meal.items):
            needed[";".join(thing[item.food])] += item.as_bought_g
        assert needed.keys() == there.keys()
        assert all(there[foods] >= grams - 1e-9 for foods, grams in needed.items())
