"""Numbers with a unit and no false digits, bands in words and drawn, foods in kitchen measure."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mealopt.cli.portions import measured, portion
from mealopt.cli.wording import amount, drawn, duration, limits, missed, number
from mealopt.core.bands import Band
from mealopt.core.clock import on_the_clock
from mealopt.core.words import held_beside, spoken
from mealopt.documents.plan import Item


@pytest.mark.parametrize(
    ("value", "words"),
    [
        (2739.6, "2,740"), (118.04, "118"), (9.96, "10"), (8.94, "8.9"), (9.0, "9"), (0.81, "0.8"), (0.0, "0"),
        (0.0253, "0.025"), (-12.4, "-12"),
    ],
)  # fmt: skip
def test_numbers_carry_no_false_digits(value: float, words: str) -> None:
    assert number(value) == words


def test_amounts_carry_their_unit() -> None:
    assert amount(2739.6, "energy_kcal") == "2,740 kcal"
    assert amount(4.5, "vitamin_d_ug") == "4.5 ug"


def test_durations() -> None:
    assert [duration(minutes) for minutes in (45, 60, 75, 225)] == ["45 min", "1 h", "1 h 15 min", "3 h 45 min"]


@pytest.mark.parametrize(
    ("band", "words"),
    [
        (Band(3815.1, 3892.9, 3970.8), "3,815-3,971 kcal, aim 3,893"),
        (Band(122.4, 122.4, 170), "122-170 kcal"),
        (Band(400, None, None), "at least 400 kcal"),
        (Band(None, None, 43), "at most 43 kcal"),
        (Band(None, 20, None), "aim 20 kcal"),
        (Band(), "no limit"),
    ],
)
def test_bands_in_words(band: Band, words: str) -> None:
    assert limits(band, "kcal") == words


def test_a_drawn_band_shows_where_the_value_lies() -> None:
    band = Band(0, 50, 100)
    assert drawn(band, 0, 11) == "[#----|-----]"
    assert drawn(band, 50, 11) == "[-----#-----]"
    assert drawn(band, 100, 11) == "[-----|----#]"
    assert drawn(band, -5, 11) == "[<----|-----]"
    assert drawn(band, 105, 11) == "[-----|---->]"
    assert drawn(Band(None, None, 100), 50, 11) == " -----#-----]"
    assert drawn(Band(100, None, None), 500, 11) == "[----------# "
    assert drawn(Band(), 5) == ""


values = st.floats(0, 5000)


@given(values, values, st.floats(-1000, 6000))
def test_a_drawn_band_agrees_with_what_is_missed(one: float, other: float, value: float) -> None:
    low, high = min(one, other), max(one, other)
    line = drawn(Band(low, None, high), value)
    if low == high:
        assert line == ""
        return
    assert len(line) == 17
    off = missed(Band(low, None, high), value)
    assert ("<" in line, ">" in line, "#" in line) == (off < 0, off > 0, off == 0)
    if low <= value <= high:
        assert off == 0


def test_rounding_is_no_miss_and_more_is() -> None:
    assert missed(Band(25, None, None), 24.99) == 0
    assert missed(Band(25, None, None), 24.9) == pytest.approx(-0.1)
    assert missed(Band(None, None, 10), 10.2) == pytest.approx(0.2)


@pytest.mark.parametrize(
    ("measure", "food", "words"),
    [
        ("1/2 cup", "rolled oats", "1/2 cup rolled oats"),
        ("80 g", "trout", "80 g trout"),
        ("3 eggs", "egg", "3 eggs"),
        ("1 medium apple", "apple", "1 medium apple"),
        ("1 1/2 medium tomatoes", "tomato", "1 1/2 medium tomatoes"),
        ("29 sweets", "jelly sweets", "29 jelly sweets"),
        ("2 tortillas", "wheat tortilla", "2 wheat tortillas"),
        ("1 slice", "white bread", "1 slice white bread"),
        ("2 loaves", "loaf", "2 loaves"),
        ("3 glasses", "glass noodles", "3 glasses glass noodles"),
    ],
)
def test_a_food_is_said_once(measure: str, food: str, words: str) -> None:
    assert measured(measure, food) == words


def _item(**changes: object) -> Item:
    fields = {
        "food": "oats, rolled", "source": "USDA-SR28:08120", "grams": 40.0, "measure": "1/2 cup", "state": "dry",
        "as_bought_g": 40.0,
    }  # fmt: skip
    return Item.model_validate({**fields, **changes})


def test_portions_say_measure_grams_and_state() -> None:
    assert portion(_item()) == "1/2 cup rolled oats (40 g, dry)"
    assert portion(_item(state="ready")) == "1/2 cup rolled oats (40 g)"
    assert portion(_item(measure="40 g", state="liquid")) == "40 g rolled oats"
    cooked = _item(food="rice, brown", measure="260 g", grams=260.0, state="cooked", as_bought_g=89.7)
    assert portion(cooked) == "260 g brown rice (cooked, 90 g dry)"
    named = _item(food="mushrooms, cooked", measure="3/4 cup", grams=81.0, state="cooked", as_bought_g=81.0)
    assert portion(named) == "3/4 cup cooked mushrooms (81 g)"
    own = _item(source="own:foods.toml#Bar, nutty", food="Bar, nutty", measure="1 bar", state="ready")
    assert portion(own) == "1 bar Bar, nutty (40 g)"
    peeled = _item(food="potato, boiled", measure="2 potatoes", grams=300.0, state="cooked", as_bought_g=370.0)
    assert portion(peeled) == "2 boiled potatoes (300 g, 370 g as bought)"


@pytest.mark.parametrize(
    ("food", "words"),
    [
        ("rice", "rice"), ("bread, gluten-free, vegan", "gluten-free vegan bread"), ("egg, omelette", "egg"),
        ("tuna, tinned in water", "tuna, tinned in water"), ("salmon, tinned", "tinned salmon"),
    ],
)  # fmt: skip
def test_a_food_as_a_recipe_names_it(food: str, words: str) -> None:
    assert spoken(food) == words


@pytest.mark.parametrize(
    ("value", "most", "words"),
    [(18.6, 18.4, "19 g"), (18.39, 18.4, "18 g"), (9.96, 10.0, "10 g"), (18.6, 18.9, "19 g"), (0.96, 0.97, "1 g")],
)
def test_rounding_never_shows_a_met_limit_as_broken(value: float, most: float, words: str) -> None:
    assert held_beside(value, most, "fat_g") == words
    shown, limit = float(words.split()[0]), float(amount(most, "fat_g").split()[0])
    assert (shown <= limit) == (value <= most)


def test_a_time_past_midnight_as_a_clock_shows_it() -> None:
    assert [on_the_clock(text) for text in ("23:55", "24:15", "25:30")] == ["23:55", "00:15", "01:30"]
