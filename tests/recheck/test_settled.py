"""Meals that the case settles: each is there, as it was written."""

from __future__ import annotations

from typing import Any


def settled(bench: Any, **changes: Any) -> dict[str, Any]:
    """The day of the bench with its lunch settled: by its foods, or as changed."""
    data: dict[str, Any] = bench.data()
    foods = [f"{item['food']}={item['grams']}g" for item in data["days"][0]["meals"][1]["items"]]
    entry = {"day": "tue", "time": "12:30", "what": "canteen", "foods": foods}
    data["case"]["kitchen"]["fixed"] = [{key: value for key, value in (entry | changes).items() if value is not None}]
    return data


def test_settled_foods_stand_to_the_gram(bench: Any) -> None:
    data = settled(bench)
    assert bench.broken(data) == []
    data["case"]["kitchen"]["fixed"][0]["foods"][0] = "rice, white=100g"
    assert bench.broken(data) == ["tue, meal 2 (lunch at 12:30), which is settled: 237 g of rice, white, not 100 g"]
    data["case"]["kitchen"]["fixed"][0]["foods"].append("egg=50g")
    assert any("0 g of egg, not 50 g" in says for says in bench.broken(data))


def test_a_settled_meal_that_is_not_there(bench: Any) -> None:
    assert any("settled for 13:15 is not there" in says for says in bench.broken(settled(bench, time="13:15")))
    assert bench.broken(settled(bench, day="fri")) == []


def test_a_settled_dish_is_that_dish(bench: Any) -> None:
    dish = bench.data()["days"][0]["meals"][1]["dish_id"]
    assert bench.broken(settled(bench, foods=None, dish=dish)) == []
    assert any("not porridge" in says for says in bench.broken(settled(bench, foods=None, dish="porridge")))


def test_an_energy_alone_has_no_foods(bench: Any) -> None:
    data = settled(bench, foods=None, energy_kcal=800)
    data["days"][0]["meals"][1]["notes"] = ["only its energy is known"]
    assert any("but foods stand in it" in says for says in bench.broken(data))


def test_what_the_diet_forbids_is_said_where_it_was_settled(bench: Any) -> None:
    data = settled(bench)
    data["case"]["kitchen"]["never"] = ["rice, white"]
    assert bench.broken(data) == []
    data["case"]["kitchen"]["avoid_allergens"] = ["fish"]
    assert len(bench.broken(data)) == 1, "the salmon of the dinner, which is not settled"
    data = settled(bench)
    data["case"]["kitchen"]["diet"] = "vegan"
    forbidden = [says for says in bench.broken(data) if "lunch" in says]
    assert forbidden == ["tue, meal 2 (lunch at 12:30): chicken breast is not vegan"]
    data["days"][0]["meals"][1]["notes"] = ["chicken breast is not vegan: it stands here because you settled this meal"]
    assert not any("lunch" in says for says in bench.broken(data))


def test_more_of_a_food_than_a_day_should_hold_only_where_it_is_settled(bench: Any) -> None:
    data = settled(bench)
    rice = data["days"][0]["meals"][1]["items"][0]
    most = bench.pantry.foods["rice, white"].most_day_g
    rice |= {"grams": 2.5 * most, "as_bought_g": round(2.5 * most / bench.pantry.foods["rice, white"].yield_factor, 1)}
    data["case"]["kitchen"]["fixed"][0]["foods"][0] = f"rice, white={2.5 * most}g"
    bench.aimed(bench.added_up(data))
    assert not any("at most" in says for says in bench.broken(data))
    data["days"][0]["meals"][4]["items"].append(bench.item("rice, white", 4))
    bench.aimed(bench.added_up(data))
    assert any("at most" in says and "rice" in says for says in bench.broken(data))
