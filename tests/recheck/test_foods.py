"""Each food: tied, measured, allowed, bought."""

from __future__ import annotations

from typing import Any

import pytest

from mealopt.recheck.facts import CaseKitchen
from mealopt.recheck.foods import forbidden


def item(data: dict[str, Any], meal: int, number: int) -> dict[str, Any]:
    found: dict[str, Any] = data["days"][0]["meals"][meal - 1]["items"][number - 1]
    return found


def test_a_source_that_the_table_does_not_hold(bench: Any) -> None:
    data = bench.data()
    item(data, 1, 1)["source"] = "USDA-SR28:99999"
    assert any("the table has no row USDA-SR28:99999" in says for says in bench.broken(data))


def test_a_food_of_ones_own_needs_its_file(bench: Any) -> None:
    data = bench.data()
    item(data, 1, 1)["source"] = "own:foods.csv#oat bar"
    assert any("own:foods.csv#oat bar" in says for says in bench.broken(data))


def test_a_food_tied_to_another_row(bench: Any) -> None:
    data = bench.data()
    item(data, 1, 1)["source"] = bench.pantry.foods["rice, white"].source
    assert any("is tied to row" in says for says in bench.broken(data))


def test_a_food_that_the_pantry_does_not_hold(bench: Any) -> None:
    data = bench.data()
    item(data, 1, 1)["food"] = "gravel"
    assert any("the pantry has no gravel" in says for says in bench.broken(data))


def test_a_food_in_another_state(bench: Any) -> None:
    data = bench.data()
    item(data, 2, 1)["state"] = "dry"
    assert ["is weighed cooked, not dry" in says for says in bench.broken(data)] == [True]


@pytest.mark.parametrize(("meal", "number", "more"), [(1, 3, 4.0), (2, 1, 3.0), (2, 4, 0.3)])
def test_grams_that_no_kitchen_measures(bench: Any, meal: int, number: int, more: float) -> None:
    data = bench.data()
    food = item(data, meal, number)
    food["grams"] += more
    food["as_bought_g"] += more * food["as_bought_g"] / (food["grams"] - more)
    bench.aimed(bench.added_up(data))
    assert ["whole number of kitchen steps" in says for says in bench.broken(data)] == [True]


def test_salt_is_weighed_finer(bench: Any) -> None:
    data = bench.data()
    item(data, 2, 5).update(grams=1.3, as_bought_g=1.3)
    bench.aimed(bench.added_up(data))
    assert bench.broken(data) == []


def test_what_is_bought(bench: Any) -> None:
    """312 g of cooked broccoli at its edible share, as the pantry has it."""
    data = bench.data()
    food = bench.pantry.foods["broccoli"]
    eaten = item(data, 2, 3)
    assert eaten["as_bought_g"] == pytest.approx(
        eaten["grams"] / food.yield_factor / food.edible_percent * 100, abs=0.1
    )
    eaten["as_bought_g"] = eaten["grams"]
    assert ["as bought" in says for says in bench.broken(data)] == [True]


def test_no_food_over_its_most_of_a_day(bench: Any) -> None:
    """A day of 2,800 kcal or less holds a food's most once, one of 4,200 kcal one and a half times."""
    data = bench.data()
    food = bench.pantry.foods["jam"]
    steps = int(food.most_day_g / food.step_g) + 1
    data["days"][0]["meals"][2]["items"][1] = bench.item("jam", steps)
    bench.aimed(bench.added_up(data))
    assert any("of jam, at most 80 g" in says for says in bench.broken(data))
    data["days"][0]["targets"]["energy_kcal"] = {"least": 1000, "aim": 4200, "most": 5000}
    assert not any("of jam" in says for says in bench.broken(data))
    data["days"][0]["meals"][2]["items"][1] = bench.item("jam", 2 * steps)
    bench.added_up(data)
    assert any("of jam, at most 120 g" in says for says in bench.broken(data))
    data["days"][0]["targets"]["energy_kcal"] = {"least": 1000, "aim": 7000, "most": 8000}
    assert any("of jam, at most 160 g" in says for says in bench.broken(data))


@pytest.mark.parametrize(
    ("kitchen", "says"),
    [({"diet": "pescatarian"}, "chicken breast is not pescatarian"),
     ({"diet": "vegetarian"}, "salmon is not vegetarian"),
     ({"diet": "vegan"}, "milk, semi-skimmed is not vegan"), ({"gluten_free": True}, "oats, rolled holds gluten"),
     ({"avoid_allergens": ["fish"]}, "salmon holds fish"), ({"never": ["banana"]}, "banana is never to be planned"),
     ({"never": ["Banana "]}, "banana is never to be planned"),
     ({"never": ["porridge_with_banana"]}, "porridge with banana is never to be planned")],
)  # fmt: skip
def test_what_this_athlete_does_not_eat(bench: Any, kitchen: dict[str, Any], says: str) -> None:
    data = bench.data()
    data["case"]["kitchen"] |= kitchen
    assert any(says in found for found in bench.broken(data))


def test_a_wrong_diet_label_is_caught_by_what_the_food_counts_as(bench: Any) -> None:
    chicken = bench.pantry.foods["chicken breast"].model_copy(update={"diet": "vegan"})
    assert list(forbidden(chicken, CaseKitchen(diet="vegan"))) == ["is not vegan"]
    assert list(forbidden(chicken, CaseKitchen(diet="omnivore"))) == []


def test_an_ordinary_kitchen_allows_every_food(bench: Any) -> None:
    for food in bench.pantry.foods.values():
        assert list(forbidden(food, CaseKitchen())) == []
