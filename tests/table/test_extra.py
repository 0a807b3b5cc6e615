"""Single sugars and caffeine: what ships, and what is refused."""

from __future__ import annotations

from pathlib import Path

import pytest

from mealopt.core.nutrients import CARBOHYDRATE, FIBRE
from mealopt.errors import BadInput
from mealopt.menu.carried import read_carried, shipped_carried
from mealopt.menu.plates import per_gram
from mealopt.table.extra import HEADER, read_extra, shipped_extra, single_sugars
from mealopt.table.pantry import shipped_pantry

HEAD = ",".join(HEADER)


def test_every_line_says_its_basis_and_why() -> None:
    found = shipped_extra()
    assert len(found) > 20
    assert all(entry.basis in ("assumed", "published") and entry.why for entry in found.values())
    assert found["coffee"].caffeine is not None
    assert found["coffee"].basis == "published"


def test_single_sugars_add_up_to_the_digested_carbohydrate() -> None:
    pantry = shipped_pantry()
    for name in shipped_extra():
        held = per_gram(pantry.foods[name], pantry)
        glucose, fructose = single_sugars(name, held, shipped_extra())
        assert glucose + fructose == pytest.approx(max(0.0, held[CARBOHYDRATE] - held.get(FIBRE, 0.0)))
        assert min(glucose, fructose) >= 0


def test_a_food_without_a_line_counts_as_one_sugar() -> None:
    assert single_sugars("oats, rolled", {CARBOHYDRATE: 0.7, FIBRE: 0.1, "sugars_g": 0.01}, shipped_extra()) == (
        pytest.approx(0.6),
        0.0,
    )


def test_sucrose_is_half_and_half() -> None:
    """Chemistry: sucrose is one glucose and one fructose."""
    glucose, fructose = single_sugars("sugar", {CARBOHYDRATE: 1.0, FIBRE: 0.0, "sugars_g": 1.0}, shipped_extra())
    assert (glucose, fructose) == (0.5, 0.5)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("food,glucose", "the first line must read"),
        (f"{HEAD}\nsuger,50,50,,,assumed,it is", "no 'suger'"),
        (f"{HEAD}\nsugar,50,60,,,assumed,it is", "110 read together"),
        (f"{HEAD}\nsugar,50,,,,assumed,it is", "two numbers or two blanks"),
        (f"{HEAD}\nsugar,50,50,,,guessed,it is", "one of assumed, published"),
        (f"{HEAD}\nsugar,50,50,,,assumed,", "nothing read"),
        (f"{HEAD}\ncoffee,,,60,20,published,a source", "above the high end"),
        (f"{HEAD}\nsugar,,,,,assumed,it is", "says nothing"),
        (f"{HEAD}\nsugar,50,50,,,assumed,it is\nsugar,50,50,,,assumed,it is", "line 3: food: sugar stands twice"),
        (f"{HEAD}\nsugar,50", "2 cells read, 7 expected"),
        ("", "the first line must read"),
    ],
)
def test_what_is_refused(tmp_path: Path, text: str, words: str) -> None:
    path = tmp_path / "extra.csv"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(BadInput, match=r"extra\.csv") as refused:
        read_extra(path, shipped_pantry())
    assert words in str(refused.value)


def test_what_is_carried_is_measured_as_a_kitchen_can() -> None:
    pantry = shipped_pantry()
    for thing in shipped_carried().thing:
        assert thing.one.format("a", "b") != thing.one or "{" not in thing.one
        for filling in thing.foods:
            for name in filling.of:
                food = pantry.foods[name]
                assert filling.steps * food.step_g <= food.most_day_g
                assert "carbohydrate_g" in per_gram(food, pantry)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("[[thing", "cannot be read"),
        ("[[thing]]\nid = 'x'", "thing.0.id"),
        (
            "thing = []\n[[drink]]\nid = 'a_drink'\nsays = 'a drink'\nparts = ['suger']\ndry = true",
            "no 'suger'",
        ),
        (
            "thing = []\n" + 2 * "[[drink]]\nid = 'a_drink'\nsays = 'a drink'\nparts = ['sugar']\ndry = true\n",
            "a_drink stands twice",
        ),
    ],
)
def test_carried_things_that_are_refused(tmp_path: Path, text: str, words: str) -> None:
    path = tmp_path / "carried.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(BadInput, match=r"carried\.toml") as refused:
        read_carried(path, shipped_pantry())
    assert words in str(refused.value)
