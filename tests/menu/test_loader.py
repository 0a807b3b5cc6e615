"""Reading dishes: each kind of mistake gets one error that names the file and the dish."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from mealopt.errors import BadInput
from mealopt.menu.dishes import read_dishes, read_menu, shipped_menu
from mealopt.table.pantry import shipped_pantry

PANTRY = shipped_pantry()

GOOD: dict[str, str] = {
    "id": '"rice_plate"',
    "name": '"rice with {beans}[ and {salad}]"',
    "kind": '"rice plate"',
    "kitchen": '"any"',
    "slots": '["lunch"]',
    "heat": '"stove"',
    "served": '"warm"',
    "minutes": "20",
    "fridge_days": "1",
    "hours_out": "1",
    "energy": "[300, 800]",
    "method": '["Boil {rice}.", "Warm {beans} with it.", "Add {salad}."]',
    "component": """[
        {role = "rice", grams = [120, 400], foods = ["rice, white"]},
        {role = "beans", grams = [80, 240], foods = ["black beans", "kidney beans"]},
        {role = "salad", pick = [0, 1], grams = [40, 150], foods = ["tomato"]},
    ]""",
    "ratio": '[{of = "beans", to = "rice", least = 0.4, most = 1.0}]',
}


def write(folder: Path, file: str = "own.toml", **changed: str | None) -> Path:
    """A file with the good dish, keys replaced (or left out, where None)."""
    keys: dict[str, Any] = GOOD | changed
    path = folder / file
    text = "\n".join(f"{key} = {value}" for key, value in keys.items() if value is not None)
    path.write_text(f"[[dish]]\n{text}\n", encoding="utf-8")
    return path


def component(rice: str = "", beans: str = "", salad: str = "") -> str:
    parts = {
        "rice": '{role = "rice", grams = [120, 400], foods = ["rice, white"]}',
        "beans": '{role = "beans", grams = [80, 240], foods = ["black beans", "kidney beans"]}',
        "salad": '{role = "salad", pick = [0, 1], grams = [40, 150], foods = ["tomato"]}',
    }
    return f"[{rice or parts['rice']}, {beans or parts['beans']}, {salad or parts['salad']}]"


def test_a_good_dish_is_read(tmp_path: Path) -> None:
    dish = read_dishes(write(tmp_path), PANTRY)["rice_plate"]
    assert dish.component[1].foods == ("black beans", "kidney beans")
    assert dish.component[2].pick == (0, 1)


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"id": '"Rice Plate"'}, "id"),
        ({"id": None}, "id"),
        ({"colour": '"red"'}, "colour"),
        ({"minutes": "500"}, "minutes"),
        ({"hours_out": "100"}, "hours_out"),
        ({"heat": '"oven"'}, "heat"),
        ({"slots": '["supper"]'}, "supper"),
        ({"slots": "[]"}, "slots"),
        ({"energy": "[800, 300]"}, "energy"),
        ({"method": "[]"}, "method"),
        ({"method": '["Boil {pasta}."]'}, "{pasta}"),
        ({"name": '"rice with {pasta}"'}, "{pasta}"),
        ({"name": '"rice with {beans} and {salad}"'}, "{salad} may be left out"),
        ({"name": '"rice[ with {beans}]"'}, "[ with {beans}]"),
        ({"name": '"rice with {beans}[ and more]"'}, "[ and more]"),
        ({"name": '"rice with {beans}[ and {salad}"'}, "square bracket"),
        ({"name": '"rice with {beans}[ and [{salad}]]"'}, "square bracket"),
        ({"ratio": '[{of = "beans", to = "pasta", most = 1.0}]'}, "'pasta'"),
        ({"apart": '[["tomato", "pasta, white"]]'}, "'pasta, white'"),
        ({"component": component(rice='{role = "rice", grams = [120, 400], foods = ["moon rice"]}')}, "'moon rice'"),
        ({"component": component(rice='{role = "beans", grams = [120, 400], foods = ["rice, white"]}')}, "twice"),
        (
            {
                "component": component(
                    rice='{role = "rice", grams = [120, 400], foods = ["rice, white", "rice, white"]}'
                )
            },
            "twice",
        ),
        ({"component": component(rice='{role = "rice", grams = [400, 120], foods = ["rice, white"]}')}, "range"),
        (
            {"component": component(rice='{role = "rice", pick = [2, 2], grams = [9, 90], foods = ["rice, white"]}')},
            "pick",
        ),
        (
            {"component": component(rice='{role = "rice", pick = [2, 1], grams = [9, 90], foods = ["rice, white"]}')},
            "pick",
        ),
    ],
)
def test_a_mistake_is_named_with_file_and_dish(tmp_path: Path, changed: dict[str, str | None], said: str) -> None:
    path = write(tmp_path, **changed)
    with pytest.raises(BadInput) as caught:
        read_dishes(path, PANTRY)
    message = str(caught.value)
    assert str(path) in message
    assert "dish 1" in message
    assert said in message
    assert "\n" not in message


def test_two_parts_that_may_be_left_out_need_a_step_each(tmp_path: Path) -> None:
    both = component(beans='{role = "beans", pick = [0, 1], grams = [80, 240], foods = ["black beans"]}')
    changed = {"component": both, "name": '"rice[ with {beans}][ and {salad}]"', "ratio": None}
    read_dishes(write(tmp_path, method='["Boil {rice}.", "Warm {beans}.", "Add {salad}."]', **changed), PANTRY)
    with pytest.raises(BadInput, match="a step of its own"):
        read_dishes(write(tmp_path, method='["Boil {rice}.", "Add {beans} and {salad}."]', **changed), PANTRY)


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        # 4 g of rice where the pantry's least is 79 g
        ({"component": component(rice='{role = "rice", grams = [2, 4], foods = ["rice, white"]}')}, "rice"),
        # no whole step of a quarter cup (39.5 g) between 120 and 150 g but 3 x 39.5 = 118.5 and 4 x 39.5 = 158
        ({"component": component(rice='{role = "rice", grams = [120, 150], foods = ["rice, white"]}')}, "rice"),
        ({"ratio": '[{of = "beans", to = "rice", least = 5.0, most = 9.0}]'}, "times rice"),
        # clash only through a third part: beans = rice, salad at least beans, salad at most a tenth of rice
        (
            {
                "component": component(salad='{role = "salad", grams = [10, 400], foods = ["tomato"]}'),
                "name": '"rice with {beans} and {salad}"',
                "ratio": '[{of = "beans", to = "rice", least = 0.9, most = 1.1},'
                ' {of = "salad", to = "beans", least = 1.0, most = 3.0}, {of = "salad", to = "rice", most = 0.3}]',
            },
            "times",
        ),
        ({"energy": "[2000, 3000]"}, "at most"),
        ({"energy": "[20, 90]"}, "at least"),
        (
            {
                "component": component(beans='{role = "beans", grams = [80, 240], foods = ["black beans"]}'),
                "apart": '[["rice, white", "black beans"]]',
            },
            "kept apart",
        ),
    ],
)
def test_a_dish_that_nothing_can_fit_is_refused(tmp_path: Path, changed: dict[str, str | None], said: str) -> None:
    path = write(tmp_path, **changed)
    with pytest.raises(BadInput) as caught:
        read_dishes(path, PANTRY)
    assert f"{path}, dish 1 (rice_plate)" in str(caught.value)
    assert said in str(caught.value)


def test_an_id_stands_once(tmp_path: Path) -> None:
    path = write(tmp_path)
    path.write_text(path.read_text(encoding="utf-8") * 2, encoding="utf-8")
    with pytest.raises(BadInput, match="twice"):
        read_dishes(path, PANTRY)
    write(tmp_path, "a.toml")
    write(tmp_path, "own.toml")
    with pytest.raises(BadInput, match="another file"):
        read_menu(tmp_path, PANTRY)


@pytest.mark.parametrize("content", [b"[[dish]\n", b"\xff\xfe\x00", b'[[dish]]\nid = "x'])
def test_what_is_no_toml_is_refused(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "own.toml"
    path.write_bytes(content)
    with pytest.raises(BadInput, match=r"own\.toml"):
        read_dishes(path, PANTRY)


@pytest.mark.parametrize("content", ["", "dish = 3\n", "[[dishes]]\n", 'dish = ["a"]\n', "dish = [[1]]\n"])
def test_what_holds_no_dishes_is_refused(tmp_path: Path, content: str) -> None:
    path = tmp_path / "own.toml"
    path.write_text(content, encoding="utf-8")
    with pytest.raises(BadInput, match=r"own\.toml"):
        read_dishes(path, PANTRY)


def test_a_file_that_is_not_there_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match="nowhere"):
        read_dishes(tmp_path / "nowhere.toml", PANTRY)


def test_the_shipped_menu_is_read_once() -> None:
    assert shipped_menu() is shipped_menu()
