"""What is written of a list and read of a cupboard: files for next week, for a spreadsheet and to copy."""

from __future__ import annotations

import csv
import io
from datetime import date
from pathlib import Path

import pytest

from mealopt import api
from mealopt.errors import BadInput
from mealopt.plans.groceries.shop import shop_for
from tests.plans.shelves import MENU, Eaten, plan_of

WEEK = {
    "mon": [Eaten([("rice, white", 280), ("salt", 1.0), ("egg", 100)])],
    "tue": [Eaten([("oats, rolled", 80), ("spinach, raw", 60)])],
}


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("oats, rolled=400g", {"oats, rolled": 400.0}),
        ("  oats,  rolled = 1.5 kg ", {"oats, rolled": 1500.0}),
        ("# a note\n\nhoney=50 g\r\nhoney=.5kg\n", {"honey": 550.0}),
        ("\ufeffhoney=0g", {"honey": 0.0}),
        ("a=b=5g", {"a=b": 5.0}),
        ("", {}),
    ],
)
def test_a_cupboard_is_read(text: str, found: dict[str, float]) -> None:
    assert api.read_have(text) == pytest.approx(found)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("honey", "at home: read 'honey'; a food and its weight"),
        ("honey=", "at home: read 'honey='"),
        ("=5g", "at home: read '=5g'"),
        ("honey=5", "at home: read 'honey=5'"),
        ("honey=-5g", "at home: read 'honey=-5g'"),
        ("honey=nan g", "at home: read"),
        ("honey=1e400g", "at home: read"),
        ("honey=٣g", "at home: read"),
        ("honey=5g\nmilk=lots", "at home, line 2: read 'milk=lots'"),
        ("honey=" + "9" * 400 + "kg", "at most 1000 kg"),
    ],
)
def test_what_is_no_amount_is_refused(text: str, message: str) -> None:
    with pytest.raises(BadInput, match=message):
        api.read_have(text)


def test_a_file_that_cannot_be_read_is_refused(tmp_path: Path) -> None:
    (tmp_path / "broken").write_bytes(b"\xff\xfe\x00")
    for name in ("broken", "missing", "."):
        with pytest.raises(BadInput):
            api.read_have(tmp_path / name)


def test_a_spreadsheet_reads_the_table() -> None:
    shopping = shop_for(plan_of(WEEK), MENU)
    text = api.groceries_csv(shopping)
    assert text.startswith("\ufeffshop,aisle,buy,food,")
    every = list(csv.DictReader(io.StringIO(text.removeprefix("\ufeff"))))
    rows = [row for row in every if row["aisle"] != "note"]
    assert len(rows) == len(shopping.lines)
    notes = [row["buy"] for row in every if row["aisle"] == "note"]
    assert notes[:-1] == list(shopping.cautions)
    assert "not medical advice" in notes[-1]
    rice = next(row for row in rows if row["food"] == "rice, white")
    assert (rice["need_g"], rice["packs"], rice["buy_g"], rice["price_invented"]) == ("100", "1", "1000", "2.00")
    assert rows[-1]["food"] == "salt"
    assert float(rows[-1]["buy_g"]) == 0


@pytest.mark.parametrize("name", ["=1+1", "@sum(a1)", "+bun", "-bun", "\t=1", 'bun", "=2"', "bun\nline"])
def test_a_name_of_ones_own_is_no_formula_and_no_line(name: str) -> None:
    shopping = shop_for(plan_of({"mon": [Eaten([(name, 50.0)])]}), MENU)
    row, *notes = csv.DictReader(io.StringIO(api.groceries_csv(shopping).removeprefix("\ufeff")))
    assert {note["aisle"] for note in notes} == {"note"}
    assert not any(str(cell).startswith(("=", "+", "-", "@", "\t", "\r")) for cell in row.values())
    assert "\n" not in row["food"]
    assert sum(line.startswith("[ ]") for line in api.groceries_text(shopping).splitlines()) == 1


def test_the_text_has_a_box_for_each_line_and_says_what_is_invented() -> None:
    shopping = shop_for(plan_of(WEEK), MENU, {"oats": 40})
    text = api.groceries_text(shopping)
    assert text.count("[ ] ") == len(shopping.bought)
    assert "[ ] 6 eggs (1 box of 6)" in text
    assert "coin (invented prices)" in text
    assert "You may need: salt." in text
    assert "From what is at home: oats, rolled 40 g." in text
    assert "read each label" in text


def test_what_does_not_keep_is_only_a_note_in_the_file_for_next_week() -> None:
    week = WEEK | {"sat": [Eaten([("apple", 182)])]}
    text = api.left_over(shop_for(plan_of(week), MENU))
    assert "rice, white = 900 g" in text
    assert "# does not keep: spinach, raw, 140 g" in text
    assert "spinach, raw" not in api.read_have(text)


def test_plain_data_holds_everything() -> None:
    shopping = shop_for(plan_of(WEEK), MENU)
    data = api.groceries_data(shopping)
    assert [line["food"] for line in data["lines"]] == [line.food for line in shopping.lines]
    assert {"total_price", "unpriced", "people", "portion", "cautions", "invented"} <= set(data)
    assert all({"food", "grams", "keeps"} <= set(one) for one in data["left"])


def test_what_keeps_a_few_days_has_its_last_day_in_the_file() -> None:
    plan = plan_of(WEEK | {"sat": [Eaten([("spinach, raw", 60), ("apple", 182)])]})
    text = api.left_over(shop_for(plan, MENU, shops=2))
    kept = {one.food: one for one in shop_for(plan, MENU, shops=2).left if one.keeps_days}
    dated = [one for one in kept.values() if one.by]
    assert dated
    for one in dated:
        assert f"{one.food} = {one.grams:.10g} g by {one.by}" in text
    assert all(len(one.by) == 3 for one in dated), "a plan without dates says a day of the week"


def test_food_at_home_is_not_eaten_after_its_last_day() -> None:
    plan = plan_of({"mon": [Eaten([("spinach, raw", 60)])], "thu": [Eaten([("spinach, raw", 60)])]})
    fresh = shop_for(plan, MENU, api.read_have("spinach, raw=200g by fri"))
    assert (fresh.lines[0].at_home_g, fresh.lines[0].packs) == (200, 0)
    old = shop_for(plan, MENU, api.read_have("spinach, raw=200g by tue"))
    needed = sum(item.as_bought_g for item in plan.days[0].meals[0].items)
    assert old.lines[0].at_home_g == pytest.approx(needed, abs=0.11)
    assert old.lines[0].packs == 1
    assert any("past its last day" in words and "spinach" in words for words in old.cautions)


def test_food_past_its_date_when_the_plan_begins_is_left_out() -> None:
    plan = plan_of({"mon": [Eaten([("oats, rolled", 40)])]})
    dated = plan.model_copy(update={"days": tuple(d.model_copy(update={"date": date(2027, 3, 15)}) for d in plan.days)})
    gone = shop_for(dated, MENU, api.read_have("oats, rolled=400g by 2027-03-14"))
    assert (gone.lines[0].at_home_g, gone.lines[0].packs) == (0, 1)
    assert shop_for(dated, MENU, api.read_have("oats, rolled=400g by 2027-03-15")).lines[0].packs == 0


def test_fresh_food_from_home_is_not_carried_into_another_week() -> None:
    plan = plan_of({"mon": [Eaten([("oats, rolled", 40)])], "sun": [Eaten([("chicken breast", 100)])]})
    left = {
        one.food: one.keeps for one in shop_for(plan, MENU, {"chicken breast": 900, "salmon": 300, "oats": 500}).left
    }
    assert left["chicken breast"] is False
    assert left["salmon fillets"] is False
    assert left["oats, rolled"] is True


@pytest.mark.parametrize("text", ["milk=300g by never", "milk=300g by 2027-13-40", "milk=300g by"])
def test_a_last_day_that_is_none_is_refused(text: str) -> None:
    with pytest.raises(BadInput):
        api.read_have(text)


def test_the_earliest_last_day_holds_for_all_of_a_food() -> None:
    found = api.read_have("milk=300g by 2027-03-16", "milk=200g by 2027-03-18\nmilk=100g")
    assert found["milk"] == 600
    assert getattr(found["milk"], "by", "") == "2027-03-16"
